// Package patchtest reads a patch by hand, for tests to compare with what the program says; tests alone use it.
package patchtest

import (
	"fmt"
	"slices"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// ByHand is the patch of one act as it is read from the rows of a plan alone, as somebody with paper and pencil does. It shares nothing
// with the room but the names of sockets.
type ByHand struct {
	// At is where each input is plugged in, Wet all sockets that it comes to over multicores.
	At  map[plan.InputID]patch.Socket
	Wet map[plan.InputID]map[patch.Socket]bool
	// Hear is what each channel listens to, Has the inputs that it gets.
	Hear map[Spot]patch.Socket
	Has  map[Spot][]plan.InputID
}

// Spot is a channel of a console.
type Spot struct {
	Console plan.DeviceID
	Number  int
}

// Wires are where sockets lead; the rows that say so stay as they are while a rig is worked on.
type Wires map[patch.Socket]map[patch.Socket]bool

// Flood walks from a socket over every multicore whose way it lies on.
func (known Wires) Flood(p *plan.Plan, from patch.Socket) map[patch.Socket]bool {
	if wet := known[from]; wet != nil {
		return wet
	}
	wet := map[patch.Socket]bool{from: true}
	known[from] = wet
	for todo := []patch.Socket{from}; len(todo) > 0; todo = todo[1:] {
		s := todo[0]
		device, _ := p.Device(s.Device)
		kind, _ := p.Kinds.Get(plan.Key(device.Kind))
		if !kind.Passive && (s != from || !s.Output) {
			continue
		}
		for _, next := range over(p, s, device.Kind) {
			if !wet[next] {
				wet[next] = true
				todo = append(todo, next)
			}
		}
	}
	return wet
}

// over are the sockets at the other ends of the multicores at which a socket lies.
func over(p *plan.Plan, s patch.Socket, kind plan.KindID) (all []patch.Socket) {
	for _, row := range pins(p, kind) {
		way := row.First + s.Number - row.Socket
		if (row.Direction == "out") != s.Output || way < row.First || way >= row.First+row.Count {
			continue
		}
		far, port, linked := beyond(p, s.Device, row.Port)
		other, _ := p.Device(far)
		for _, there := range pins(p, other.Kind) {
			if linked && there.Port == port && way >= there.First && way < there.First+there.Count {
				all = append(all, patch.Socket{Device: far, Number: there.Socket + way - there.First, Output: there.Direction == "out"})
			}
		}
	}
	return all
}

// beyond is the port at the other end of the link in a port.
func beyond(p *plan.Plan, device plan.DeviceID, port string) (plan.DeviceID, string, bool) {
	for link := range p.Links.All() {
		switch {
		case link.IsSpare():
		case link.From == device && link.FromPort == port:
			return link.To, link.ToPort, true
		case link.To == device && link.ToPort == port:
			return link.From, link.FromPort, true
		}
	}
	return "", "", false
}

// pins are the ways at which the sockets of a kind lie. One that says nothing of them has its inputs on its only multicore,
// then its outputs.
func pins(p *plan.Plan, id plan.KindID) (rows []plan.KindWay) {
	for row := range p.KindWays.All() {
		if row.Kind == id {
			rows = append(rows, row)
		}
	}
	var multicores []string
	for _, port := range p.Ports(id) {
		if port.Transport == "analogue-multicore" {
			multicores = append(multicores, port.Name)
		}
	}
	if len(rows) > 0 || len(multicores) != 1 {
		return rows
	}
	kind, _ := p.Kinds.Get(plan.Key(id))
	return []plan.KindWay{
		{Port: multicores[0], First: 1, Count: kind.Inputs, Direction: "in", Socket: 1},
		{Port: multicores[0], First: 1 + kind.Inputs, Count: kind.Outputs, Direction: "out", Socket: 1},
	}
}

// Read reads the patch of an act; blank is the house.
func (known Wires) Read(p *plan.Plan, act plan.ActID) *ByHand {
	b := &ByHand{map[plan.InputID]patch.Socket{}, map[plan.InputID]map[patch.Socket]bool{}, map[Spot]patch.Socket{}, map[Spot][]plan.InputID{}}
	for input := range p.Inputs.All() {
		if input.Act != "" && input.Act != act {
			continue
		}
		row, said := p.StagePatches.Get(plan.StagePatch{Act: act, Input: input.ID}.Key())
		if !said {
			row, said = p.StagePatches.Get(plan.StagePatch{Input: input.ID}.Key())
		}
		switch snake, _ := p.Device(input.Snake); {
		case said && !row.Strike:
			b.At[input.ID] = patch.Socket{Device: row.Device, Number: row.Socket}
		case !said && input.Snake != "":
			kind, _ := p.Kinds.Get(plan.Key(snake.Kind))
			b.At[input.ID] = patch.Socket{Device: input.Snake, Number: input.SnakeWay, Output: !kind.Passive}
		}
	}
	for id, at := range b.At {
		b.Wet[id] = known.Flood(p, at)
	}
	b.listen(p, act)
	return b
}

// listen reads what the channels of an act listen to, and what they get by it.
func (b *ByHand) listen(p *plan.Plan, act plan.ActID) {
	for row := range p.ConsolePatches.All() {
		own := plan.ConsolePatch{Act: act, Console: row.Console, Channel: row.Channel}
		if row.Strike || row.Act != act && (row.Act != "" || p.ConsolePatches.Has(own.Key())) {
			continue
		}
		at := Spot{row.Console, row.Channel}
		b.Hear[at] = patch.Socket{Device: row.Device, Number: row.Socket}
		for id, wet := range b.Wet {
			if wet[b.Hear[at]] {
				b.Has[at] = append(b.Has[at], id)
			}
		}
	}
}

// Alone says which inputs lie on one socket or come up on one channel; blank where none do.
func (b *ByHand) Alone() string {
	holder := map[patch.Socket]plan.InputID{}
	for id, wet := range b.Wet {
		for s := range wet {
			if holder[s] != "" {
				return fmt.Sprintf("%s and %s are both on %v", holder[s], id, s)
			}
			holder[s] = id
		}
	}
	for at, on := range b.Has {
		if len(on) > 1 {
			return fmt.Sprintf("%v has %v", at, on)
		}
	}
	return ""
}

// Agrees says where the tables of a view say something else, by input or by console; blank where they agree.
func (b *ByHand) Agrees(v *patch.View, act *patch.Act) string {
	heard, listed := 0, 0
	for _, line := range act.Lines {
		id := line.Input.ID
		if b.At[id] != line.At {
			return fmt.Sprintf("%s is on %v and not %v", id, b.At[id], line.At)
		}
		for _, channel := range line.Channels() {
			if !slices.Equal(b.Has[Spot{channel.Console, channel.Number}], []plan.InputID{id}) {
				return fmt.Sprintf("%v has not %s", channel, id)
			}
			heard++
		}
		for s := range line.Sockets() {
			if !b.Wet[id][s] && s != line.Snake {
				return fmt.Sprintf("%s is not on %v", id, s)
			}
		}
	}
	for console, all := range v.ConsoleRows(act) {
		for _, row := range all {
			if listed++; len(row.Lines) != len(b.Has[Spot{console, row.Number}]) {
				return fmt.Sprintf("%v has not %v", row.Number, row.Lines)
			}
		}
	}
	if heard != len(b.Has) || listed != len(b.Hear) {
		return fmt.Sprintf("%d channels have inputs and not %d, of %d and not %d", len(b.Has), heard, len(b.Hear), listed)
	}
	return ""
}

// Moved says which channel has another input now though it may not; blank where all may.
func (b *ByHand) Moved(now *ByHand, may func(at Spot, was, is plan.InputID) bool) string {
	for _, all := range []map[Spot][]plan.InputID{b.Has, now.Has} {
		for at := range all {
			if was, is := First(b.Has[at]), First(now.Has[at]); was != is && !may(at, was, is) {
				return fmt.Sprintf("%v had %q and has %q", at, was, is)
			}
		}
	}
	return ""
}

// First is the first of some inputs, blank where there is none.
func First(ids []plan.InputID) plan.InputID {
	if len(ids) == 0 {
		return ""
	}
	return ids[0]
}
