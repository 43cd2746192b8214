package patch

import "stageloom/model/plan"

// leap is a group on a way, and whether the way goes along it.
type leap struct {
	group   int
	forward bool
}

// route is the way of the fewest groups on which a signal gets from one device to another; over consoles that pass it on
// only where there is no other.
func (n *network) route(from, to plan.DeviceID, plugged map[plan.DeviceID]plan.DeviceID) []leap {
	return leapsOf(finder{n, from, to, plugged}.way(n.leaves(plugged)))
}

// leaves visits the groups that lead away from a device, as slots of no number.
func (n *network) leaves(plugged map[plan.DeviceID]plan.DeviceID) leaves {
	return func(from plan.DeviceID, visit func(slot)) {
		for _, at := range n.leaps(from, plugged) {
			visit(slot{group: at.group, forward: at.forward})
		}
	}
}

func leapsOf(way []slot) (leaps []leap) {
	for _, on := range way {
		leaps = append(leaps, leap{on.group, on.forward})
	}
	return leaps
}

// obstacle is where a signal would be lost between two devices that links join; blank where none do, or it arrives.
func (n *network) obstacle(from, to plan.DeviceID, plugged map[plan.DeviceID]plan.DeviceID) Spot {
	f := finder{n, from, to, plugged}
	return f.obstacle(f.anyWay(n.leaves(plugged)))
}

// leaps are the groups that lead away from a device.
func (n *network) leaps(from plan.DeviceID, plugged map[plan.DeviceID]plan.DeviceID) (all []leap) {
	for number := range n.groups {
		s := &n.spans[n.groups[number].main]
		ends := s.standing(plugged)
		if ends[0] == from {
			all = append(all, leap{number, true})
		}
		if ends[1] == from && !s.oneWay {
			all = append(all, leap{number, false})
		}
	}
	return all
}

func (n *network) landing(at leap, plugged map[plan.DeviceID]plan.DeviceID) plan.DeviceID {
	ends := n.spans[n.groups[at.group].main].standing(plugged)
	if at.forward {
		return ends[1]
	}
	return ends[0]
}

// best is which of several sockets a console is to listen to: the one from which the fewest links lead there, over no other
// console if that can be; the first of all where no link leads from any.
func (n *network) best(sockets []Socket, console plan.DeviceID, plugged map[plan.DeviceID]plan.DeviceID) Socket {
	if len(sockets) == 1 {
		return sockets[0]
	}
	out := n.leaves(plugged)
	for _, find := range []func(finder) []slot{
		func(f finder) []slot { return f.find(out, none, false) },
		func(f finder) []slot { return f.way(out) },
		func(f finder) []slot { return f.anyWay(out) },
	} {
		found, fewest := Socket{}, 0
		for _, socket := range sockets {
			if socket.Device == console {
				return socket
			}
			way := find(finder{n, socket.Device, console, plugged})
			if way != nil && (found.None() || len(way) < fewest) {
				found, fewest = socket, len(way)
			}
		}
		if !found.None() {
			return found
		}
	}
	return sockets[0]
}
