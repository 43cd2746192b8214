package checks

import (
	"cmp"
	"fmt"
	"slices"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// twoOwners finds inputs whose 48 V is switched in two places, and sockets that several consoles get while none owns the
// gain.
func twoOwners(s *Subject) (found []Finding) {
	s.own(func(act *patch.Act, lines []*patch.Line) {
		shared := map[plan.DeviceID]*sharing{}
		for _, line := range lines {
			var phantom []string
			for i := range line.Legs {
				leg := &line.Legs[i]
				if leg.Phantom != "" && !leg.Isolated {
					phantom = append(phantom, s.Patch.SocketWords(leg.Socket))
				}
				s.share(shared, line, leg)
			}
			if len(phantom) > 1 && line.Input.Phantom {
				found = append(found, Finding{
					Severity: Warn, Where: []Place{inputPlace(line), {"devices", plan.Key(line.At.Device)}}, Act: act.Act.ID,
					What:   fmt.Sprintf("48 V for %s has two owners%s: at %s", line.Input.Name, s.in(act), list(phantom)),
					Remedy: "Name one of them; two supplies on one microphone work against each other.",
				})
			}
		}
		found = append(found, s.unowned(act, shared)...)
	})
	return found
}

// sharing gathers the sockets of one box that several consoles get and none owns.
type sharing struct {
	inputs   []*patch.Line
	consoles []plan.DeviceID
}

func (s *Subject) share(shared map[plan.DeviceID]*sharing, line *patch.Line, leg *patch.Leg) {
	if leg.Gain != "" || !s.Patch.Supplies(leg.Socket.Device) {
		return
	}
	var consoles []plan.DeviceID
	for _, channel := range leg.Channels {
		if channel.Reached && !slices.Contains(consoles, channel.Console) {
			consoles = append(consoles, channel.Console)
		}
	}
	if len(consoles) < 2 {
		return
	}
	at := shared[leg.Socket.Device]
	if at == nil {
		at = &sharing{}
		shared[leg.Socket.Device] = at
	}
	at.inputs = append(at.inputs, line)
	for _, console := range consoles {
		if !slices.Contains(at.consoles, console) {
			at.consoles = append(at.consoles, console)
		}
	}
}

func (s *Subject) unowned(act *patch.Act, shared map[plan.DeviceID]*sharing) (found []Finding) {
	devices := make([]plan.DeviceID, 0, len(shared))
	for id := range shared {
		devices = append(devices, id)
	}
	slices.SortFunc(devices, func(a, b plan.DeviceID) int { return cmp.Compare(a, b) })
	for _, id := range devices {
		at := shared[id]
		var inputs, consoles []string
		where := []Place{{"devices", plan.Key(id)}}
		for _, line := range at.inputs {
			inputs = append(inputs, line.Input.Name)
			where = append(where, inputPlace(line))
		}
		for _, console := range at.consoles {
			consoles = append(consoles, s.Patch.Name(console))
		}
		found = append(found, Finding{
			Severity: Note, Where: where, Act: act.Act.ID,
			What:   fmt.Sprintf("%s: nobody owns the gain of %s%s, and %s have it", s.Patch.Name(id), list(inputs), s.in(act), list(consoles)),
			Remedy: "Name one console as owner of gain and 48 V; the other leaves them alone.",
		})
	}
	return found
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
	return m.found
}

// missing gathers rows of acts that name what is not there.
type missing struct {
	*Subject
	acts  map[plan.ActID]*patch.Act
	found []Finding
}

func (m *missing) add(act plan.ActID, what string, where Place) {
	m.found = append(m.found, Finding{
		Severity: Warn, Where: []Place{where}, Act: act, What: what + m.in(m.acts[act]),
		Remedy: "Bring it into the act, or take the row out of the act's patch.",
	})
}

// away tells whether an act does without a console; the house patch may say what guests are to get.
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
		m.add(row.Act, m.Patch.Name(row.Console)+" is patched and not there", Place{"devices", plan.Key(row.Console)})
	}
}

func (m *missing) inputs() {
	for row := range m.Plan.StagePatches.All() {
		input, _ := m.Plan.Inputs.Get(plan.Key(row.Input))
		if input.Act == "" || row.Act == "" || input.Act == row.Act || row.Strike {
			continue
		}
		what := fmt.Sprintf("%s is patched and an input of %s alone", input.Name, m.acts[input.Act].Act.Name)
		m.add(row.Act, what, Place{"inputs", input.Key()})
	}
}

func (m *missing) outputs() {
	for row := range m.Plan.OutputPatches.All() {
		if output, _ := m.Plan.Outputs.Get(plan.Key(row.Output)); m.away(row.Act, row.Console) {
			what := fmt.Sprintf("%s comes from %s, which is not there", output.Name, m.Patch.Name(row.Console))
			m.add(row.Act, what, Place{"outputs", output.Key()})
		}
	}
}

func (m *missing) owners() {
	for row := range m.Plan.SocketOwners.All() {
		for _, owner := range []plan.DeviceID{row.Gain, row.Phantom} {
			if m.away(row.Act, owner) {
				socket := patch.Socket{Device: row.Device, Number: row.Socket}
				what := fmt.Sprintf("%s is owned by %s, which is not there", m.Patch.SocketWords(socket), m.Patch.Name(owner))
				m.add(row.Act, what, Place{"devices", plan.Key(row.Device)})
				break
			}
		}
	}
}
