package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/plan"
	"stageloom/ui/dialogs"
)

// rename asks for the name of the one selected row.
func (w *window) rename() {
	selection := w.desk.Selection()
	if len(selection) != 1 {
		w.notice.Say("Select one device, link, position or area to rename it.")
		return
	}
	ref := selection[0]
	entry := dialogs.NewEntry(w)
	entry.SetText(nameOf(w.desk.Plan(), ref))
	d := dialogs.New(w, "Rename", entry)
	take := func() {
		d.Hide()
		name := strings.TrimSpace(entry.Text)
		w.do("Rename "+name, func(e *plan.Edit) error { return e.Rename(ref, name) })
	}
	entry.OnSubmitted = func(string) { take() }
	ok := dialogs.NewAnswer(w, "Rename", take)
	ok.Importance = widget.HighImportance
	d.SetButtons([]fyne.CanvasObject{dialogs.NewAnswer(w, "Cancel", d.Hide), ok})
	d.Fit(dialogs.QuestionWidth, 0)
	w.Keys().Escapable(d.Hide)
	d.Show()
	w.window.Canvas().Focus(entry)
	entry.TypedShortcut(&fyne.ShortcutSelectAll{})
}
