package checks

import (
	"fmt"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// side is an input or an output as a rule about pairs looks at it.
type side struct {
	place     Place
	id, right string
	act       plan.ActID
	name      string
}

// pairing is all inputs, or all outputs, by id.
type pairing struct {
	all   []side
	by    map[string]side
	lefts map[string][]side // by their right side
}

func newPairing(all []side) pairing {
	p := pairing{all: all, by: make(map[string]side, len(all)), lefts: map[string][]side{}}
	for _, one := range all {
		p.by[one.id] = one
		if one.right != "" {
			p.lefts[one.right] = append(p.lefts[one.right], one)
		}
	}
	return p
}

func (s *Subject) inputSides() pairing {
	var all []side
	for row := range s.Plan.Inputs.All() {
		all = append(all, side{Place{plan.InputsTable, row.Key()}, string(row.ID), string(row.Right), row.Act, row.Name})
	}
	return newPairing(all)
}

func (s *Subject) outputSides() pairing {
	var all []side
	for row := range s.Plan.Outputs.All() {
		all = append(all, side{Place{plan.OutputsTable, row.Key()}, string(row.ID), string(row.Right), "", row.Name})
	}
	return newPairing(all)
}

// stereoSide finds stereo pairs that are none: a side that is its own other, or that of another pair too, or of another act.
func stereoSide(s *Subject) []Finding {
	return append(s.inputSides().wrong(s), s.outputSides().wrong(s)...)
}

func (p pairing) wrong(s *Subject) (found []Finding) {
	for _, left := range p.all {
		right, paired := p.by[left.right]
		if !paired {
			continue
		}
		finding := Finding{Severity: Warn, Where: []Place{left.place, right.place}}
		switch lefts := p.lefts[right.id]; {
		case right.id == left.id:
			finding.Where = finding.Where[:1]
			finding.What = fmt.Sprintf("%s is its own right side", left.name)
			finding.Remedy = "Choose the other input or output of the pair as its right side, or none."
		case left.act != right.act:
			finding.What = fmt.Sprintf("%s of %s has %s of %s as its right side", left.name, s.listName(left.act), right.name, s.listName(right.act))
			finding.Remedy = "Choose a right side of the same list: a pair plays in one act, or is of the house."
		case len(lefts) > 1:
			if lefts[0].id != left.id {
				continue
			}
			finding.Where = append(finding.Where, lefts[1].place)
			finding.What = fmt.Sprintf("%s is the right side of two pairs, with %s and %s", right.name, left.name, lefts[1].name)
			finding.Remedy = "Part one of them: a side is of one pair."
		case right.right != "" && right.right != right.id:
			third := p.by[right.right]
			finding.Where = append(finding.Where, third.place)
			finding.What = fmt.Sprintf("%s is the right side of %s, and has %s as its own right side", right.name, left.name, third.name)
			finding.Remedy = "Part one of the two: a pair has two sides, and a side is of one pair."
		default:
			continue
		}
		found = append(found, finding)
	}
	return found
}

// listName is whose list an input is of.
func (s *Subject) listName(act plan.ActID) string {
	if row, found := s.Plan.Acts.Get(plan.Key(act)); found {
		return row.Name
	}
	return "the house"
}

// pairs visits the sound stereo pairs of inputs.
func (s *Subject) pairs(visit func(left, right plan.Input)) {
	for left := range s.Plan.Inputs.All() {
		if right, found := s.Plan.Inputs.Get(plan.Key(left.Right)); found && right.ID != left.ID && right.Act == left.Act {
			visit(left, right)
		}
	}
}

// stereoUnlike finds pairs whose sides are plugged differently.
func stereoUnlike(s *Subject) (found []Finding) {
	s.pairs(func(left, right plan.Input) {
		finding := Finding{
			Severity: Warn, Where: []Place{{plan.InputsTable, left.Key()}, {plan.InputsTable, right.Key()}},
			Remedy: "Give both sides the same where that is meant; else they are no stereo pair.",
		}
		switch {
		case left.Phantom != right.Phantom:
			with, without := left, right
			if right.Phantom {
				with, without = right, left
			}
			finding.What = fmt.Sprintf("%s wants 48 V, and %s, the other side of the pair, does not", with.Name, without.Name)
		case left.Use != "" && right.Use != "" && left.Use != right.Use:
			finding.What = fmt.Sprintf("%s is %s, and %s, the other side of the pair, is %s", left.Name, typeWords(left.Use), right.Name, typeWords(right.Use))
		default:
			return
		}
		found = append(found, finding)
	})
	return found
}

// stereoHalf finds pairs of which an act has one side alone.
func stereoHalf(s *Subject) []Finding {
	return s.eachPair(func(left, right *patch.Line) Finding {
		if left.Struck == right.Struck {
			return Finding{}
		}
		has, lacks := left, right
		if left.Struck {
			has, lacks = right, left
		}
		return Finding{
			Severity: Warn, What: fmt.Sprintf("%s is used, and %s, the other side of the pair, is not", has.Input.Name, lacks.Input.Name),
			Remedy: "Use both sides or neither, or give the act a mono input of its own.",
		}
	})
}

// stereoApart finds pairs whose sides are plugged into two boxes.
func stereoApart(s *Subject) []Finding {
	return s.eachPair(func(left, right *patch.Line) Finding {
		if !left.Patched() || !right.Patched() || left.At.Device == right.At.Device {
			return Finding{}
		}
		return Finding{
			Severity: Note,
			What:     fmt.Sprintf("%s is on %s, and %s, the other side of the pair, on %s", left.Input.Name, s.Patch.SocketWords(left.At), right.Input.Name, s.Patch.SocketWords(right.At)),
			Remedy:   "Plug both into one box where levels and delay are to be alike.",
		}
	})
}

// eachPair asks of each stereo pair in each act what is wrong with it.
func (s *Subject) eachPair(find func(left, right *patch.Line) Finding) []Finding {
	var sights []sight
	for _, act := range s.Patch.Acts {
		for _, left := range act.Lines {
			if left.Input.Right == "" || left.Input.Right == left.Input.ID {
				continue
			}
			right, found := act.Line(left.Input.Right)
			if !found {
				continue
			}
			if finding := find(left, right); finding.What != "" {
				finding.Where = []Place{inputPlace(left), inputPlace(right)}
				sights = append(sights, sight{finding, act, ""})
			}
		}
	}
	return s.once(sights)
}
