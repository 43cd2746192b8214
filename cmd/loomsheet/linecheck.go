package main

import (
	"fmt"
	"strings"
	"time"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// lineCheckCommand prints the line check of a plan.
type lineCheckCommand struct {
	Plan filled `arg:"" help:"The plan file whose line check is meant."`

	Act filled `placeholder:"NAME" help:"The act, by its name; House is the line check before all acts. Without it that of every act is printed."`
}

// Help follows the flags in --help.
func (lineCheckCommand) Help() string {
	return "Lists the inputs of an act in the order of its line check, each with the time that it is due at and what was heard of it; then the faults that " +
		"are open. Exits with 0, or with 2 when the file cannot be used or has no such act."
}

// Run prints one act, or all of them.
func (c *lineCheckCommand) Run(a *answer) error {
	p, err := openPlan(a, string(c.Plan))
	if err != nil {
		return err
	}
	view := patch.Of(p)
	acts := view.Shown()
	if c.Act != "" {
		act, err := actNamed(view, string(c.Act))
		if err != nil {
			return err
		}
		acts = []*patch.Act{act}
	}
	a.line("%s", printable(titleOf(p)))
	for _, act := range acts {
		lineCheckSheet(&a.page, view, act)
	}
	openFaultsSheet(&a.page, view)
	return nil
}

// lineCheckSheet prints the line check of one act.
func lineCheckSheet(s *page, view *patch.View, act *patch.Act) {
	s.blank()
	title := "Line check"
	if name := view.ActName(act.Act.ID); name != "" {
		title += " of " + name
	}
	turns := view.LineCheck(act)
	if len(turns) == 0 {
		s.hang("", printable(title+": no input is used"))
		return
	}
	s.hang("", printable(fmt.Sprintf("%s, %s: %s", title, patch.CheckOrderWords(act.Act), view.CheckTally(act))))
	for _, turn := range turns {
		heard := "not yet heard"
		if last, found := view.Plan.Checked(act.Act.ID, turn.Line.Input.ID); found {
			heard = patch.HeardWords(last)
			if changed := view.ChangedSince(turn.Line, last); changed != "" {
				heard += ", patch changed since: " + changed
			}
		}
		words := fmt.Sprintf("%s: %s", strings.Join(strings.Fields(turn.Line.Input.Name), " "), heard)
		s.hang(fmt.Sprintf("%4d  %8s  %4d  ", turn.Place, turn.Planned, turn.Line.Input.Number), printable(words))
	}
}

// openFaultsSheet prints the faults of all acts that are open.
func openFaultsSheet(s *page, view *patch.View) {
	open, _ := view.Faults()
	if len(open) == 0 {
		return
	}
	s.blank()
	s.hang("", "Faults open")
	for _, fault := range open {
		in := ""
		if name := view.ActName(fault.Act.Act.ID); name != "" {
			in = ", " + name
		}
		when := fault.Check.When().Format(time.DateOnly + " 15:04")
		if fault.Check.When().IsZero() { // as a file may have it
			when = plan.Clipped(fault.Check.At)
		}
		words := fmt.Sprintf("%s since %s%s: %s", fault.Check.Result, when, in, view.Words(fault.Line))
		s.hang(fmt.Sprintf("%4d  ", fault.Line.Input.Number), printable(words))
	}
}
