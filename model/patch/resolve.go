package patch

import (
	"reflect"

	"stageloom/model/plan"
)

// line resolves one input in one act.
func (o *overlay) line(input plan.Input) *Line {
	l := &Line{Input: input}
	if input.Snake != "" {
		l.Snake = Socket{input.Snake, input.SnakeWay, !o.net.passive(input.Snake)}
	}
	row, found := o.stageRow(input.ID)
	switch {
	case found && row.Strike:
		l.Struck = true
		return l
	case found:
		l.At = Socket{Device: row.Device, Number: row.Socket}
	default:
		l.At = l.Snake
	}
	if !l.At.None() {
		o.legs(l)
	}
	return l
}

// legs follows an input from where it is plugged to the preamps and on to the channels.
func (o *overlay) legs(l *Line) {
	ways, mapped := o.ways(l.At)
	l.Legs = make([]Leg, len(ways))
	for i, way := range ways {
		leg := &l.Legs[i]
		leg.Ways, leg.Through, leg.Socket, leg.Isolated = way.ways, way.through, o.box(way), way.isolated
		leg.Gain, leg.Phantom = o.owner(leg.Socket)
		for _, at := range o.channelsOf(leg.Socket) {
			leg.Channels = append(leg.Channels, o.arrive(leg.Socket, at))
		}
	}
	if mapped {
		o.wide(l)
	}
}

// ways are where a socket leads in this act, and whether its ways map through at all. One that ends at a passive device
// counts only where a guest is plugged in there, or where no other is.
func (o *overlay) ways(at Socket) ([]far, bool) {
	all, mapped := o.net.through[at]
	if !mapped {
		return []far{{socket: at}}, false
	}
	var live []far
	for _, way := range all {
		if _, guest := o.plugged[way.socket.Device]; guest || !way.dead {
			live = append(live, way)
		}
	}
	if len(live) == 0 {
		return all, true
	}
	return live, true
}

// box is the socket at the end of a way: at a drop, that of the guest who is plugged in there.
func (o *overlay) box(way far) Socket {
	if guest, found := o.plugged[way.socket.Device]; found && way.dead {
		return Socket{Device: guest, Number: way.ways[len(way.ways)-1].Number}
	}
	return way.socket
}

// boxes are the sockets of preamps that a socket leads to.
func (o *overlay) boxes(at Socket) []Socket {
	ways, _ := o.ways(at)
	boxes := make([]Socket, len(ways))
	for i, way := range ways {
		boxes[i] = o.box(way)
	}
	return boxes
}

// wide adds the channels that listen to the splitter or sub-snake itself: each by the first leg that brings it there.
func (o *overlay) wide(l *Line) {
	for _, at := range o.channelsOf(l.At) {
		best := 0
		for i := range l.Legs {
			if o.arrive(l.Legs[i].Socket, at).Reached {
				best = i
				break
			}
		}
		leg := &l.Legs[best]
		leg.Channels = append(leg.Channels, o.arrive(leg.Socket, at))
	}
}

// arrive finds how a socket's signal gets to a channel.
func (o *overlay) arrive(socket Socket, at place) Channel {
	channel := Channel{Console: at.console, Number: at.number}
	channel.Hops, channel.Backup, channel.Reached = o.path(socket, socket.Device, at.console)
	return channel
}

// path finds the way of a socket's slots from one device to another: over links that carry the socket, in their
// direction, the fewest groups of links first.
func (o *overlay) path(socket Socket, from, to plan.DeviceID) (hops, backup []Hop, found bool) {
	if from == to {
		return nil, nil, true
	}
	carriers := o.slotsOf(socket)
	if len(carriers) == 0 {
		return nil, nil, false
	}
	for _, at := range o.chain(carriers, from, to) {
		g := &o.net.groups[at.group]
		hops = append(hops, o.net.hops(g.main, at.forward, at.number)...)
		if g.backup >= 0 {
			backup = append(backup, o.net.hops(g.backup, at.forward, at.number)...)
		}
	}
	return hops, backup, hops != nil
}

// chain is a breadth-first search over a few slots.
func (o *overlay) chain(carriers []slot, from, to plan.DeviceID) []slot {
	type step struct {
		at   plan.DeviceID
		by   int // carrier
		back int // step before
	}
	steps := []step{{at: from, by: -1, back: -1}}
	used := make([]bool, len(carriers))
	for i := 0; i < len(steps); i++ {
		for n, at := range carriers {
			ends := o.endsOf(at.group)
			if !at.forward {
				ends[0], ends[1] = ends[1], ends[0]
			}
			if used[n] || ends[0] != steps[i].at {
				continue
			}
			used[n] = true
			steps = append(steps, step{ends[1], n, i})
			if ends[1] != to {
				continue
			}
			var way []slot
			for s := len(steps) - 1; s > 0; s = steps[s].back {
				way = append([]slot{carriers[steps[s].by]}, way...)
			}
			return way
		}
	}
	return nil
}

// output resolves one output in one act.
func (o *overlay) output(row plan.Output) *OutputLine {
	l := &OutputLine{Output: row}
	patch, found := o.outputs[row.ID]
	if !found && o.house != nil {
		patch, found = o.house.outputs[row.ID]
	}
	if !found {
		return l
	}
	l.Struck = patch.Strike
	if patch.Strike {
		return l
	}
	l.Console, l.Socket = patch.Console, Socket{patch.Device, patch.Socket, true}
	if l.Console != "" && o.here(l.Console) {
		l.Hops, l.Backup, l.Reached = o.path(l.Socket, l.Console, l.Socket.Device)
	}
	return l
}

// share gives the house's line where an act's is the same.
func share[T any](house, act *T) *T {
	if house != nil && reflect.DeepEqual(house, act) {
		return house
	}
	return act
}
