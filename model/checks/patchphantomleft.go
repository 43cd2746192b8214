package checks

import (
	"fmt"
	"slices"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
)

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
	for act, left := range s.Patch.Leavings() {
		if len(left) == 0 {
			continue
		}
		stays := s.fed(act)
		for _, line := range act.Lines {
			if line.Input.Phantom {
				continue
			}
			for _, feed := range s.Patch.Feeds(act, line) {
				was, on := left[feed.Socket]
				if !on || was.Line.Input.ID == line.Input.ID || stays[feed.Socket] != nil {
					continue
				}
				key := pair{feed.Socket, was.Line.Input.ID, line.Input.ID}
				if leavings[key] == nil {
					leavings[key] = &leaving{socket: feed.Socket, was: was.Line, next: line}
					order = append(order, key)
				}
				leavings[key].before, leavings[key].after = append(leavings[key].before, was.Act), append(leavings[key].after, act)
			}
		}
	}
	for _, key := range order {
		if finding, told := s.left(leavings[key]); told {
			found = append(found, finding)
		}
	}
	return found
}

// leftOn is how bad it is that 48 V was left on for an input: it stops a ribbon and a line output; a DI box may be passive or
// feed it back to what is plugged in; of a microphone of which nobody told more, it is to be asked whether it is a ribbon.
func leftOn(input plan.Input) (severity Severity, told bool) {
	switch of := patch.TypeOf(input); of {
	case patch.Ribbon, patch.LineType:
		return Stop, true
	case patch.DIType, patch.PassiveDI:
		return Warn, true
	case patch.MicType, "":
		return Note, true
	}
	return Note, false
}

// left is the finding of one line after another, with the acts in which that is so.
func (s *Subject) left(l *leaving) (Finding, bool) {
	severity, told := leftOn(l.next.Input)
	if !told {
		return Finding{}, false
	}
	of := patch.TypeWords(l.next.Input)
	finding := Finding{
		Severity: severity, Where: []Place{inputPlace(l.next), inputPlace(l.was), {plan.DevicesTable, plan.Key(l.socket.Device)}},
		What: fmt.Sprintf("%s had 48 V for %s in %s, and %s (%s) comes on it in %s", s.Patch.SocketWords(l.socket),
			l.was.Input.Name, actNames(l.before), l.next.Input.Name, of, actNames(l.after)),
		Remedy: "Switch 48 V off at the changeover and wait some seconds before plugging in, or take another socket.",
	}
	switch severity {
	case Stop:
		finding.Remedy = fmt.Sprintf("Mute, switch 48 V off, wait some seconds until it has gone, then plug the %s and leave 48 V off; or take another socket.", of)
	case Note:
		if of == "" {
			of = "type not told"
		}
		finding.What = fmt.Sprintf("%s had 48 V for %s in %s, and %s (%s) comes on it in %s: ask whether it is a ribbon", s.Patch.SocketWords(l.socket),
			l.was.Input.Name, actNames(l.before), l.next.Input.Name, of, actNames(l.after))
		finding.Remedy = "Switch 48 V off before it is plugged, and give the input its type: dynamic or ribbon."
		finding.many, finding.item, finding.noun = "of untold type come on sockets that had 48 V in the act before; ask whether one is a ribbon", l.next.Input.Name, "inputs"
	}
	for _, act := range l.after {
		finding.Where, finding.Acts = append(finding.Where, Place{plan.ActsTable, act.Act.Key()}), append(finding.Acts, act.Act.ID)
	}
	return finding, true
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
