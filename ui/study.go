package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"

	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/panel"
	"stageloom/ui/pointer"
	"stageloom/ui/text"
)

// showStudy shows the curves of the selected link, how far each kind of cable reaches, and what would cure it.
func (w *window) showStudy() {
	link, found := w.studied()
	if !found {
		w.notice.Say("Select one link to see its curves.")
		return
	}
	study := text.StudyOf(w.desk.Assessment(), link, w.units())
	tips := pointer.NewTips(afterOf(w.app))
	d := dialog.NewCustom(study.Title, "Close", dialogs.Tipped(panel.NewStudyView(study, tips), tips), w.window)
	size := w.window.Canvas().Size()
	d.Resize(fyne.NewSize(min(1240, size.Width*0.96), min(860, size.Height*0.94)))
	w.Keys().Escapable(d.Hide)
	d.Show()
}

// studied is the one link that is selected, or whose cable is.
func (w *window) studied() (plan.LinkID, bool) {
	selection := w.desk.Selection()
	if len(selection) != 1 {
		return "", false
	}
	card := text.CardOf(w.desk.Assessment(), selection, w.units(), text.Preview{})
	return card.Link, card.Link != ""
}

// advice is what the card folds away: what would cure the link, and what stands beside its verdict.
func (w *window) advice() []text.Figure {
	link, found := w.studied()
	if !found {
		return nil
	}
	study := text.StudyOf(w.desk.Assessment(), link, w.units())
	return append(study.Changes, study.Advice...)
}
