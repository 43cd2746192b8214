package ui

import (
	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/panel"
	"stageloom/ui/pointer"
	"stageloom/ui/text"
)

// newCard builds the card, whose form edits the plan.
func (w *window) newCard() *panel.CardView {
	card := panel.NewCardView(w.chart, w.show)
	card.Tools = w.linkButtons()
	card.Fixes, card.Fix = w.fixes.of, w.fixes.do
	card.Advice = w.advice
	card.Form.Do = w.desk.Do
	card.Form.Leave = func() { w.window.Canvas().Focus(w.plan) }
	card.Form.Key = w.functionKey
	return card
}

// showForm sets the form of the selection; while something moves it waits for the end.
func (w *window) showForm() {
	if w.preview.Moving.Empty() && w.preview.Budgets == nil {
		w.card.Form.Set(text.FormOf(w.desk.Assessment(), w.desk.Selection(), w.units()))
	}
}

// focusCard puts the cursor into the first field of the card.
func (w *window) focusCard() {
	w.leaveDay()
	if !w.card.Form.Focus("") {
		w.notice.Say("There is nothing to change of this on the card: select rows of one sort.")
	}
}

// editLink puts the cursor into the figures of the one selected link, on its card.
func (w *window) editLink() {
	if len(w.selectedLinks()) != 1 || len(w.desk.Selection()) != 1 {
		w.notice.Say("Select one link to change its figures.")
		return
	}
	w.leaveDay()
	w.card.Form.Focus("typed")
}

// keepTyped keeps what is being typed into the card, before a command that saves, prints or selects something else.
func (w *window) keepTyped() {
	if !w.drawer.Keep() {
		w.warnUnread("A cell of the table")
	}
	if !w.card.Form.Keep() {
		w.warnUnread("A field of the card")
	}
}

func (w *window) warnUnread(where string) {
	w.unread = true
	w.notice.Warn(where + " cannot be read yet: its text stays there, not in the plan.")
}

// showStudy shows the curves of the selected link, how far each kind of cable reaches, and what would cure it.
func (w *window) showStudy() {
	link, found := w.studied()
	if !found {
		w.notice.Say("Select one link to see its curves.")
		return
	}
	study := text.StudyOf(w.desk.Assessment(), link, w.units())
	tips := pointer.NewTips(pointer.AfterOf(w.app))
	d := dialogs.New(w, study.Title, dialogs.Tipped(panel.NewStudyView(study, tips), tips))
	d.Closes(d.Hide)
	d.Fit(dialogs.WideWidth, 860)
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
