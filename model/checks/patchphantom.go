package checks

import (
	"fmt"
	"slices"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// phantomBlocked finds inputs whose 48 V cannot come to them: switched behind an isolated output, at a socket that has none,
// or isolated on every leg.
func phantomBlocked(s *Subject) []Finding {
	var sights []sight
	s.own(func(act *patch.Act, lines []*patch.Line) {
		for _, line := range lines {
			if !line.Patched() || !line.Input.Phantom || len(line.Legs) == 0 {
				continue
			}
			finding := s.blocked(line)
			if finding.What == "" {
				continue
			}
			finding.Where = []Place{inputPlace(line), {plan.DevicesTable, plan.Key(line.At.Device)}}
			for _, sharer := range s.sharers(act, line) {
				sights = append(sights, sight{finding, sharer, ""})
			}
		}
	})
	return s.once(sights)
}

func (s *Subject) blocked(line *patch.Line) Finding {
	atSplitter := s.Patch.Supplies(line.At.Device)
	open, able := atSplitter, atSplitter && s.Patch.Phantom(line.At)
	for i := range line.Legs {
		leg := &line.Legs[i]
		if leg.Isolated && leg.Phantom != "" {
			return Finding{
				Severity: Stop,
				What:     fmt.Sprintf("48 V for %s is switched by %s at %s, behind an isolated output: it does not come through", line.Input.Name, s.Patch.Name(leg.Phantom), s.Patch.SocketWords(leg.Socket)),
				Remedy:   "Switch it on the direct side of the splitter, or in the splitter where it is active.",
			}
		}
		if !leg.Isolated {
			open, able = true, able || s.Patch.Phantom(leg.Socket)
		}
	}
	switch {
	case !open:
		return Finding{
			Severity: Stop, What: fmt.Sprintf("%s wants 48 V, and every split from it is isolated", line.Input.Name),
			Remedy: "Give it a direct split to one box, or a splitter or box at the microphone that supplies 48 V.",
		}
	case !able:
		return Finding{
			Severity: Stop, What: fmt.Sprintf("%s wants 48 V, and %s has none", line.Input.Name, s.Patch.SocketWords(line.Legs[0].Socket)),
			Remedy: "Plug it into a microphone input, or put a supply of 48 V between.",
		}
	}
	return Finding{}
}

// left is what a socket was left with: 48 V for a line of an act.
type left struct {
	line *patch.Line
	act  *patch.Act
}

// leaving is one line after another on one socket, which 48 V was left on: the acts before and those after, in order.
type leaving struct {
	socket        patch.Socket
	was, next     *patch.Line
	before, after []*patch.Act
}

// phantomLeft walks the running list of each stage: what socket was left with 48 V, and what comes on it next. What comes
// again at other changeovers is told once.
func phantomLeft(s *Subject) (found []Finding) {
	type pair struct {
		socket    patch.Socket
		was, next plan.InputID
	}
	var order []pair
	leavings := map[pair]*leaving{}
	stages := map[string]map[patch.Socket]left{}
	for _, act := range s.Patch.Acts {
		if act.House() {
			continue
		}
		if stages[act.Act.Stage] == nil {
			stages[act.Act.Stage] = map[patch.Socket]left{}
		}
		s.follow(act, stages[act.Act.Stage], func(socket patch.Socket, was left, line *patch.Line) {
			key := pair{socket, was.line.Input.ID, line.Input.ID}
			if leavings[key] == nil {
				leavings[key] = &leaving{socket: socket, was: was.line, next: line}
				order = append(order, key)
			}
			leavings[key].before, leavings[key].after = append(leavings[key].before, was.act), append(leavings[key].after, act)
		})
	}
	for _, key := range order {
		found = append(found, s.left(leavings[key]))
	}
	return found
}

// follow takes an act's lines over what was left on the sockets of its stage, and tells what comes on 48 V that it does not want.
func (s *Subject) follow(act *patch.Act, before map[patch.Socket]left, tell func(patch.Socket, left, *patch.Line)) {
	for _, line := range act.Lines {
		for i := range line.Legs {
			leg := &line.Legs[i]
			if leg.Isolated || !s.Patch.Phantom(leg.Socket) {
				continue
			}
			was := before[leg.Socket]
			danger := line.Input.Use == "line" || line.Input.Use == "DI"
			if was.line != nil && was.act != act && was.line.Input.ID != line.Input.ID && danger && !line.Input.Phantom {
				tell(leg.Socket, was, line)
			}
			delete(before, leg.Socket)
			if line.Input.Phantom {
				before[leg.Socket] = left{line, act}
			}
		}
	}
}

// left is the finding of one line after another, with the acts in which that is so.
func (s *Subject) left(l *leaving) Finding {
	finding := Finding{
		Severity: Warn, Where: []Place{inputPlace(l.next), inputPlace(l.was), {plan.DevicesTable, plan.Key(l.socket.Device)}},
		What: fmt.Sprintf("%s had 48 V for %s in %s, and %s (%s) comes on it in %s", s.Patch.SocketWords(l.socket),
			l.was.Input.Name, actNames(l.before), l.next.Input.Name, l.next.Input.Use, actNames(l.after)),
		Remedy: "Switch 48 V off at the changeover and wait some seconds before plugging in, or take another socket.",
	}
	for _, act := range l.after {
		finding.Where, finding.Acts = append(finding.Where, Place{plan.ActsTable, act.Act.Key()}), append(finding.Acts, act.Act.ID)
	}
	return finding
}

// actNames lists acts by their names, each once.
func actNames(acts []*patch.Act) string {
	var names []string
	for i, act := range acts {
		if !slices.Contains(acts[:i], act) {
			names = append(names, act.Act.Name)
		}
	}
	return words.And(names, fewNamed)
}
