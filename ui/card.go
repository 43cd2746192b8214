package ui

import (
	"stageloom/model/checks"
	"stageloom/ui/panel"
	"stageloom/ui/text"
)

// fixed is a fix list that was asked for, for the plan it holds for.
type fixed struct {
	finding string
	fixes   []checks.Fix
}

// newCard builds the card, whose form edits the plan.
func (w *window) newCard() *panel.CardView {
	card := panel.NewCardView(w.chart, w.show)
	card.Tools = w.linkButtons()
	card.Fixes, card.Fix = w.fixesOf, w.fix
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
	if grid := w.tables.grid(); grid != nil && !grid.Keep() {
		w.notice.Warn("A cell of the table cannot be read yet: its text stays there, not in the plan.")
	}
	if !w.card.Form.Keep() {
		w.notice.Warn("A field of the card cannot be read yet: its text stays there, not in the plan.")
	}
}

// fixesOf lists the certain fixes of a finding on the plan as it is; they are tried once a plan.
func (w *window) fixesOf(f checks.Finding) []checks.Fix {
	if w.fixesFor != w.desk.Plan() {
		w.fixesFor, w.fixes = w.desk.Plan(), nil
	}
	for _, known := range w.fixes {
		if known.finding == findingKey(f) {
			return known.fixes
		}
	}
	fixes := checks.Fixes(w.desk.Plan(), f)
	w.fixes = append(w.fixes, fixed{findingKey(f), fixes})
	return fixes
}

// findingKey tells one finding from another.
func findingKey(f checks.Finding) string {
	key := f.Rule + f.What
	for _, place := range f.Where {
		key += " " + place.Table + " " + string(place.Key)
	}
	return key
}

// fix does one fix of a finding, as one step.
func (w *window) fix(_ checks.Finding, fix checks.Fix) { w.do("Fix: "+fix.Label, fix.Edit) }

// fixFinding does the first certain fix of a finding, or says that there is none.
func (w *window) fixFinding(f checks.Finding) {
	fixes := w.fixesOf(f)
	if len(fixes) == 0 {
		w.notice.Say("Nothing cures this for certain: " + f.Remedy)
		return
	}
	w.fix(f, fixes[0])
	w.notice.Say(fixes[0].Label + ": done. Ctrl Z takes it back.")
}
