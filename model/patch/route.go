package patch

import "stageloom/model/plan"

// leap is a group on a way, and whether the way goes along it.
type leap struct {
	group   int
	forward bool
}

// route is the way of the fewest groups between two devices; a console is passed only where there is no other way.
func (n *network) route(from, to plan.DeviceID, plugged map[plan.DeviceID]plan.DeviceID) []leap {
	if way := n.search(from, to, plugged, false); way != nil {
		return way
	}
	return n.search(from, to, plugged, true)
}

func (n *network) search(from, to plan.DeviceID, plugged map[plan.DeviceID]plan.DeviceID, overConsoles bool) []leap {
	type step struct {
		at   plan.DeviceID
		by   leap
		back int
	}
	steps := []step{{at: from, back: -1}}
	seen := map[plan.DeviceID]bool{from: true}
	for i := 0; i < len(steps); i++ {
		if i > 0 && !overConsoles && n.mixes(steps[i].at) {
			continue
		}
		for _, next := range n.leaps(steps[i].at, plugged) {
			device := n.landing(next, plugged)
			if seen[device] {
				continue
			}
			seen[device] = true
			steps = append(steps, step{device, next, i})
			if device != to {
				continue
			}
			var way []leap
			for s := len(steps) - 1; s > 0; s = steps[s].back {
				way = append([]leap{steps[s].by}, way...)
			}
			return way
		}
	}
	return nil
}

func (n *network) mixes(id plan.DeviceID) bool {
	d := n.devices[id]
	return d != nil && d.kind.Channels > 0
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
	for _, overConsoles := range []bool{false, true} {
		found, fewest := Socket{}, 0
		for _, socket := range sockets {
			if socket.Device == console {
				return socket
			}
			way := n.search(socket.Device, console, plugged, overConsoles)
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
