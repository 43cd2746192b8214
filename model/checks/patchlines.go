package checks

import (
	"fmt"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
)

func inputPlace(line *patch.Line) Place { return Place{plan.InputsTable, line.Input.Key()} }

func doublePatched(s *Subject) []Finding {
	var sights []sight
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
				sights = append(sights, s.doubled(act, socket, other, line)...)
			}
		}
	})
	return append(s.once(sights), doubleOutputs(s)...)
}

// doubled tells of two inputs on a socket in an act and in those that have both from it.
func (s *Subject) doubled(act *patch.Act, socket patch.Socket, one, other *patch.Line) (sights []sight) {
	finding := Finding{
		Severity: Stop, Where: []Place{inputPlace(other), inputPlace(one), {plan.DevicesTable, plan.Key(socket.Device)}},
		What:   s.Patch.SocketWords(socket) + " holds two inputs",
		Remedy: "Move one of them to a free socket, or take it off in this act.",
	}
	for _, sharer := range s.sharers(act, other) {
		if sharer == act || inherits(sharer, one) {
			sights = append(sights, sight{finding, sharer, fmt.Sprintf(": %s and %s", one.Input.Name, other.Input.Name)})
		}
	}
	return sights
}

func doubleOutputs(s *Subject) []Finding {
	var sights []sight
	for _, act := range s.Patch.Acts {
		holders := map[patch.Socket]*patch.OutputLine{}
		for _, line := range act.Outputs {
			other := holders[line.Socket]
			if !line.Patched() {
				continue
			}
			if holders[line.Socket] = line; other == nil {
				continue
			}
			sights = append(sights, sight{Finding{
				Severity: Stop, Where: []Place{{plan.OutputsTable, line.Output.Key()}, {plan.OutputsTable, other.Output.Key()}, {plan.DevicesTable, plan.Key(line.Socket.Device)}},
				What:   s.Patch.SocketWords(line.Socket) + " is fed twice",
				Remedy: "Move one of them to a free socket.",
			}, act, fmt.Sprintf(": by %s and %s", other.Output.Name, line.Output.Name)})
		}
	}
	return s.once(sights)
}

// noConsole finds inputs that no channel lists, device by device, and outputs that do not get to their sockets. An input
// that a channel waits for is told there.
func noConsole(s *Subject) []Finding {
	var unheard []bundle
	waiting := s.waiting()
	s.own(func(act *patch.Act, lines []*patch.Line) {
		for _, line := range lines {
			if !line.Patched() || len(line.Channels()) > 0 {
				continue
			}
			for _, sharer := range s.sharers(act, line) {
				if !waiting[wanted{sharer.Act.ID, line.Input.ID}] {
					unheard = append(unheard, bundle{line.At.Device, "", []*patch.Act{sharer}, []*patch.Line{line}})
				}
			}
		}
	})
	var sights []sight
	for _, b := range bundles(unheard) {
		names, where := b.words()
		sights = append(sights, b.sights(Finding{
			Severity: Warn, Where: where,
			What:   fmt.Sprintf("%s: %s on it %s no console", s.Patch.Name(b.device), words.And(names, fewNamed), words.Plural(len(names), "reaches", "reach")),
			Remedy: "Give each a channel of a console, or say in the act that it is not used.",
		}, "")...)
	}
	return append(s.once(sights), outputGaps(s)...)
}

func outputGaps(s *Subject) []Finding {
	var sights []sight
	for _, act := range s.Patch.Acts {
		for _, line := range act.Outputs {
			if !line.Patched() || line.Reached || !act.Here(line.Console) {
				continue
			}
			finding := Finding{
				Severity: Stop, Where: []Place{{plan.OutputsTable, line.Output.Key()}, {plan.DevicesTable, plan.Key(line.Console)}, {plan.DevicesTable, plan.Key(line.Socket.Device)}},
				What:   fmt.Sprintf("%s does not get from %s to %s", line.Output.Name, s.Patch.Name(line.Console), s.Patch.SocketWords(line.Socket)),
				Remedy: "Assign channels on the links between them, or lay a link that has room.",
			}
			rest := ""
			switch lost := act.OutputLost(line); lost.Cause {
			case patch.RatesApart:
				continue // told with the rates
			case patch.SlotOver:
				rest = fmt.Sprintf(": %s carries %d channels at %s, and it lies beyond them", s.linkName(lost.Link), lost.Limit, patch.KHz(lost.Rate))
			case patch.NotPassed:
				between := s.Patch.Name(lost.Device)
				rest = fmt.Sprintf(": %s stands between and passes nothing on", between)
				finding.Remedy = passesOnOrLay(between, s.Patch.Name(line.Console), s.Patch.Name(line.Socket.Device))
			}
			sights = append(sights, sight{finding, act, rest})
		}
	}
	return s.once(sights)
}
