package checks

import (
	"fmt"
	"slices"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// twoOwners finds inputs whose 48 V is switched in two places, and sockets that several consoles get while none owns the
// gain.
func twoOwners(s *Subject) []Finding {
	var sights []sight
	var unowned []bundle
	s.own(func(act *patch.Act, lines []*patch.Line) {
		for _, line := range lines {
			for i := range line.Legs {
				leg := &line.Legs[i]
				if consoles := s.sharing(leg); consoles != "" {
					unowned = append(unowned, bundle{leg.Socket.Device, consoles, s.sharers(act, line), []*patch.Line{line}})
				}
			}
			finding, rest := s.switchedTwice(act, line)
			if finding.What == "" {
				continue
			}
			for _, sharer := range s.sharers(act, line) {
				sights = append(sights, sight{finding, sharer, rest})
			}
		}
	})
	for _, b := range bundles(unowned) {
		inputs, where := b.words()
		sights = append(sights, b.sights(Finding{
			Severity: Note, Where: where, What: fmt.Sprintf("%s: nobody owns the gain of %s", s.Patch.Name(b.device), words.And(inputs, fewNamed)),
			Remedy: "Name one console as owner of gain and 48 V; the other leaves them alone.",
		}, fmt.Sprintf(", and %s have it", b.more))...)
	}
	return s.once(sights)
}

// switchedTwice tells of two preamps that give an input its 48 V: both have a named owner, or none has.
func (s *Subject) switchedTwice(act *patch.Act, line *patch.Line) (finding Finding, rest string) {
	fed := s.Patch.Fed(act, line)
	if len(fed) < 2 {
		return finding, ""
	}
	if !fed[0].Named {
		return s.undecided(line, fed)
	}
	var at, who []string
	for _, feed := range fed {
		at = append(at, s.Patch.SocketWords(feed.Socket))
		if name := s.Patch.Name(feed.Switch); !slices.Contains(who, name) {
			who = append(who, name)
		}
	}
	return Finding{
		Severity: Warn, Where: []Place{inputPlace(line), {plan.DevicesTable, plan.Key(line.At.Device)}},
		What:   fmt.Sprintf("48 V for %s has two owners", line.Input.Name),
		Remedy: fmt.Sprintf("Ask %s which of these switches it, and name that one; two supplies on one microphone work against each other.", words.And(who, fewNamed)),
	}, ": at " + words.And(at, fewNamed)
}

// sharing names the consoles that get the socket of a leg whose gain nobody owns; blank where it is fewer than two.
func (s *Subject) sharing(leg *patch.Leg) string {
	if leg.Gain != "" || !s.Patch.Supplies(leg.Socket.Device) {
		return ""
	}
	var consoles []string
	for _, channel := range leg.Channels {
		if name := s.Patch.Name(channel.Console); channel.Reached && !slices.Contains(consoles, name) {
			consoles = append(consoles, name)
		}
	}
	if len(consoles) < 2 {
		return ""
	}
	return words.And(consoles, fewNamed)
}

// absent finds what an act says of things that are not there in it.
func absent(s *Subject) []Finding {
	m := missing{Subject: s, acts: map[plan.ActID]*patch.Act{}}
	for _, act := range s.Patch.Acts {
		m.acts[act.Act.ID] = act
	}
	m.channels()
	m.inputs()
	m.outputs()
	m.owners()
	return s.once(m.found)
}

// missing gathers rows of acts that name what is not there.
type missing struct {
	*Subject
	acts  map[plan.ActID]*patch.Act
	found []sight
}

func (m *missing) add(act plan.ActID, what string, where Place) {
	m.found = append(m.found, sight{Finding{
		Severity: Warn, Where: []Place{where}, What: what,
		Remedy: "Bring it into the act, or take the row out of the act's patch.",
	}, m.acts[act], ""})
}

// away reports whether an act does without a console; the house patch may say what guests are to get.
func (m *missing) away(act plan.ActID, console plan.DeviceID) bool {
	return act != "" && console != "" && !m.acts[act].Here(console)
}

func (m *missing) channels() {
	type guest struct {
		act     plan.ActID
		console plan.DeviceID
	}
	told := map[guest]bool{}
	for row := range m.Plan.ConsolePatches.All() {
		at := guest{row.Act, row.Console}
		if row.Strike || told[at] || !m.away(row.Act, row.Console) {
			continue
		}
		told[at] = true
		m.add(row.Act, m.Patch.Name(row.Console)+" is patched and not there", Place{plan.DevicesTable, plan.Key(row.Console)})
	}
}

func (m *missing) inputs() {
	for row := range m.Plan.StagePatches.All() {
		input, _ := m.Plan.Inputs.Get(plan.Key(row.Input))
		if input.Act == "" || row.Act == "" || input.Act == row.Act || row.Strike {
			continue
		}
		what := fmt.Sprintf("%s is patched and an input of %s alone", input.Name, m.acts[input.Act].Act.Name)
		m.add(row.Act, what, Place{plan.InputsTable, input.Key()})
	}
}

func (m *missing) outputs() {
	for row := range m.Plan.OutputPatches.All() {
		if output, _ := m.Plan.Outputs.Get(plan.Key(row.Output)); m.away(row.Act, row.Console) {
			what := fmt.Sprintf("%s comes from %s, which is not there", output.Name, m.Patch.Name(row.Console))
			m.add(row.Act, what, Place{plan.OutputsTable, output.Key()})
		}
	}
}

func (m *missing) owners() {
	for row := range m.Plan.SocketOwners.All() {
		for _, owner := range []plan.DeviceID{row.Gain, row.Phantom} {
			if m.away(row.Act, owner) {
				socket := patch.Socket{Device: row.Device, Number: row.Socket}
				what := fmt.Sprintf("%s is owned by %s, which is not there", m.Patch.SocketWords(socket), m.Patch.Name(owner))
				m.add(row.Act, what, Place{plan.DevicesTable, plan.Key(row.Device)})
				break
			}
		}
	}
}
