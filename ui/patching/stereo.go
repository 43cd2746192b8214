package patching

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// Stereo makes the two selected inputs or outputs a stereo pair, the lower number the left side, or parts them where they are
// one; one side selected alone parts its pair.
func (p *Dialogs) Stereo() {
	rows := p.Rows()
	only := func(table string) bool {
		return len(rows) > 0 && len(rows) < 3 && !slices.ContainsFunc(rows, func(ref plan.Ref) bool { return ref.Table != table })
	}
	switch {
	case only(plan.InputsTable):
		p.pairInputs(rows)
	case only(plan.OutputsTable):
		p.pairOutputs(rows)
	default:
		p.Say("Select the two sides in the table of inputs, of outputs or of the patch first: Ctrl 7.")
	}
}

func (p *Dialogs) pairInputs(rows []plan.Ref) {
	var sides []member
	for row := range p.Desk().Plan().Inputs.All() {
		sides = append(sides, member{string(row.ID), string(row.Right), row.Name, row.Number, slices.Contains(rows, plan.RefOf(row))})
	}
	p.pair("inputs", sides, func(e *plan.Edit, left, right string) error {
		return patch.PairInputs(e, plan.InputID(left), plan.InputID(right))
	})
}

func (p *Dialogs) pairOutputs(rows []plan.Ref) {
	var sides []member
	for row := range p.Desk().Plan().Outputs.All() {
		sides = append(sides, member{string(row.ID), string(row.Right), row.Name, row.Number, slices.Contains(rows, plan.RefOf(row))})
	}
	p.pair("outputs", sides, func(e *plan.Edit, left, right string) error {
		return patch.PairOutputs(e, plan.OutputID(left), plan.OutputID(right))
	})
}

// member is an input or an output that may be a side of a pair, and whether it is selected.
type member struct {
	id, right, name string
	number          int
	chosen          bool
}

// pair parts the pair that is selected, or makes one of the two that are.
func (p *Dialogs) pair(many string, all []member, put func(e *plan.Edit, left, right string) error) {
	var chosen []member
	for _, one := range all {
		if one.chosen {
			chosen = append(chosen, one)
		}
	}
	for _, left := range all {
		other := slices.IndexFunc(all, func(right member) bool { return right.id == left.right })
		if other < 0 || !left.chosen && !all[other].chosen || len(chosen) == 2 && !(left.chosen && all[other].chosen) {
			continue
		}
		p.Do(fmt.Sprintf("Part %s and %s", left.name, all[other].name), func(e *plan.Edit) error { return put(e, left.id, "") })
		return
	}
	if len(chosen) != 2 {
		p.Say("Select the other side too: two " + many + " become a stereo pair.")
		return
	}
	slices.SortFunc(chosen, func(a, b member) int { return a.number - b.number })
	p.Do(fmt.Sprintf("Stereo pair %s and %s", chosen[0].name, chosen[1].name), func(e *plan.Edit) error { return put(e, chosen[0].id, chosen[1].id) })
}

// move makes a step that moves inputs, and says which right sides of stereo pairs did not go along.
func (p *Dialogs) move(name string, edit func(*plan.Edit) error) {
	before := p.Desk().Assessment().Patch
	p.Do(name, edit)
	if said := Stayed(before, p.Desk().Assessment().Patch, p.ActShown()); said != "" {
		p.Say(said)
	}
}

// Stayed says which right sides of stereo pairs a step left where they were, though their left sides moved; blank where none.
func Stayed(before, after *patch.View, act plan.ActID) string {
	if before == after {
		return ""
	}
	said := before.Stayed(after, act, nil)
	const most = 3
	if len(said) > most {
		said = append(said[:most], fmt.Sprintf("%d more right sides stay", len(said)-most))
	}
	if len(said) == 0 {
		return ""
	}
	return strings.Join(said, "; ") + ": what is behind the left side is not free."
}
