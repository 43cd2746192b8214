package panel

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/plan"
	"stageloom/ui/text"
)

// FormView is a form as widgets. What is typed is kept as one step when Enter is pressed or the focus goes elsewhere;
// what cannot be read stays in its field, with the reason under it, and is still there when its row is selected again.
type FormView struct {
	widget.BaseWidget
	// Do makes one step of the plan.
	Do func(step string, edit func(*plan.Edit) error) error
	// Leave goes back to the plan, Key is told of keys that mean nothing to a field, Reveal brings a row into view.
	Leave  func()
	Key    func(fyne.KeyName)
	Reveal func(fyne.CanvasObject)
	// Resized is told when the form may be higher or lower than before.
	Resized func()

	form    text.Form
	body    *fyne.Container
	rows    []*formRow
	open    map[string]bool   // what the user folded or unfolded, by the group's name
	drafts  map[string]string // what was typed and could not be kept, by subject and field
	focused string            // the id of the field that has the focus
}

// NewFormView returns a form without fields.
func NewFormView() *FormView {
	v := &FormView{body: container.NewVBox(), open: map[string]bool{}, drafts: map[string]string{}}
	v.Do = func(string, func(*plan.Edit) error) error { return nil }
	v.Leave, v.Key, v.Reveal, v.Resized = func() {}, func(fyne.KeyName) {}, func(fyne.CanvasObject) {}, func() {}
	v.ExtendBaseWidget(v)
	return v
}

// CreateRenderer implements fyne.Widget.
func (v *FormView) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(v.body) }

// Inside lists the rows, for tests of the real window.
func (v *FormView) Inside() []fyne.CanvasObject { return v.body.Objects }

// Set shows a form. A field that has the focus, or holds what could not be read, keeps its text; the others are set
// where their text differs.
func (v *FormView) Set(form text.Form) {
	if !v.sameShape(form) {
		v.stash()
		v.form = form
		v.Rebuild()
		return
	}
	v.form = form
	for _, row := range v.rows {
		field, _ := form.Field(row.field.ID)
		row.update(field, v.focused == field.ID)
	}
}

// sameShape reports whether the rows that are there can show a form.
func (v *FormView) sameShape(form text.Form) bool {
	same := func(a, b text.FormField) bool {
		return a.ID == b.ID && a.Name == b.Name && a.Long == b.Long && (a.Choices == nil) == (b.Choices == nil)
	}
	return v.form.Subject == form.Subject && slices.EqualFunc(v.form.Groups, form.Groups, func(a, b text.FormGroup) bool {
		return a.Name == b.Name && slices.EqualFunc(a.Fields, b.Fields, same)
	})
}

// stash notes what stands in fields that was not kept, before the rows go.
func (v *FormView) stash() {
	for _, row := range v.rows {
		if text, typed := row.typed(); typed {
			v.drafts[row.draft] = text
		}
	}
}

func (v *FormView) draftKey(id string) string { return v.form.Subject + "\n" + id }

// Rebuild makes the rows anew, after a change of shape or theme. The field that had the focus has it again, be it that
// of another row: so one figure is typed for one link after the other.
func (v *FormView) Rebuild() {
	focused := v.focused
	v.rows, v.body.Objects = nil, nil
	for _, group := range v.form.Groups {
		open := v.isOpen(group)
		if group.Name != "" {
			v.body.Add(newGroupHead(v, group, open))
		}
		if !open {
			continue
		}
		for _, field := range group.Fields {
			row := newFormRow(v, field)
			if draft, left := v.drafts[row.draft]; left {
				row.bring(draft)
			}
			v.rows = append(v.rows, row)
			v.body.Add(row)
		}
	}
	v.settle()
	if focused != "" && !v.Focus(focused) {
		v.focused = ""
		v.Leave()
	}
}

func (v *FormView) settle() {
	v.body.Refresh()
	v.Refresh()
	v.Resized()
}

func (v *FormView) isOpen(group text.FormGroup) bool {
	if open, asked := v.open[group.Name]; asked && group.Name != "" {
		return open
	}
	return !group.Folded
}

// fold opens or closes a group and leaves the focus on its heading.
func (v *FormView) fold(group string, open bool) {
	v.stash()
	v.open[group] = open
	v.focused = ""
	v.Rebuild()
	for _, object := range v.body.Objects {
		if head, is := object.(*groupHead); is && head.group == group {
			v.focusOn(head)
		}
	}
}

// Focus puts the cursor into a field, the first one where id is blank, and reports whether there is one.
func (v *FormView) Focus(id string) bool {
	for _, row := range v.rows {
		if id == "" || row.field.ID == id {
			v.focusOn(row.input)
			return true
		}
	}
	return false
}

func (v *FormView) focusOn(input fyne.Focusable) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(v); c != nil {
		c.Focus(input)
	}
}

// Keep keeps what is typed, as steps of the plan, and reports whether all of it could be read: a field that was left with what
// cannot be read counts too. Commands that save, print or select something else ask for it first.
func (v *FormView) Keep() bool {
	kept := true
	for _, row := range v.rows {
		if _, typed := row.typed(); typed {
			kept = row.keep() && kept
		}
	}
	return kept
}

// groupHead is the heading of a group: a press folds and unfolds it.
type groupHead struct {
	widget.Button
	view  *FormView
	group string
}

func newGroupHead(v *FormView, group text.FormGroup, open bool) *groupHead {
	h := &groupHead{view: v, group: group.Name}
	h.Text, h.Importance, h.Alignment = group.Name, widget.LowImportance, widget.ButtonAlignLeading
	h.Icon = theme.MenuExpandIcon()
	if open {
		h.Icon = theme.MenuDropDownIcon()
	}
	h.OnTapped = func() { v.fold(h.group, !open) }
	h.ExtendBaseWidget(h)
	return h
}

// Group is the group that the heading folds.
func (h *groupHead) Group() string { return h.group }

// FocusGained implements fyne.Focusable.
func (h *groupHead) FocusGained() {
	h.Button.FocusGained()
	h.view.Reveal(h)
}

// TypedKey implements fyne.Focusable: Enter folds too, Escape goes back to the plan.
func (h *groupHead) TypedKey(event *fyne.KeyEvent) {
	switch event.Name {
	case fyne.KeyEscape:
		h.view.Leave()
	case fyne.KeyReturn, fyne.KeyEnter:
		h.OnTapped()
	case fyne.KeySpace:
		h.Button.TypedKey(event)
	default:
		h.view.Key(event.Name)
	}
}
