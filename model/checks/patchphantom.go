package checks

import (
	"fmt"

	"stageloom/model/patch"
	"stageloom/model/plan"
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
			finding.Where = []Place{inputPlace(line), {"devices", plan.Key(line.At.Device)}}
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
			Severity: Stop, What: fmt.Sprintf("%s wants 48 V, and every way from it is isolated", line.Input.Name),
			Remedy: "Give it a direct way to one box, or a splitter or box at the microphone that supplies 48 V.",
		}
	case !able:
		return Finding{
			Severity: Stop, What: fmt.Sprintf("%s wants 48 V, and %s has none", line.Input.Name, s.Patch.SocketWords(line.Legs[0].Socket)),
			Remedy: "Plug it into a microphone input, or put a supply of 48 V between.",
		}
	}
	return Finding{}
}

// phantomLeft walks the running list of each stage: what socket was left with 48 V, and what comes on it next.
func phantomLeft(s *Subject) (found []Finding) {
	type left struct {
		line *patch.Line
		act  *patch.Act
	}
	stages := map[string]map[patch.Socket]left{}
	for _, act := range s.Patch.Acts {
		if act.House() {
			continue
		}
		before := stages[act.Act.Stage]
		if before == nil {
			before = map[patch.Socket]left{}
			stages[act.Act.Stage] = before
		}
		for _, line := range act.Lines {
			for i := range line.Legs {
				leg := &line.Legs[i]
				if leg.Isolated || !s.Patch.Phantom(leg.Socket) {
					continue
				}
				was := before[leg.Socket]
				if danger := line.Input.Use == "line" || line.Input.Use == "DI"; was.line != nil && was.act != act && was.line.Input.ID != line.Input.ID && danger && !line.Input.Phantom {
					found = append(found, Finding{
						Severity: Warn, Where: []Place{inputPlace(line), inputPlace(was.line), {"devices", plan.Key(leg.Socket.Device)}, {"acts", act.Act.Key()}}, Acts: []plan.ActID{act.Act.ID},
						What:   fmt.Sprintf("%s had 48 V for %s in %s, and %s (%s) comes on it in %s", s.Patch.SocketWords(leg.Socket), was.line.Input.Name, was.act.Act.Name, line.Input.Name, line.Input.Use, act.Act.Name),
						Remedy: "Switch 48 V off at the changeover and wait some seconds before plugging in, or take another socket.",
					})
				}
				delete(before, leg.Socket)
				if line.Input.Phantom {
					before[leg.Socket] = left{line, act}
				}
			}
		}
	}
	return found
}
