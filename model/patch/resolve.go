package patch

import (
	"reflect"
	"slices"

	"stageloom/model/plan"
)

// line resolves one input in one act.
func (o *overlay) line(input plan.Input) *Line {
	l := &Line{Input: input}
	l.Snake = o.net.snake(input)
	row, found := o.stageRow(input.ID)
	switch {
	case found && row.Strike:
		l.Struck = true
		return l
	case found:
		l.At = Socket{Device: row.Device, Number: row.Socket}
		if moved := row.Act != input.Act && !o.net.leadsTo(l.Snake, l.At); moved || !o.net.tails(l.Snake, l.At) {
			l.Snake = Socket{} // plugged in elsewhere
		}
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
	all, live := o.ways(l.At)
	if len(live) == 0 {
		l.Legs = []Leg{{Socket: l.At}}
	} else {
		l.Legs = make([]Leg, len(live))
	}
	for i, at := range live {
		leg := &l.Legs[i]
		leg.Ways, leg.Through = wayTo(all, at)
		leg.Socket, leg.Isolated = o.box(all[at]), all[at].isolated
	}
	for i := range l.Legs {
		leg := &l.Legs[i]
		leg.Gain, leg.Phantom = o.owner(leg.Socket)
		for _, at := range o.channelsOf(leg.Socket) {
			leg.Channels = append(leg.Channels, o.arrive(leg.Socket, at))
		}
	}
	if len(live) == 0 {
		return
	}
	o.wide(l, l.At)
	for i := range all {
		if all[i].passive {
			o.wide(l, all[i].socket)
		}
	}
}

// ways are the sockets that one leads to, and which of them count in this act: those with a preamp and those where a guest
// is plugged in; where there is none, the last that the signal comes to.
func (o *overlay) ways(at Socket) (all []far, live []int) {
	all = o.net.through[at]
	for i, way := range all {
		if _, guest := o.plugged[way.socket.Device]; guest || !way.passive {
			live = append(live, i)
		}
	}
	if len(live) > 0 {
		return all, live
	}
	for i, way := range all {
		if way.last {
			live = append(live, i)
		}
	}
	return all, live
}

// box is the socket at the end of a way: at a drop, that of the guest who is plugged in there.
func (o *overlay) box(way far) Socket {
	if guest, found := o.plugged[way.socket.Device]; found && way.passive {
		return Socket{Device: guest, Number: way.way.Number}
	}
	return way.socket
}

// boxes are the sockets of preamps that a socket leads to; itself where it leads nowhere.
func (o *overlay) boxes(at Socket) []Socket {
	all, live := o.ways(at)
	if len(live) == 0 {
		return []Socket{at}
	}
	boxes := make([]Socket, len(live))
	for i, at := range live {
		boxes[i] = o.box(all[at])
	}
	return boxes
}

// wide adds the channels that listen to a socket of a splitter or sub-snake which the input lies on: each by the first leg
// that brings it there.
func (o *overlay) wide(l *Line, socket Socket) {
	if slices.ContainsFunc(l.Legs, func(leg Leg) bool { return leg.Socket == socket }) {
		return
	}
	for _, at := range o.channelsOf(socket) {
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
	hops := o.path(socket, socket.Device, at.console)
	channel.Reached, channel.Hops, channel.Backup, channel.Lost = hops.found, hops.main, hops.backup, hops.lost
	return channel
}

// passage is how a socket's signal gets from one device to another, or where it is lost.
type passage struct {
	found        bool
	main, backup []Hop
	lost         Spot
}

// path finds the way of a socket's slots from one device to another: over links that carry the socket, in their
// direction, over no console if that can be, the fewest groups of links first.
func (o *overlay) path(socket Socket, from, to plan.DeviceID) (p passage) {
	if from == to {
		return passage{found: true}
	}
	all := slices.DeleteFunc(o.slotsOf(socket), o.net.closed)
	if len(all) == 0 {
		return p
	}
	f := finder{net: o.net, from: from, to: to, plugged: o.plugged}
	carriers := all
	if slices.ContainsFunc(all, f.over) {
		carriers = slices.DeleteFunc(slices.Clone(all), f.over)
	}
	way := f.way(o.leaves(carriers))
	if way == nil {
		p.lost = f.obstacle(f.anyWay(o.leaves(all)))
		return p
	}
	at := from
	for _, on := range way {
		g, resent := &o.net.groups[on.group], o.net.console(at)
		p.main = append(p.main, o.net.resent(o.net.hops(g.main, on.forward, on.number), resent && at != from, at)...)
		if g.backup >= 0 {
			p.backup = append(p.backup, o.net.resent(o.net.hops(g.backup, on.forward, on.number), resent && at != from, at)...)
		}
		at = o.net.landing(leap{on.group, on.forward}, o.plugged)
	}
	p.found = true
	return p
}

// resent notes on the first of a row of hops which console sends the signal on there.
func (n *network) resent(hops []Hop, is bool, by plan.DeviceID) []Hop {
	if is {
		hops[0].Resent = by
	}
	return hops
}

// over reports whether a slot is beyond the number that its links carry in the act.
func (f finder) over(at slot) bool {
	capacity, _ := f.net.capacityWith(at.group, f.plugged)
	return capacity > 0 && at.number > capacity
}

// closed reports whether a slot runs against links of one way.
func (n *network) closed(at slot) bool { return n.spans[n.groups[at.group].main].oneWay && !at.forward }

// leaves visits the slots among these that lead away from a device.
func (o *overlay) leaves(carriers []slot) leaves {
	return func(from plan.DeviceID, visit func(slot)) {
		for _, at := range carriers {
			if ends := o.endsOf(at.group); at.forward && ends[0] == from || !at.forward && ends[1] == from {
				visit(at)
			}
		}
	}
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
		way := o.path(l.Socket, l.Console, l.Socket.Device)
		l.Reached, l.Hops, l.Backup, l.Lost = way.found, way.main, way.backup, way.lost
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
