package ui

import (
	"fmt"

	"fyne.io/fyne/v2"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// openLineCheck shows the line check of the act that the tables show: at the selected input, or the first that is not OK.
func (w *window) openLineCheck() {
	w.keepTyped()
	if !w.day.Visible() {
		w.showDay()
	}
	w.day.BeginCheck(w.drawer.ActShown(), w.selectedInput())
	w.window.Canvas().Focus(w.day)
}

// selectedInput is the input that is selected, blank where it is none or one of several.
func (w *window) selectedInput() plan.InputID {
	if selection := w.desk.Selection(); len(selection) == 1 && selection[0].Table == plan.InputsTable {
		return plan.InputID(selection[0].Key)
	}
	return ""
}

// leaveLineCheck selects the input that was shown, and lets the tables show its act.
func (w *window) leaveLineCheck(act plan.ActID, input plan.InputID) {
	w.drawer.ShowAct(act)
	if input != "" {
		w.desk.Select(plan.Ref{Table: plan.InputsTable, Key: plan.Key(input)})
	}
	w.window.Canvas().Focus(w.plan)
}

// lineCheckItems are what the menu of the patch does about the line check.
func (w *window) lineCheckItems() []*fyne.MenuItem {
	return []*fyne.MenuItem{
		fyne.NewMenuItem("Line check", w.openLineCheck),
		w.item("Earlier in the line check", key(fyne.KeyUp, fyne.KeyModifierAlt), func() { w.moveInCheck(-1) }),
		w.item("Later in the line check", key(fyne.KeyDown, fyne.KeyModifierAlt), func() { w.moveInCheck(1) }),
	}
}

// moveInCheck moves the selected inputs in the line check of the act that is shown, and says where the first of them is then.
func (w *window) moveInCheck(by int) {
	var ids []plan.InputID
	for _, ref := range w.desk.Selection() {
		if ref.Table == plan.InputsTable {
			ids = append(ids, plan.InputID(ref.Key))
		}
	}
	if len(ids) == 0 {
		w.notice.Say("Select inputs in the table of inputs or of the patch first: Ctrl 5 or Ctrl 7.")
		return
	}
	if !w.drawer.Keep() {
		return
	}
	act, name := w.drawer.ActShown(), "Later in the line check"
	if by < 0 {
		name = "Earlier in the line check"
	}
	before := w.desk.Plan()
	w.do(name, func(e *plan.Edit) error { return patch.MoveInCheck(e, act, ids, by) })
	if w.desk.Plan() != before {
		w.notice.Say(w.checkPlaceWords(act, ids[0]))
	}
}

// checkPlaceWords say where an input stands in a line check: "Kick is 3 of 36 in the line check."
func (w *window) checkPlaceWords(act plan.ActID, id plan.InputID) string {
	view := w.desk.Assessment().Patch
	shown, _ := view.Act(act)
	turns := view.LineCheck(shown)
	for _, turn := range turns {
		if turn.Line.Input.ID == id {
			return fmt.Sprintf("%s is %d of %d in the line check.", plan.Clipped(turn.Line.Input.Name), turn.Place, len(turns))
		}
	}
	return ""
}
