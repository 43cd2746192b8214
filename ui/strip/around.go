package strip

import (
	"fmt"

	"stageloom/model/budget"
)

// around adds what the electrical line has before the link and behind it: other links as one stretch each, the passive
// devices between, a guest's tail. They are told and not taken hold of.
func (o observer) around(parts []Part) []Part {
	before, behind := o.budget.Around()
	if len(before)+len(behind) == 0 {
		return parts
	}
	var all []Part
	add := func(part Part) {
		if last := len(all) - 1; last >= 0 {
			part.Start, part.BeforeDB = all[last].end(), all[last].BeforeDB+all[last].LossDB
		}
		all = append(all, part)
	}
	for _, step := range before {
		add(o.step(step))
	}
	for _, part := range parts {
		add(part)
	}
	for _, step := range behind {
		add(o.step(step))
	}
	return all
}

// step finds the words for a step of the line that is not the link's own.
func (o observer) step(step budget.Step) Part {
	if step.Passive() {
		return Part{
			What: budget.Panel, LossDB: step.LossDB, Labels: []string{step.Name, "panel"},
			Detail: fmt.Sprintf("%s · %d mated connections · %s dB", step.Name, step.Interfaces, budget.LossTenths(step.LossDB)),
		}
	}
	name := step.Name
	if step.Guest {
		name = "tail of " + name
	}
	length := o.needed(step.Length)
	return Part{
		What: budget.Lead, Length: step.Length, LossDB: step.LossDB, Assumed: step.Lacks > 0,
		Labels: []string{joined(name, length), name},
		Detail: joined(name, length, budget.LossTenths(step.LossDB)+" dB", "of the same line"),
	}
}
