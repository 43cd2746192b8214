package panel

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/fields"
	"stageloom/ui/ahead"
	"stageloom/ui/text"
)

// formRow is one field with its label and, under both, why its text cannot stand.
type formRow struct {
	widget.BaseWidget
	view  *FormView
	field text.FormField
	draft string // names what is typed and not kept, by the subject that the row was made for
	label *canvas.Text
	input interface {
		fyne.Focusable
		fyne.CanvasObject
	}
	fault   *widget.Label
	content *fyne.Container
}

func newFormRow(v *FormView, field text.FormField) *formRow {
	r := &formRow{view: v, field: field, draft: v.draftKey(field.ID), label: canvas.NewText(field.Name, theme.Color(theme.ColorNamePlaceHolder)), fault: widget.NewLabel("")}
	r.label.TextSize = theme.CaptionTextSize()
	r.fault.Wrapping, r.fault.Importance, r.fault.SizeName = fyne.TextWrapWord, widget.DangerImportance, theme.SizeNameCaptionText
	r.fault.Hide()
	if field.Choices != nil {
		r.input = newFormChoice(r)
	} else {
		r.input = newFormEntry(r)
	}
	r.content = container.New(&fieldLayout{wide: wide(field)}, r.label, r.input, r.fault)
	r.ExtendBaseWidget(r)
	return r
}

// CreateRenderer implements fyne.Widget.
func (r *formRow) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(r.content) }

// Labelled is the label and what it belongs to, for tests of the real window.
func (r *formRow) Labelled() (string, fyne.CanvasObject) { return r.field.Name, r.input }

// wide reports whether a field stands under its label rather than beside it: that is the field's own, whatever is typed into it.
func wide(field text.FormField) bool {
	return field.Long || field.Stacked || fyne.MeasureText(field.Name, theme.CaptionTextSize(), fyne.TextStyle{}).Width > labelColumn-4
}

// text is what stands in the field.
func (r *formRow) text() string {
	switch input := r.input.(type) {
	case *formEntry:
		return input.Text
	case *formChoice:
		return input.value()
	}
	return ""
}

// typed is what stands in the field where that is not what the plan has.
func (r *formRow) typed() (string, bool) {
	if choice, is := r.input.(*formChoice); is && r.field.Several {
		return choice.value(), choice.Selected != ""
	}
	return r.text(), r.text() != r.field.Text
}

// show sets the text without the field's own undo being asked.
func (r *formRow) show(text string) {
	switch input := r.input.(type) {
	case *formEntry:
		if input.Text != text {
			input.SetText(text)
		}
	case *formChoice:
		input.show(text)
	}
}

// update takes over what the plan now says; a field with the focus or with a fault keeps what was typed.
func (r *formRow) update(field text.FormField, focused bool) {
	_, typed := r.typed()
	r.field = field
	if entry, is := r.input.(*formEntry); is {
		entry.SetPlaceHolder(field.Blank)
	}
	if typed && (focused || r.fault.Visible()) {
		return
	}
	r.show(field.Text)
}

// bring puts back what was typed before and not kept.
func (r *formRow) bring(draft string) {
	if draft == r.field.Text {
		delete(r.view.drafts, r.draft)
		return
	}
	r.show(draft)
	_, _, err := r.field.Change(draft)
	if err == nil {
		err = fmt.Errorf("not kept yet: Enter keeps it, Escape puts back what was")
	}
	r.tell(err)
}

// keep makes what was typed one step of the plan; what cannot stand is told, and the text stays.
func (r *formRow) keep() bool {
	text, typed := r.typed()
	if !typed {
		r.tell(nil)
		return true
	}
	step, edit, err := r.field.Change(text)
	if err == nil && edit != nil {
		err = r.view.Do(step, edit)
	}
	r.tell(err)
	if err != nil {
		r.view.drafts[r.draft] = text
		return false
	}
	delete(r.view.drafts, r.draft)
	r.show(r.field.Text)
	return true
}

// restore puts back what the plan has and reports whether there was something to put back.
func (r *formRow) restore() bool {
	_, typed := r.typed()
	r.show(r.field.Text)
	r.tell(nil)
	delete(r.view.drafts, r.draft)
	return typed
}

// tell says why the text cannot stand, or takes that away.
func (r *formRow) tell(err error) {
	if err == nil && !r.fault.Visible() {
		return
	}
	text := ""
	if err != nil {
		text = strings.TrimPrefix(err.Error(), "not changed: ")
	}
	r.fault.SetText(text)
	r.fault.Hidden = text == ""
	r.content.Refresh()
	r.Refresh()
	r.view.settle()
}

func (r *formRow) gained() {
	r.view.focused = r.field.ID
	r.view.Reveal(r)
}

func (r *formRow) lost() {
	if r.view.focused == r.field.ID {
		r.view.focused = ""
	}
}

// formEntry is a field that is typed into.
type formEntry struct {
	widget.Entry
	row     *formRow
	pointed bool // the pointer gives the focus, and says where the cursor goes
}

func newFormEntry(r *formRow) *formEntry {
	e := &formEntry{row: r}
	e.Text, e.PlaceHolder = r.field.Text, r.field.Blank
	e.MultiLine = r.field.Long
	if e.MultiLine {
		e.Wrapping = fyne.TextWrapWord
		e.SetMinRowsVisible(min(6, max(2, 1+strings.Count(r.field.Text, "\n"))))
	}
	e.OnSubmitted = func(string) { r.keep() }
	e.ExtendBaseWidget(e)
	return e
}

// Inner is the toolkit's entry, for tests.
func (e *formEntry) Inner() *widget.Entry { return &e.Entry }

// AcceptsTab implements fyne.Tabbable: Tab goes on to the next field, from a note too.
func (e *formEntry) AcceptsTab() bool { return false }

// MouseDown implements desktop.Mouseable.
func (e *formEntry) MouseDown(event *desktop.MouseEvent) {
	e.pointed = true
	e.Entry.MouseDown(event)
	e.pointed = false
}

// FocusGained implements fyne.Focusable. What stands in a field that is reached by key is selected, so that typing replaces it.
func (e *formEntry) FocusGained() {
	e.Entry.FocusGained()
	if !e.pointed && !e.MultiLine {
		e.Entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
	e.row.gained()
}

// FocusLost implements fyne.Focusable: what was typed is kept.
func (e *formEntry) FocusLost() {
	e.Entry.FocusLost()
	e.row.lost()
	e.row.keep()
}

// TypedKey implements fyne.Focusable: Escape puts back what was there, or else goes back to the plan.
func (e *formEntry) TypedKey(event *fyne.KeyEvent) {
	switch {
	case event.Name == fyne.KeyEscape:
		if !e.row.restore() {
			e.row.view.Leave()
		}
	case functionKeys[event.Name]:
		e.row.view.Key(event.Name)
	default:
		e.Entry.TypedKey(event)
	}
}

// functionKeys are for the window wherever the cursor is.
var functionKeys = map[fyne.KeyName]bool{
	fyne.KeyF1: true, fyne.KeyF2: true, fyne.KeyF3: true, fyne.KeyF4: true, fyne.KeyF5: true, fyne.KeyF6: true,
	fyne.KeyF7: true, fyne.KeyF8: true, fyne.KeyF9: true, fyne.KeyF10: true, fyne.KeyF11: true, fyne.KeyF12: true,
}

// formChoice is a field with a list.
type formChoice struct {
	widget.Select
	row   *formRow
	ahead ahead.Ahead
}

func newFormChoice(r *formRow) *formChoice {
	c := &formChoice{row: r}
	c.PlaceHolder = " "
	if r.field.Several {
		c.PlaceHolder = r.field.Blank
	}
	c.ExtendBaseWidget(c)
	c.show(r.field.Text)
	c.OnChanged = func(string) { r.keep() }
	return c
}

// show lists the choices of the field and shows one of them by its value.
func (c *formChoice) show(value string) {
	field := c.row.field
	c.Options = c.Options[:0]
	seen := map[string]int{}
	for _, choice := range field.Choices {
		words := choice.Words
		if seen[words]++; seen[words] > 1 {
			words = fmt.Sprintf("%s (%d)", words, seen[words])
		}
		c.Options = append(c.Options, words)
	}
	c.Selected = ""
	at := slices.IndexFunc(field.Choices, func(choice fields.Option) bool { return choice.Value == value })
	if at >= 0 && !(field.Several && value == field.Text) {
		c.Selected = c.Options[at]
	}
	c.Refresh()
}

// value is what the chosen words stand for.
func (c *formChoice) value() string {
	if at := c.SelectedIndex(); at >= 0 && at < len(c.row.field.Choices) {
		return c.row.field.Choices[at].Value
	}
	return c.row.field.Text
}

// Inner is the toolkit's list, for tests.
func (c *formChoice) Inner() *widget.Select { return &c.Select }

// FocusGained implements fyne.Focusable.
func (c *formChoice) FocusGained() {
	c.Select.FocusGained()
	c.row.gained()
}

// FocusLost implements fyne.Focusable.
func (c *formChoice) FocusLost() {
	c.Select.FocusLost()
	c.row.lost()
}

// TypedRune implements fyne.Focusable: letters find a choice.
func (c *formChoice) TypedRune(letter rune) {
	if letter == ' ' && !c.ahead.Typing() {
		return
	}
	if at := c.ahead.Type(letter, c.Options, c.SelectedIndex()); at >= 0 && at != c.SelectedIndex() {
		c.SetSelectedIndex(at)
	}
}

// TypedKey implements fyne.Focusable: Escape goes back to the plan.
func (c *formChoice) TypedKey(event *fyne.KeyEvent) {
	switch event.Name {
	case fyne.KeyUp, fyne.KeyDown, fyne.KeyReturn, fyne.KeyEnter, fyne.KeyBackspace: // a letter is told as a key too
		c.ahead.End()
	}
	switch {
	case event.Name == fyne.KeySpace && c.ahead.Typing(): // it is typed
	case event.Name == fyne.KeyEscape:
		c.row.view.Leave()
	case functionKeys[event.Name]:
		c.row.view.Key(event.Name)
	default:
		c.Select.TypedKey(event)
	}
}
