package day

import (
	"fmt"
	"strings"
	"time"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// numbered names an input as it is called out: "12 Kick".
func numbered(input plan.Input) string {
	return strings.TrimSpace(fmt.Sprintf("%d %s", input.Number, plan.Clipped(input.Name)))
}

// hear notes what is heard of the input whose turn it is, and goes on to the next.
func (v *View) hear(result string) {
	turn, of, found := v.turn()
	if !found {
		return
	}
	input, act, at := turn.Line.Input, v.check.act, v.Now().Format(time.RFC3339)
	chain := v.assessment.Patch.Chain(turn.Line)
	var row plan.LineCheck
	done := v.do(fmt.Sprintf("Line check: %s %s", numbered(input), result), "", func(e *plan.Edit) (err error) {
		row, err = e.SetLineCheck(plan.LineCheck{Act: act, Input: input.ID, At: at, Result: result, Chain: chain})
		return err
	})
	if !done {
		return
	}
	said := fmt.Sprintf("%s: %s. T adds a note, U takes it back.", numbered(input), patch.HeardWords(row))
	if turn.Place == of {
		said = fmt.Sprintf("%s: %s. That was the last input: %s.", numbered(input), patch.HeardWords(row), v.assessment.Patch.CheckTally(v.actNow()))
	} else {
		v.goCheck(1)
	}
	v.check.marked = input.ID
	v.say(said)
}

// clear says that faults are cleared: the chosen one of the list, or on the page of an input those that it tells of.
func (v *View) clear() {
	var these []patch.Fault
	if fault, found := v.faultChosen(); v.sheet == faults && found {
		these = append(these, fault)
	} else if turn, _, found := v.turn(); v.sheet == check && found {
		act := v.actNow()
		if last, heard := v.assessment.Plan.Checked(v.check.act, turn.Line.Input.ID); heard && last.Fault() {
			these = append(these, patch.Fault{Check: last, Act: act, Line: turn.Line})
		}
		these = append(these, v.assessment.Patch.FaultsElsewhere(act, turn.Line)...)
	}
	switch {
	case len(these) == 0:
		v.say("There is no open fault here.")
		return
	case !these[0].Open():
		v.say(numbered(these[0].Line.Input) + ": " + patch.HeardWords(these[0].Check) + " already.")
		return
	}
	at := v.Now().Format(time.RFC3339)
	what := numbered(these[0].Line.Input)
	if len(these) > 1 {
		what = fmt.Sprintf("%d faults", len(these))
	}
	v.do(fmt.Sprintf("Line check: %s cleared", what), fmt.Sprintf("%s: cleared %s. Hear it again, U takes it back.", what, patch.ClockOf(at)), func(e *plan.Edit) error {
		for _, fault := range these {
			if err := e.ClearLineCheck(fault.Act.Act.ID, fault.Check.Input, at); err != nil {
				return err
			}
		}
		return nil
	})
}

// openNote writes a note to the input that was heard just now, else to the one that is shown.
func (v *View) openNote() {
	id := v.check.marked
	if id == "" {
		id = v.check.input
	}
	input, found := v.assessment.Plan.Inputs.Get(plan.Key(id))
	if !found {
		return
	}
	last, heard := v.assessment.Plan.Checked(v.check.act, id)
	if !heard {
		v.say("Nothing was heard of " + numbered(input) + " yet: O, D, N or W first, then its note.")
		return
	}
	v.sheet, v.said = noting, ""
	v.check.noteOf, v.check.note = id, oneLine(last.Note)
	v.Refresh()
}

// noteTitle says what the note is written to: "Note to 12 Kick, noisy 16:31".
func (v *View) noteTitle() string {
	input, _ := v.assessment.Plan.Inputs.Get(plan.Key(v.check.noteOf))
	last, _ := v.assessment.Plan.Checked(v.check.act, v.check.noteOf)
	return "Note to " + numbered(input) + ", " + patch.HeardWords(last)
}

// keepNote keeps what was typed.
func (v *View) keepNote() {
	input, _ := v.assessment.Plan.Inputs.Get(plan.Key(v.check.noteOf))
	act, note := v.check.act, strings.TrimSpace(v.check.note)
	v.sheet = check
	v.do("Line check: note to "+numbered(input), "Noted at "+numbered(input)+".", func(e *plan.Edit) error {
		return e.NoteLineCheck(act, input.ID, note)
	})
}

// showUndone shows the input whose result differs between two states, as undo leaves them.
func (v *View) showUndone(before *plan.Plan) {
	plan.Differ(before.LineChecks, v.assessment.Plan.LineChecks, func(was, is *plan.LineCheck) {
		row := was
		if row == nil {
			row = is
		}
		if row.Act == v.check.act && v.placeOf(row.Input) >= 0 {
			v.check.input = row.Input
		}
	})
	v.settleCheck()
}
