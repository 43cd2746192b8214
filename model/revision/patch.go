package revision

import (
	"fmt"
	"strings"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// patch are acts, inputs and outputs, and where each goes now, act by act. What an act has from the house is told once.
func (d *difference) patch() []Change {
	var l list
	rows(
		d.before.Plan.Inputs, d.after.Plan.Inputs,
		func(i plan.Input) { l.add(plan.RefOf(i), inputName(i), "gone") },
		func(i plan.Input) { l.add(plan.RefOf(i), inputName(i), "new"+d.ways(i)) },
		func(old, i plan.Input) { l.add(plan.RefOf(i), inputName(i), "changed in the input list") },
	)
	rows(
		d.before.Plan.Outputs, d.after.Plan.Outputs,
		func(o plan.Output) { l.add(plan.RefOf(o), outputName(o), "gone") },
		func(o plan.Output) { l.add(plan.RefOf(o), outputName(o), "new") },
		func(old, o plan.Output) { l.add(plan.RefOf(o), outputName(o), renamed(old.Name, o.Name)) },
	)
	rows(
		d.before.Plan.Acts, d.after.Plan.Acts,
		func(a plan.Act) { l.add(plan.RefOf(a), a.Name, "gone") },
		func(a plan.Act) { l.add(plan.RefOf(a), a.Name, "new") },
		func(old, a plan.Act) { l.add(plan.RefOf(a), a.Name, d.retimed(old, a)...) },
	)
	for _, act := range d.after.Patch.Acts {
		if old, stood := d.before.Patch.Act(act.Act.ID); stood {
			d.inputsOf(&l, old, act)
			d.outputsOf(&l, old, act)
		}
	}
	return l.changes
}

func inputName(i plan.Input) string { return fmt.Sprintf("Input %d %s", i.Number, i.Name) }

func outputName(o plan.Output) string { return fmt.Sprintf("Output %d %s", o.Number, o.Name) }

// ways says where a new input goes.
func (d *difference) ways(input plan.Input) string {
	act, found := d.after.Patch.Act(input.Act)
	if !found {
		return ""
	}
	line, found := act.Line(input.ID)
	if !found || !line.Patched() {
		return ""
	}
	return ": " + way(d.after.Patch.Words(line), input.Name)
}

func (d *difference) retimed(old, act plan.Act) (said []string) {
	if old.Name != act.Name {
		said = append(said, renamed(old.Name, act.Name))
	}
	if old.Start != act.Start || old.End != act.End {
		said = append(said, fmt.Sprintf("now %s to %s, was %s to %s", orNone(act.Start), orNone(act.End), orNone(old.Start), orNone(old.End)))
	}
	if old.Stage != act.Stage {
		said = append(said, fmt.Sprintf("now on %s, was on %s", orNone(act.Stage), orNone(old.Stage)))
	}
	if old.Order != act.Order {
		said = append(said, fmt.Sprintf("place %d in the running list, was %d", act.Order, old.Order))
	}
	return said
}

func orNone(text string) string {
	if text == "" {
		return "none"
	}
	return text
}

// inputsOf tells the inputs that go another way in an act than before.
func (d *difference) inputsOf(l *list, old, act *patch.Act) {
	for _, line := range act.Lines {
		was, stood := old.Line(line.Input.ID)
		if !stood || was == line {
			continue
		}
		if !act.House() && !d.before.Patch.Differs(old, was) && !d.after.Patch.Differs(act, line) {
			continue // the house tells it
		}
		before, now := way(d.before.Patch.Words(was), was.Input.Name), way(d.after.Patch.Words(line), line.Input.Name)
		if before != now {
			l.add(plan.RefOf(line.Input), inputName(line.Input), fmt.Sprintf("%snow %s, was %s", d.in(act), now, before))
		}
	}
}

// outputsOf tells the outputs that go another way in an act than before.
func (d *difference) outputsOf(l *list, old, act *patch.Act) {
	said := map[plan.OutputID]string{}
	for _, line := range old.Outputs {
		said[line.Output.ID] = way(d.before.Patch.OutputWords(line), line.Output.Name)
	}
	for i, line := range act.Outputs {
		before, stood := said[line.Output.ID]
		now := way(d.after.Patch.OutputWords(line), line.Output.Name)
		inherited := !act.House() && d.after.Patch.House().Outputs[i] == line
		if stood && before != now && !inherited {
			l.add(plan.RefOf(line.Output), outputName(line.Output), fmt.Sprintf("%snow %s, was %s", d.in(act), now, before))
		}
	}
}

// in names the act where there are several: "in House ".
func (d *difference) in(act *patch.Act) string {
	if name := d.after.Patch.ActName(act.Act.ID); name != "" {
		return "in " + name + " "
	}
	return ""
}

// way is a line to read aloud without the name that it begins with.
func way(words, name string) string { return strings.TrimPrefix(words, name+" → ") }
