package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// remove takes what is selected out of the plan. What takes more along says so first, and asks.
func (w *window) remove() {
	selection := w.desk.Selection()
	if len(selection) == 0 {
		w.notice.Say("Nothing is selected that could be deleted.")
		return
	}
	leaving, err := text.LeavingOf(w.desk.Plan(), selection)
	switch {
	case err != nil:
		w.refused(err)
	case leaving.Asks:
		w.askRemoval(leaving, func() { w.removeNow(leaving, selection) })
	default:
		w.removeNow(leaving, selection)
	}
}

func (w *window) removeNow(leaving text.Leaving, selection []plan.Ref) {
	err := w.desk.DoAnyway("Delete "+leaving.What, func(e *plan.Edit) error { text.Remove(e, selection); return nil })
	if err != nil {
		w.refused(err)
		return
	}
	w.notice.Say(leaving.Done() + ". Ctrl Z brings it back.")
}

// removalLines say what goes along and what stays, the worst first.
func removalLines(leaving text.Leaving) *fyne.Container {
	lines := container.NewVBox()
	line := func(text string, importance widget.Importance) {
		label := widget.NewLabel(text)
		label.Wrapping, label.Importance = fyne.TextWrapWord, importance
		lines.Add(label)
	}
	for _, touched := range leaving.OnSite {
		line("On site: "+touched, widget.DangerImportance)
	}
	for _, along := range leaving.Along {
		line(along, widget.MediumImportance)
	}
	for _, stays := range leaving.Stays {
		line(stays, widget.LowImportance)
	}
	return lines
}

// askRemoval lists what goes along; Enter deletes, Escape keeps.
func (w *window) askRemoval(leaving text.Leaving, remove func()) {
	lines := removalLines(leaving)
	d := dialogs.New(w, "Delete "+leaving.What+"?", lines)
	yes := dialogs.NewAnswer(w, "Delete", func() {
		d.Hide()
		remove()
		w.window.Canvas().Focus(w.plan)
	})
	yes.Importance = widget.DangerImportance
	keep := dialogs.NewAnswer(w, "Keep", func() {
		d.Hide()
		w.window.Canvas().Focus(w.plan)
	})
	d.SetButtons([]fyne.CanvasObject{keep, yes})
	d.Fit(dialogs.QuestionWidth, 0)
	w.Keys().Escapable(keep.OnTapped)
	d.Show()
	if len(leaving.OnSite) > 0 { // Enter leaves what lies
		w.window.Canvas().Focus(keep)
		return
	}
	w.window.Canvas().Focus(yes)
}
