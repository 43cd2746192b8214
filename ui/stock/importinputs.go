package stock

import (
	"strings"

	"stageloom/model/exchange"
	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// takeOut and takeOutOwn are what is asked about inputs that a list lacks: of the house, of an act itself.
const takeOut, takeOutOwn = "take out what it lacks", "take out its own that it lacks"

// actInView is the act that is selected, or else the one that the tables of the patch show.
func (d *importDialog) actInView() plan.ActID {
	for _, ref := range d.Desk().Selection() {
		if ref.Table == plan.ActsTable {
			return plan.ActID(ref.Key)
		}
	}
	return d.ActShown()
}

// listActs lists the acts that an input list can be for; the one in view is proposed.
func (d *importDialog) listActs() {
	d.acts = []plan.ActID{""}
	names, at := []string{"all acts"}, 0
	if !d.place.ofHouse {
		view := d.actInView()
		for _, act := range d.Desk().Assessment().Patch.Acts[1:] {
			if act.Act.ID == view {
				at = len(d.acts)
			}
			d.acts, names = append(d.acts, act.Act.ID), append(names, text.ActLabel(act))
		}
	}
	if len(d.acts) == 2 && at == 0 {
		d.acts, names = d.acts[:1], names[:1] // a plan with one act has one list, unless that act is what one is at
	}
	d.act = dialogs.NewChooser(d, names, nil)
	d.act.SetSelectedIndex(at)
	d.actSaid = at > 0
	d.act.OnChanged = func(string) {
		d.actSaid, d.dropSaid = d.act.SelectedIndex() >= 0, false
		d.reckon()
	}
	d.strike = dialogs.NewCheck(d, "what it lacks is not used", false, func(bool) { d.reckon() })
	d.drop = dialogs.NewCheck(d, takeOut, false, func(bool) {
		if !d.filling {
			d.dropSaid = true
			d.reckon()
		}
	})
}

// showChoices shows the choice that what the file holds has: a kind of cable, or an act.
func (d *importDialog) showChoices() {
	d.ofKind.Hide()
	d.ofAct.Hide()
	switch {
	case d.holds.Selected == holdsReels:
		d.ofKind.Show()
	case d.holds.Selected == holdsInputs:
		d.ofAct.Show()
		d.forAct.Hide()
		d.strike.Hide()
		d.drop.Hide()
		if len(d.acts) > 1 {
			d.forAct.Show()
		}
		if d.actChosen() != "" {
			d.strike.Show()
		}
	}
}

// actChosen is the act that the list is for; blank is all of them.
func (d *importDialog) actChosen() plan.ActID {
	if d.holds.Selected != holdsInputs {
		return ""
	}
	return d.acts[max(0, d.act.SelectedIndex())]
}

// reckonInputs reads an input list, and says field by field what it changes before anything is taken.
func (d *importDialog) reckonInputs(grid exchange.Grid) {
	d.askNothing()
	now, act := d.place.now(), d.actChosen()
	all, after := d.strike.Checked && act != "", 0
	if !all {
		after = exchange.LastNumber(now, act) // it is added to what is there
	}
	list := exchange.ReadInputs(grid, d.layout, after)
	list.Strike = all
	list.Drop = d.dropping(list, now, act)
	d.add = func(e *plan.Edit, goodOnly bool) error {
		if goodOnly {
			list = list.GoodOnly()
		}
		return list.Add(e, act)
	}
	outcome := list.Outcome(now, act)
	d.conclude(text.InputsTold(list, now, act)+text.PatchingTold(outcome.Patching), len(list.Rows), list.Faults, outcome.Patching.Left...)
	d.aside.SetText(strings.TrimSpace(text.InputChangesTold(outcome.Changes, mostFaults) + "\n\n" + text.AsideTold(list.Told, mostFaults)))
	if len(list.Rows) > 0 && !list.Numbered && len(d.acts) > 1 && !d.actSaid {
		d.filling = true
		d.act.ClearSelected()
		d.filling = false
		d.told.SetText(text.WhoseList)
		d.all.Disable()
		d.good.Disable()
	}
}

// dropping reports whether inputs that the list lacks leave: of an act where the list is another version of the act's own,
// of the house where the user says so. The question is there where there is something to ask.
func (d *importDialog) dropping(list exchange.Inputs, now *plan.Plan, act plan.ActID) bool {
	coming := list.Coming(now, act)
	if coming.Kept == 0 || len(list.Rows) == 0 {
		return false
	}
	d.filling = true
	d.drop.Text = takeOut
	if act != "" {
		d.drop.Text = takeOutOwn
	}
	if !d.dropSaid {
		d.drop.SetChecked(act != "" && coming.Known > 0)
	}
	d.filling = false
	d.drop.Show()
	d.drop.Refresh()
	return d.drop.Checked
}
