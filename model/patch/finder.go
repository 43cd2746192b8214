package patch

import (
	"slices"

	"stageloom/model/plan"
)

// leaves visits the slots that lead away from a device.
type leaves func(from plan.DeviceID, visit func(slot))

// finder looks for ways from one device to another in one act.
type finder struct {
	net      *network
	from, to plan.DeviceID
	plugged  map[plan.DeviceID]plan.DeviceID
}

// passed are the consoles that a way may lead over.
type passed uint8

const (
	none    passed = iota
	passing        // those that pass on what they receive
	every
)

// console reports whether a signal ends at a device unless it passes it on.
func (n *network) console(id plan.DeviceID) bool {
	d := n.devices[id]
	return d != nil && d.kind.Mixes()
}

// stops reports whether a signal that comes to a device goes on from there.
func (n *network) stops(id plan.DeviceID, over passed) bool {
	return over != every && n.console(id) && (over == none || !n.devices[id].passesOn)
}

// way is the way of the fewest groups on which the signal arrives; over consoles that pass it on only where none leads past
// them.
func (f finder) way(out leaves) []slot {
	if way := f.find(out, none, false); way != nil || !f.net.passing {
		return way
	}
	return f.find(out, passing, false)
}

// anyRate is way, whatever the sample rates are.
func (f finder) anyRate(out leaves) []slot {
	if way := f.find(out, none, true); way != nil || !f.net.passing {
		return way
	}
	return f.find(out, passing, true)
}

// anyWay is a way on which the signal may be lost.
func (f finder) anyWay(out leaves) []slot {
	if way := f.anyRate(out); way != nil {
		return way
	}
	return f.find(out, every, true)
}

// stand is a device that a search has come to, with the sample rate that the signal has there; 0 is any.
type stand struct {
	at   plan.DeviceID
	rate int
	by   slot
	back int
}

// find is a breadth-first search for the way of the fewest groups.
func (f finder) find(out leaves, over passed, anyRate bool) (way []slot) {
	stands := []stand{{at: f.from, rate: f.net.fixed(f.from), back: -1}}
	for i := 0; i < len(stands) && way == nil; i++ {
		here := stands[i]
		if i > 0 && f.net.stops(here.at, over) {
			continue
		}
		out(here.at, func(by slot) {
			next := stand{at: f.net.landing(leap{by.group, by.forward}, f.plugged), by: by, back: i}
			fits := true
			if next.rate, fits = f.net.enter(next.at, here.rate); anyRate {
				next.rate, fits = 0, true
			}
			if way != nil || !fits || slices.ContainsFunc(stands, func(s stand) bool { return s.at == next.at && s.rate == next.rate }) {
				return
			}
			if stands = append(stands, next); next.at == f.to {
				for s := len(stands) - 1; s > 0; s = stands[s].back {
					way = append(way, stands[s].by)
				}
				slices.Reverse(way)
			}
		})
	}
	return way
}

// enter is the sample rate of a signal within the device that it comes to, and whether it comes in there at all.
func (n *network) enter(id plan.DeviceID, rate int) (within int, fits bool) {
	d := n.devices[id]
	switch {
	case d == nil || d.rate == 0:
		return rate, true
	case d.converts:
		return 0, true
	}
	return d.rate, rate == 0 || rate == d.rate
}

// obstacle is the first place on a way where the signal is lost; blank where it is not.
func (f finder) obstacle(way []slot) Spot {
	rate, by := f.net.fixed(f.from), f.from
	for _, on := range way {
		if f.over(on) {
			link, direction := f.net.row(slot{on.group, on.forward, 1})
			capacity, at := f.net.capacityWith(on.group, f.plugged)
			return Spot{Cause: SlotOver, Link: link, Direction: direction, Limit: capacity, Rate: at}
		}
		at := f.net.landing(leap{on.group, on.forward}, f.plugged)
		within, fits := f.net.enter(at, rate)
		if !fits {
			return Spot{Cause: RatesApart, Link: f.net.spans[f.net.groups[on.group].main].links[0].id, Device: by, Beyond: at}
		}
		if at != f.to && f.net.stops(at, passing) {
			return Spot{Cause: NotPassed, Device: at}
		}
		if rate = within; f.net.fixed(at) != 0 {
			by = at
		}
	}
	return Spot{}
}
