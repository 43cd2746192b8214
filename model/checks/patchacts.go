package checks

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// sight is a finding in one act. Its words end before the act is named; rest follows on the name.
type sight struct {
	Finding
	act  *patch.Act
	rest string
}

// once tells findings that are the same in several acts once, with the acts in the order of the running list.
func (s *Subject) once(sights []sight) (found []Finding) {
	known := map[string]int{}
	var rests []string
	for _, one := range sights {
		key := fmt.Sprintf("%d\x00%s\x00%s\x00%v", one.Severity, one.What, one.rest, one.Where)
		at, seen := known[key]
		if !seen {
			at = len(found)
			known[key] = at
			found, rests = append(found, one.Finding), append(rests, one.rest)
		}
		if id := one.act.Act.ID; !slices.Contains(found[at].Acts, id) {
			found[at].Acts = append(found[at].Acts, id)
		}
	}
	for i := range found {
		found[i].Acts = s.running(found[i].Acts)
		found[i].What += s.in(found[i].Acts) + rests[i]
	}
	return found
}

// running puts acts in the order of the running list, the house first.
func (s *Subject) running(acts []plan.ActID) (sorted []plan.ActID) {
	for _, act := range s.Patch.Acts {
		if slices.Contains(acts, act.Act.ID) {
			sorted = append(sorted, act.Act.ID)
		}
	}
	return sorted
}

// in ends a sentence with its acts, where the plan has several.
func (s *Subject) in(acts []plan.ActID) string {
	const most = 5
	if len(s.Patch.Shown()) == 1 || len(acts) == 0 {
		return ""
	}
	bands := len(acts)
	if acts[0] == "" {
		bands--
	}
	if bands == len(s.Patch.Acts)-1 {
		return " in every act"
	}
	var names []string
	for _, id := range acts {
		names = append(names, s.Patch.ActName(id))
	}
	if len(names) > most {
		return fmt.Sprintf(" in %s and %d more acts", strings.Join(names[:most-1], ", "), len(names)-most+1)
	}
	if len(names) == 1 {
		return " in " + names[0]
	}
	return fmt.Sprintf(" in %s and %s", strings.Join(names[:len(names)-1], ", "), names[len(names)-1])
}

// sharers are the acts that have a line: the one whose own it is, or the house and all that inherit it.
func (s *Subject) sharers(act *patch.Act, line *patch.Line) []*patch.Act {
	if !act.House() {
		return []*patch.Act{act}
	}
	var acts []*patch.Act
	for _, other := range s.Patch.Acts {
		if same, found := other.Line(line.Input.ID); found && same == line {
			acts = append(acts, other)
		}
	}
	return acts
}

// inherits reports whether an act has all of these lines from the house.
func inherits(act *patch.Act, lines ...*patch.Line) bool {
	return !slices.ContainsFunc(lines, func(line *patch.Line) bool {
		same, found := act.Line(line.Input.ID)
		return !found || same != line
	})
}

// own visits the acts with the lines that each has otherwise than the house; the house has all its own.
func (s *Subject) own(visit func(act *patch.Act, lines []*patch.Line)) {
	for _, act := range s.Patch.Acts {
		var lines []*patch.Line
		for _, line := range act.Lines {
			if act.House() || s.Patch.Differs(act, line) {
				lines = append(lines, line)
			}
		}
		if len(lines) > 0 {
			visit(act, lines)
		}
	}
}

// bundle gathers inputs of one device of which the same holds in the same acts.
type bundle struct {
	device plan.DeviceID
	more   string // what else tells bundles apart
	acts   []*patch.Act
	lines  []*patch.Line
}

// bundles puts inputs together by their device, what else tells them apart, and the acts in which it holds.
func bundles(noted []bundle) (all []*bundle) {
	type one struct {
		device plan.DeviceID
		input  plan.InputID
		more   string
	}
	var order []*bundle
	inputs := map[one]*bundle{}
	for _, n := range noted {
		key := one{n.device, n.lines[0].Input.ID, n.more}
		if inputs[key] == nil {
			inputs[key] = &bundle{device: n.device, more: n.more, lines: n.lines}
			order = append(order, inputs[key])
		}
		inputs[key].acts = append(inputs[key].acts, n.acts...)
	}
	for _, b := range order {
		at := slices.IndexFunc(all, func(other *bundle) bool {
			return other.device == b.device && other.more == b.more && slices.Equal(other.acts, b.acts)
		})
		if at < 0 {
			all = append(all, b)
			continue
		}
		all[at].lines = append(all[at].lines, b.lines...)
	}
	return all
}

// words name the inputs of a bundle, and where it is.
func (b *bundle) words() (names []string, where []Place) {
	where = []Place{{plan.DevicesTable, plan.Key(b.device)}}
	for _, line := range b.lines {
		names = append(names, line.Input.Name)
		where = append(where, inputPlace(line))
	}
	return names, where
}

// sights tell a bundle's finding in each of its acts.
func (b *bundle) sights(finding Finding, rest string) (all []sight) {
	for _, act := range b.acts {
		all = append(all, sight{finding, act, rest})
	}
	return all
}
