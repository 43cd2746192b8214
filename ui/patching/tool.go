package patching

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// tool is a dialog for something that is done to the patch of several acts at once: what to choose, a table of what would come
// of it, and one step of the history.
type tool struct {
	*Dialogs
	title string
	form  *widget.Form
	// edit does it and says what found no place.
	edit func(e *plan.Edit) ([]patch.Left, error)
	// name is the step, of what is counted: "Move 12 inputs off SL".
	name func(counted string) string

	told   *widget.Label
	rows   *dialogs.Rows
	do     *dialogs.Answer
	step   string
	dialog *dialogs.Dialog
}

var previewWidths = []float32{90, 170, 200, 300, 320}

// newTool makes a dialog without its choices.
func (p *Dialogs) newTool(title string) *tool {
	t := &tool{Dialogs: p, title: title, form: widget.NewForm(), told: widget.NewLabel("")}
	t.told.Wrapping = fyne.TextWrapWord
	var heads []dialogs.Column
	for i, head := range text.ChangeHeads() {
		heads = append(heads, dialogs.Column{Title: head, Width: previewWidths[i]})
	}
	t.rows = dialogs.NewRows(p, heads)
	t.do = dialogs.NewAnswer(p, "Do it", t.take)
	t.do.Importance = widget.HighImportance
	return t
}

// choose adds a list to the form; Enter in it does what the dialog is for.
func (t *tool) choose(label string, options []string, at int) *dialogs.Chooser {
	list := dialogs.NewChooser(t, options, nil)
	if len(options) > 0 {
		list.SetSelectedIndex(max(0, min(at, len(options)-1)))
	}
	list.OnChanged = func(string) { t.look() }
	list.Enter = t.take
	t.form.Append(label, list)
	return list
}

// write adds a field to the form.
func (t *tool) write(label, start string) *dialogs.Entry {
	field := dialogs.NewEntry(t)
	field.Text = start
	field.OnChanged = func(string) { t.look() }
	field.OnSubmitted = func(string) { t.take() }
	t.form.Append(label, field)
	return field
}

// show opens the dialog, with the keys at one of its parts.
func (t *tool) show(focus fyne.Focusable) {
	cancel := dialogs.NewAnswer(t, "Cancel", t.leave)
	t.dialog = dialogs.New(t, t.title, container.NewBorder(
		container.NewVBox(t.form, dialogs.RoomFor(t.told, 2)), nil, nil, nil, t.rows,
	))
	t.dialog.SetButtons([]fyne.CanvasObject{cancel, t.do})
	t.look()
	t.dialog.Fit(dialogs.WideWidth, 640)
	t.Keys().Escapable(t.leave)
	t.Keys().Submits(t.take)
	t.dialog.Show()
	dialogs.Focus(t, focus)
}

func (t *tool) leave() {
	t.Keys().Submits(nil)
	t.dialog.Hide()
	t.Leave()
}

// look makes the edit on a plan of its own, and shows what differs.
func (t *tool) look() {
	before := t.Desk().Assessment().Patch
	var left []patch.Left
	next, err := plan.Do(t.Desk().Plan(), plan.NewIDSource(1, 1), func(e *plan.Edit) (err error) {
		left, err = t.edit(e)
		return err
	})
	if err != nil {
		t.step = ""
		t.say(words.Sentence(err), widget.WarningImportance)
		t.rows.Fill(nil)
		t.do.SetText("Do it")
		return
	}
	after := patch.Next(before, next)
	c := text.PatchChanges{Before: before, After: after, Changes: patch.Changes(before, after), Left: left}
	t.rows.Fill(c.Rows())
	t.say(c.Told(), widget.MediumImportance)
	t.step = t.name(c.Counted())
	if c.Counted() == "" {
		t.step = ""
	}
	t.do.SetText(orElse(t.step, "Do it"))
}

func orElse(said, other string) string {
	if said == "" {
		return other
	}
	return said
}

func (t *tool) say(words string, importance widget.Importance) {
	t.told.Importance = importance
	t.told.SetText(words)
}

// take does what the preview shows, as one step. Where it is refused, the reason stands already.
func (t *tool) take() {
	if t.step == "" {
		return
	}
	name := t.step
	err := t.Desk().Do(name, func(e *plan.Edit) error {
		_, err := t.edit(e)
		return err
	})
	if err != nil {
		t.say(words.Sentence(err), widget.WarningImportance)
		return
	}
	told := t.told.Text
	t.leave()
	t.Dialogs.Say(name + " is done. " + told + " Ctrl Z takes it back.")
}
