package patch

import (
	"slices"

	"stageloom/model/plan"
)

// A way is a detour where it is more than detourTimes as long as another, and detourMore metres longer; common practice, no source.
const (
	detourTimes = 2
	detourMore  = 50.0
)

// Detour is a way of a signal that runs over far more cable than another on which it would get there.
type Detour struct {
	// Over are the links that it runs over, Instead those of the shorter way, on which Room channels are free.
	Over, Instead []plan.LinkID
	Metres, Short float64
	Room          int
	// Fewer tells that the shorter way goes over fewer links, so that it is taken as soon as it has channels.
	Fewer bool
}

// Detours looks for detours with what links measure and have free.
type Detours struct {
	view   *View
	metres func(plan.LinkID) float64
	used   map[leap]int
	known  map[shortKey]shortWay
}

type shortKey struct {
	from, to plan.DeviceID
	act      plan.ActID // blank where no guest sits at a drop
}

// shortWay is the way of the least cable over links that have a channel free.
type shortWay struct {
	leaps  []leap
	links  []plan.LinkID
	metres float64
	room   int
}

// Detours begins to look for detours. The metres of a link are 0 where nobody knows them: nothing is said of ways over it.
func (v *View) Detours(metres func(plan.LinkID) float64) *Detours {
	d := &Detours{view: v, metres: metres, used: map[leap]int{}, known: map[shortKey]shortWay{}}
	taken := map[slot]bool{}
	for _, act := range v.Acts {
		for at := range act.over.slots {
			if !taken[at] {
				taken[at] = true
				d.used[leap{at.group, at.forward}]++
			}
		}
	}
	return d
}

// Of says whether a channel gets its signal from a box by a detour.
func (d *Detours) Of(act *Act, box plan.DeviceID, channel Channel) (Detour, bool) {
	metres, over := 0.0, []plan.LinkID(nil)
	for _, hop := range channel.Hops {
		length := d.metres(hop.Link)
		if length <= 0 {
			return Detour{}, false
		}
		metres, over = metres+length, append(over, hop.Link)
	}
	if !channel.Reached || metres <= detourMore {
		return Detour{}, false
	}
	key := shortKey{from: box, to: channel.Console}
	if len(act.over.plugged) > 0 {
		key.act = act.Act.ID
	}
	short, known := d.known[key]
	if !known {
		short = d.shortest(act.over, box, channel.Console)
		d.known[key] = short
	}
	if short.leaps == nil || metres <= detourTimes*short.metres || metres <= short.metres+detourMore {
		return Detour{}, false
	}
	return Detour{
		Over: over, Instead: short.links, Metres: metres, Short: short.metres, Room: short.room,
		Fewer: len(short.leaps) < d.groups(channel.Hops),
	}, true
}

// groups counts the groups of links that a way goes over.
func (d *Detours) groups(hops []Hop) int {
	var all []int
	for _, hop := range hops {
		if group, _, _ := d.view.nets.place(hop.Link, hop.Direction); !slices.Contains(all, group) {
			all = append(all, group)
		}
	}
	return len(all)
}

// milestone is a device that a search has come to over so much cable.
type milestone struct {
	stand
	metres float64
	by     leap
	done   bool
}

// shortest finds the way of the least cable on which a signal arrives, over no console and over links that have a channel free.
func (d *Detours) shortest(o *overlay, from, to plan.DeviceID) shortWay {
	n := d.view.nets
	all := []milestone{{stand: stand{at: from, rate: n.fixed(from), back: -1}}}
	for {
		here := nearest(all)
		if here < 0 {
			return shortWay{}
		}
		all[here].done = true
		if all[here].at == to {
			return d.trodden(o, all, here)
		}
		if here > 0 && n.stops(all[here].at, none) {
			continue
		}
		for _, by := range n.leaps(all[here].at, o.plugged) {
			next := milestone{stand: stand{at: n.landing(by, o.plugged), back: here}, by: by}
			length, fits := d.length(by), false
			if next.rate, fits = n.enter(next.at, all[here].rate); length <= 0 || !fits || d.room(o, by) <= 0 {
				continue
			}
			next.metres = all[here].metres + length
			if !slices.ContainsFunc(all, func(r milestone) bool { return r.at == next.at && r.rate == next.rate && r.metres <= next.metres }) {
				all = append(all, next)
			}
		}
	}
}

// nearest is the place of the nearest device whose links were not followed yet; -1 where there is none.
func nearest(all []milestone) int {
	here := -1
	for i := range all {
		if !all[i].done && (here < 0 || all[i].metres < all[here].metres) {
			here = i
		}
	}
	return here
}

// trodden is the way to a device that a search has come to.
func (d *Detours) trodden(o *overlay, all []milestone, at int) (way shortWay) {
	way.metres, way.room = all[at].metres, most
	for ; at > 0; at = all[at].back {
		by := all[at].by
		way.leaps, way.room = append(way.leaps, by), min(way.room, d.room(o, by))
	}
	slices.Reverse(way.leaps)
	for _, by := range way.leaps {
		for _, hop := range d.view.nets.hops(d.view.nets.groups[by.group].main, by.forward, 1) {
			way.links = append(way.links, hop.Link)
		}
	}
	return way
}

// length is how much cable a group of links has; 0 where nobody knows.
func (d *Detours) length(at leap) (metres float64) {
	n := d.view.nets
	for _, part := range n.spans[n.groups[at.group].main].links {
		length := d.metres(part.id)
		if length <= 0 {
			return 0
		}
		metres += length
	}
	return metres
}

// room is how many channels of a group of links no act has taken.
func (d *Detours) room(o *overlay, at leap) int {
	capacity, _ := d.view.nets.capacityWith(at.group, o.plugged)
	if capacity == 0 {
		capacity = most
	}
	return capacity - d.used[at]
}

// TakeOver gives a socket of a box channels on links that lead from it to a console in an act, one after the other.
func TakeOver(e *plan.Edit, id plan.ActID, socket Socket, links []plan.LinkID) error {
	act, found := Of(e.Now()).Act(id)
	if !found {
		return refuse("there is no such act any more")
	}
	g := newGiver(e)
	g.plugged = act.over.plugged
	at, last := socket.Device, -1
	for _, link := range links {
		number, found := g.net.spanOf[link]
		if !found {
			return refuse("this link carries no channels")
		}
		group := g.net.spans[number].group
		if group == last {
			continue
		}
		last = group
		forward := g.net.landing(leap{group, true}, g.plugged) != at
		if !slices.ContainsFunc(g.held[socket], func(s slot) bool { return s.group == group && s.forward == forward }) {
			if err := g.give(socket, leap{group, forward}); err != nil {
				return err
			}
		}
		at = g.net.landing(leap{group, forward}, g.plugged)
	}
	return nil
}
