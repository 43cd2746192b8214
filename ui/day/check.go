package day

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// checking is where the line check stands in the view.
type checking struct {
	act   plan.ActID
	input plan.InputID
	place int // of the input in the order, kept where the input goes
	// marked is the input that was heard last, which a note belongs to until another key is pressed.
	marked plan.InputID
	// noteOf is the input that a note is written to, note what is typed.
	noteOf plan.InputID
	note   string
	// open and cleared are the faults listed.
	open, cleared []patch.Fault
}

// checks reports whether a sheet belongs to the line check.
func (s shown) checks() bool { return s == check || s == faults || s == noting }

// Checking is the act and the input of the line check that is shown; of a plan without inputs the input is blank.
func (v *View) Checking() (act plan.ActID, input plan.InputID, is bool) {
	return v.check.act, v.check.input, v.sheet.checks()
}

// BeginCheck shows the line check of an act at an input, or where it has no such turn at the first that is not OK.
func (v *View) BeginCheck(act plan.ActID, input plan.InputID) {
	v.sheet, v.said = check, ""
	v.check.act, v.check.input, v.check.marked = act, input, ""
	if at := v.placeOf(input); at < 0 {
		v.check.input = ""
		v.check.place = max(0, slices.IndexFunc(v.turns(), v.isToHear))
	}
	v.settleCheck()
}

// openCheck goes from the links to the line check of the act that the tables show.
func (v *View) openCheck() {
	act := v.check.act
	if v.ActShown != nil && v.check.input == "" {
		act = v.ActShown()
	}
	v.BeginCheck(act, v.check.input)
}

// openLinks goes from the line check to the links.
func (v *View) openLinks() { v.Begin(v.link) }

// actNow is the act whose line check is shown: the house or the first act where it is gone.
func (v *View) actNow() *patch.Act {
	shown := v.assessment.Patch.Shown()
	for _, act := range shown {
		if act.Act.ID == v.check.act {
			return act
		}
	}
	return shown[0]
}

func (v *View) turns() []patch.Turn { return v.assessment.Patch.LineCheck(v.actNow()) }

func (v *View) placeOf(input plan.InputID) int {
	return slices.IndexFunc(v.turns(), func(turn patch.Turn) bool { return turn.Line.Input.ID == input })
}

// isToHear reports whether an input is not OK yet, or is patched otherwise since.
func (v *View) isToHear(turn patch.Turn) bool {
	last, found := v.assessment.Plan.Checked(v.check.act, turn.Line.Input.ID)
	return !found || last.Result != plan.HeardOK || v.assessment.Patch.ChangedSince(turn.Line, last) != ""
}

// turn is the input whose turn it is, and how many there are.
func (v *View) turn() (turn patch.Turn, of int, found bool) {
	turns := v.turns()
	if v.check.place < 0 || v.check.place >= len(turns) {
		return turn, len(turns), false
	}
	return turns[v.check.place], len(turns), true
}

// settleCheck keeps to the input that is shown as long as the act has it, else to its place in the order.
func (v *View) settleCheck() {
	v.check.act = v.actNow().Act.ID
	v.check.open, v.check.cleared = v.assessment.Patch.Faults()
	if at := v.placeOf(v.check.input); at >= 0 {
		v.check.place = at
	}
	v.check.place = max(0, min(v.check.place, len(v.turns())-1))
	v.check.input = ""
	if turn, _, found := v.turn(); found {
		v.check.input = turn.Line.Input.ID
	}
	if v.sheet == faults {
		v.chosen = max(0, min(v.chosen, v.listed()-1))
	}
	v.Refresh()
}

// goCheck shows the input so many turns on, the first and the last at most; it says where there is none further.
func (v *View) goCheck(by int) {
	n := len(v.turns())
	to := v.check.place + by
	v.said, v.check.marked = "", ""
	switch {
	case n == 0:
	case to < 0:
		v.say("This is the first input of this line check.")
	case to >= n:
		v.say("This is the last input of this line check: " + v.assessment.Patch.CheckTally(v.actNow()).String() + ".")
	default:
		v.check.place, v.check.input = to, ""
		v.settleCheck()
	}
}

// nextAct shows the line check of the next act of the running list, or the one before, at the first input that is not OK.
func (v *View) nextAct(by int) {
	shown := v.assessment.Patch.Shown()
	if len(shown) < 2 {
		v.say("There is one patch for the whole show. Acts are begun in the table of acts.")
		return
	}
	at := slices.Index(shown, v.actNow())
	v.BeginCheck(shown[(at+by+len(shown))%len(shown)].Act.ID, "")
}

// faultChosen is the fault that the list has chosen.
func (v *View) faultChosen() (patch.Fault, bool) {
	all := slices.Concat(v.check.open, v.check.cleared)
	if v.chosen >= len(all) {
		return patch.Fault{}, false
	}
	return all[v.chosen], true
}

// openFaults lists the faults of all acts.
func (v *View) openFaults() {
	v.sheet, v.said, v.chosen, v.check.marked = faults, "", 0, ""
	v.settleCheck()
}

// pageBy goes along the links, or along the acts of a line check.
func (v *View) pageBy(by int) {
	if v.sheet == check {
		v.nextAct(by)
		return
	}
	v.aside(by)
}

// checkCommand takes commands of the menu that the line check has of its own: the next and the previous act.
func (v *View) checkCommand(custom *desktop.CustomShortcut) bool {
	by := map[fyne.KeyName]int{fyne.KeyPageDown: 1, fyne.KeyPageUp: -1}[custom.KeyName]
	if by == 0 || custom.Modifier != fyne.KeyModifierShortcutDefault {
		return false
	}
	v.pageBy(by)
	return true
}
