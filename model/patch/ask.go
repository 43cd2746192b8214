package patch

import (
	"cmp"
	"iter"
	"maps"
	"slices"
	"strings"

	"stageloom/model/plan"
)

// Name is a device's name.
func (v *View) Name(id plan.DeviceID) string { return v.nets.name(id) }

// ByName yields all devices in the order of their names.
func (v *View) ByName() iter.Seq[plan.DeviceID] {
	return slices.Values(slices.SortedFunc(maps.Keys(v.nets.devices), v.nets.byName))
}

// Exists reports whether the kind of a device has a socket.
func (v *View) Exists(s Socket) bool {
	return s.Number >= 1 && s.Number <= v.nets.sockets(s.Device, s.Output)
}

// Phantom reports whether an input socket can put out 48 V.
func (v *View) Phantom(s Socket) bool {
	d := v.nets.devices[s.Device]
	return d != nil && slices.ContainsFunc(d.kind.sockets, func(row plan.KindSocket) bool {
		return row.Phantom && (row.Direction == "out") == s.Output && s.Number >= row.First && s.Number < row.First+row.Count
	})
}

// Supplies reports whether a device gives 48 V and gain to what is plugged into it itself: an active splitter, or any box
// that is not passive.
func (v *View) Supplies(id plan.DeviceID) bool {
	d := v.nets.devices[id]
	return d != nil && !d.kind.Passive
}

// Here reports whether a console is there in an act: a guest is so only where the act brings it.
func (a *Act) Here(console plan.DeviceID) bool { return a.over.here(console) }

// Load is what one direction of a row of slots carries, counted over all acts: a slot that any act uses counts once.
type Load struct {
	// Link is the first of its links, by which the row of slots is known, and Direction one along it.
	Link      plan.LinkID
	Direction string
	Used      int
	Highest   int
	// Capacity is how many slots there are; 0 where nothing says.
	Capacity int
	// Rate is the sample rate in hertz that the links run at.
	Rate int
	// Closed tells that the links carry nothing in this direction.
	Closed bool
}

// Over reports whether more is put on the slots than they carry.
func (l Load) Over() bool {
	return l.Used > 0 && (l.Closed || l.Capacity > 0 && (l.Used > l.Capacity || l.Highest > l.Capacity))
}

// Loads lists what every row of slots carries, by the name of its link. A backup carries what its main link does and is
// not told.
func (v *View) Loads() []Load {
	used := map[leap]map[int]bool{}
	for _, act := range v.Acts {
		for at, on := range act.over.slots {
			if on.strike {
				continue
			}
			way := leap{at.group, at.forward}
			if used[way] == nil {
				used[way] = map[int]bool{}
			}
			used[way][at.number] = true
		}
	}
	var loads []Load
	for number := range v.nets.groups {
		for _, forward := range []bool{true, false} {
			loads = append(loads, v.load(leap{number, forward}, used[leap{number, forward}]))
		}
	}
	name := func(l Load) string { link, _ := v.Plan.Link(l.Link); return link.Name }
	slices.SortFunc(loads, func(a, b Load) int {
		return cmp.Or(strings.Compare(name(a), name(b)), strings.Compare(string(a.Link), string(b.Link)), strings.Compare(a.Direction, b.Direction))
	})
	return loads
}

func (v *View) load(at leap, used map[int]bool) Load {
	g := v.nets.groups[at.group]
	link, direction := v.nets.row(slot{at.group, at.forward, 1})
	load := Load{Link: link, Direction: direction, Used: len(used), Capacity: g.capacity, Rate: v.nets.spans[g.main].rate}
	load.Closed = v.nets.spans[g.main].oneWay && !at.forward
	for number := range used {
		load.Highest = max(load.Highest, number)
	}
	return load
}

// Pair is a main link and its backup, and what is wrong with them as a pair.
type Pair struct {
	Main, Backup plan.LinkID
	// Apart tells that they do not join the same two devices.
	Apart bool
	// Crossed tells that each end of the one uses the port that the other uses at the far end: A to B beside B to A.
	Crossed bool
}

// Pairs lists the pairs of the links that carry slots.
func (v *View) Pairs() (pairs []Pair) {
	for _, g := range v.nets.groups {
		if g.backup < 0 {
			continue
		}
		main, backup := &v.nets.spans[g.main], &v.nets.spans[g.backup]
		a, b := main.ends, backup.ends
		if backup.turned {
			b[0], b[1] = b[1], b[0]
		}
		one, other := v.partners(main, backup)
		pairs = append(pairs, Pair{
			Main: one, Backup: other, Apart: g.apart,
			Crossed: !g.apart && a[0].port == b[1].port && a[1].port == b[0].port && a[0].port != a[1].port,
		})
	}
	return pairs
}

// partners are the two links that name each other.
func (v *View) partners(main, backup *span) (plan.LinkID, plan.LinkID) {
	for _, part := range main.links {
		link, _ := v.Plan.Link(part.id)
		for _, other := range backup.links {
			if other.id == link.Partner {
				return part.id, other.id
			}
		}
	}
	return main.links[0].id, backup.links[0].id
}

// Owner says who sets the gain of a socket in this act and who switches its 48 V; blank where nobody is named.
func (a *Act) Owner(s Socket) (gain, phantom plan.DeviceID) { return a.over.owner(s) }

// Joined reports whether links that carry audio or control in slots lead from one device to another in this act, in either
// direction and at whatever sample rates, over no console that passes nothing on.
func (v *View) Joined(act *Act, a, b plan.DeviceID) bool {
	out := v.nets.leaves(act.over.plugged)
	leads := func(from, to plan.DeviceID) bool {
		return finder{v.nets, from, to, act.over.plugged}.anyRate(out) != nil
	}
	return a == b || leads(a, b) || leads(b, a)
}

// Mixes reports whether a device can own the gain of others: one with channels, or a mixing kind with inputs.
func (v *View) Mixes(id plan.DeviceID) bool {
	limit, known := v.nets.channels(id)
	return limit > 0 || !known && v.nets.devices[id] != nil
}

// Snake is the socket of the sub-snake that an input is plugged into on stage; none where it has no sub-snake.
func (v *View) Snake(input plan.Input) Socket { return v.nets.snake(input) }
