package checks

import (
	"cmp"
	"fmt"
	"slices"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

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

func inputPlace(line *patch.Line) Place { return Place{"inputs", line.Input.Key()} }

func doublePatched(s *Subject) (found []Finding) {
	s.own(func(act *patch.Act, lines []*patch.Line) {
		touched := map[patch.Socket]bool{}
		for _, line := range lines {
			for socket := range line.Sockets() {
				touched[socket] = true
			}
		}
		holders := make(map[patch.Socket]*patch.Line, len(touched))
		told := map[[2]plan.InputID]bool{}
		for _, line := range act.Lines {
			for socket := range line.Sockets() {
				other := holders[socket]
				pair := [2]plan.InputID{}
				if holders[socket] = line; other != nil {
					pair = [2]plan.InputID{other.Input.ID, line.Input.ID}
				}
				if other == nil || other == line || !touched[socket] || told[pair] {
					continue
				}
				told[pair] = true
				found = append(found, Finding{
					Severity: Stop, Where: []Place{inputPlace(line), inputPlace(other), {"devices", plan.Key(socket.Device)}}, Act: act.Act.ID,
					What:   fmt.Sprintf("%s holds two inputs%s: %s and %s", s.Patch.SocketWords(socket), s.in(act), other.Input.Name, line.Input.Name),
					Remedy: "Move one of them to a free socket, or strike it in this act.",
				})
			}
		}
	})
	return append(found, doubleOutputs(s)...)
}

func doubleOutputs(s *Subject) (found []Finding) {
	for _, act := range s.Patch.Acts {
		holders := map[patch.Socket]*patch.OutputLine{}
		for i, line := range act.Outputs {
			other := holders[line.Socket]
			if !line.Patched() {
				continue
			}
			if holders[line.Socket] = line; other == nil || !act.House() && s.Patch.House().Outputs[i] == line && slices.Contains(s.Patch.House().Outputs, other) {
				continue
			}
			found = append(found, Finding{
				Severity: Stop, Where: []Place{{"outputs", line.Output.Key()}, {"outputs", other.Output.Key()}, {"devices", plan.Key(line.Socket.Device)}}, Act: act.Act.ID,
				What:   fmt.Sprintf("%s is fed twice%s: by %s and %s", s.Patch.SocketWords(line.Socket), s.in(act), other.Output.Name, line.Output.Name),
				Remedy: "Move one of them to a free socket.",
			})
		}
	}
	return found
}

// gap is why inputs of a device do not arrive: at a console, or at none.
type gap struct {
	device, console plan.DeviceID
}

func noConsole(s *Subject) (found []Finding) {
	s.own(func(act *patch.Act, lines []*patch.Line) {
		gaps := map[gap][]*patch.Line{}
		note := func(line *patch.Line, console plan.DeviceID) {
			at := gap{line.At.Device, console}
			if among := gaps[at]; len(among) == 0 || among[len(among)-1] != line {
				gaps[at] = append(gaps[at], line)
			}
		}
		for _, line := range lines {
			if !line.Patched() {
				continue
			}
			heard := false
			for i := range line.Legs {
				for _, channel := range line.Legs[i].Channels {
					if heard = true; !channel.Reached && !s.lacksAtHome(act, line, channel.Console) {
						note(line, channel.Console)
					}
				}
			}
			if !heard {
				note(line, "")
			}
		}
		found = append(found, s.gaps(act, gaps)...)
	})
	return append(found, outputGaps(s)...)
}

// lacksAtHome tells whether the house has the same gap and has told it.
func (s *Subject) lacksAtHome(act *patch.Act, line *patch.Line, console plan.DeviceID) bool {
	house, found := s.Patch.House().Line(line.Input.ID)
	return !act.House() && found && house.At == line.At && slices.ContainsFunc(house.Channels(), func(c patch.Channel) bool {
		return c.Console == console && !c.Reached
	})
}

func (s *Subject) gaps(act *patch.Act, gaps map[gap][]*patch.Line) (found []Finding) {
	order := make([]gap, 0, len(gaps))
	for at := range gaps {
		order = append(order, at)
	}
	slices.SortFunc(order, func(a, b gap) int { return cmp.Or(cmp.Compare(a.device, b.device), cmp.Compare(a.console, b.console)) })
	for _, at := range order {
		lines := gaps[at]
		names := make([]string, len(lines))
		where := []Place{{"devices", plan.Key(at.device)}}
		for i, line := range lines {
			names[i] = line.Input.Name
			where = append(where, inputPlace(line))
		}
		finding := Finding{
			Severity: Warn, Where: where, Act: act.Act.ID,
			What:   fmt.Sprintf("%s: %s on it %s no console%s", s.Patch.Name(at.device), list(names), reach(len(names)), s.in(act)),
			Remedy: "Give each a channel of a console, or strike it.",
		}
		if at.console != "" {
			finding.Severity = Stop
			finding.Where = append(finding.Where, Place{"devices", plan.Key(at.console)})
			finding.What = fmt.Sprintf("%s: %s on it %s not get to %s%s", s.Patch.Name(at.device), list(names), does(len(names)), s.Patch.Name(at.console), s.in(act))
			finding.Remedy = "Give out slots on the links between them, or lay a link that has room."
		}
		found = append(found, finding)
	}
	return found
}

func reach(n int) string {
	if n == 1 {
		return "reaches"
	}
	return "reach"
}

func does(n int) string {
	if n == 1 {
		return "does"
	}
	return "do"
}

func outputGaps(s *Subject) (found []Finding) {
	for _, act := range s.Patch.Acts {
		for i, line := range act.Outputs {
			inherited := !act.House() && s.Patch.House().Outputs[i] == line
			if inherited || !line.Patched() || line.Reached || !act.Here(line.Console) {
				continue
			}
			found = append(found, Finding{
				Severity: Stop, Where: []Place{{"outputs", line.Output.Key()}, {"devices", plan.Key(line.Console)}, {"devices", plan.Key(line.Socket.Device)}}, Act: act.Act.ID,
				What:   fmt.Sprintf("%s does not get from %s to %s%s", line.Output.Name, s.Patch.Name(line.Console), s.Patch.SocketWords(line.Socket), s.in(act)),
				Remedy: "Give out slots on the links between them, or lay a link that has room.",
			})
		}
	}
	return found
}
