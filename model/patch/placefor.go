package patch

import (
	"cmp"
	"math"

	"stageloom/model/plan"
)

// worth ranks a place: less is better, from the first figure on.
type worth [4]int

func (a worth) compare(b worth) int {
	for i := range a {
		if c := cmp.Compare(a[i], b[i]); c != 0 {
			return c
		}
	}
	return 0
}

// placeFor is the first free socket of the best device that takes inputs which share a socket over several acts, or why there
// is none. The best gets to all consoles, stands at the position of the dead one, is nearest to it, and has the fewest links to go.
func (m *movingOff) placeFor(group []seat) (best Socket, why string) {
	why = "no socket is free"
	least := worth{}
	for _, id := range m.inputTo {
		s, fits := m.freeIn(id, group)
		switch {
		case s.None() && !fits:
			why = "no free socket takes it"
			if m.powered(group) {
				why = "no free socket has 48 V"
			}
			continue
		case s.None():
			continue
		}
		value, reaches := m.worthOf(s, group)
		if !reaches {
			why = "no free socket gets to its consoles"
			continue
		}
		if best.None() || value.compare(least) < 0 {
			best, least = s, value
		}
	}
	return best, why
}

func (m *movingOff) powered(group []seat) bool {
	for _, one := range group {
		if one.input.Phantom {
			return true
		}
	}
	return false
}

// freeIn is the first socket of a device that is free in every act concerned and takes the inputs; fits is false where some
// are free and none takes them.
func (m *movingOff) freeIn(id plan.DeviceID, group []seat) (found Socket, fits bool) {
	fits = true
	for number := 1; number <= m.net.sockets(id, false); number++ {
		s := Socket{Device: id, Number: number}
		if m.fed[s] || !m.free(s, group) {
			continue
		}
		if m.takes(s, group) {
			return s, true
		}
		fits = false
	}
	return Socket{}, fits
}

// free reports whether nothing lies on a socket, or on what it leads to, and that it does not lead to the dead device.
func (m *movingOff) free(s Socket, group []seat) bool {
	for _, one := range group {
		for _, o := range one.acts {
			if !o.here(s.Device) {
				return false
			}
			for at := range o.spots(s) {
				if at.Device == m.dead || m.taken[o.act][at] {
					return false
				}
			}
		}
	}
	return true
}

// takes reports whether a socket, or the preamps that it leads to, are of the sort that inputs want.
func (m *movingOff) takes(s Socket, group []seat) bool {
	for _, one := range group {
		for _, o := range one.acts {
			for _, box := range o.boxes(s) {
				if !m.net.takes(box, one.input) {
					return false
				}
			}
		}
	}
	return true
}

// takes reports whether an input socket can take an input: a line goes into a microphone socket too, and what wants 48 V
// only where that comes from.
func (n *network) takes(s Socket, input plan.Input) bool {
	d := n.devices[s.Device]
	if d == nil {
		return false
	}
	says := false
	for _, row := range d.kind.sockets {
		if row.Direction != "in" {
			continue
		}
		if says = true; s.Number < row.First || s.Number >= row.First+row.Count {
			continue
		}
		switch {
		case input.Phantom && !row.Phantom:
			return false
		case FamilyOf(input.Use) == MicType || FamilyOf(input.Use) == DIType:
			return row.Use == "mic"
		}
		return row.Use == "mic" || row.Use == "line"
	}
	return !says && !input.Phantom
}

// worthOf ranks a socket for inputs; reaches is false where it gets to none of the consoles that they come up on.
func (m *movingOff) worthOf(s Socket, group []seat) (value worth, reaches bool) {
	wanted := 0
	for _, one := range group {
		for _, o := range one.acts {
			for at, on := range m.before[o.act].has {
				if !containsInput(on, one.input.ID) {
					continue
				}
				wanted++
				best := -1
				for _, box := range o.boxes(s) {
					if way := m.way(o, box.Device, at.console); way >= 0 && (best < 0 || way < best) {
						best = way
					}
				}
				if best < 0 {
					value[0]++
				}
				value[3] += max(0, best)
			}
		}
	}
	value[1], value[2] = m.elsewhere(s.Device), m.metres(s.Device)
	return value, wanted == 0 || value[0] < wanted
}

func containsInput(ids []plan.InputID, id plan.InputID) bool {
	for _, one := range ids {
		if one == id {
			return true
		}
	}
	return false
}

// elsewhere is 0 for a device at the position of the dead one, else 1.
func (m *movingOff) elsewhere(id plan.DeviceID) int {
	here, _ := m.edit.Now().Device(m.dead)
	there, _ := m.edit.Now().Device(id)
	if here.Position != "" && here.Position == there.Position {
		return 0
	}
	return 1
}

// metres is how far a device stands from the dead one, in whole metres; one without a place is as far as any can be.
func (m *movingOff) metres(id plan.DeviceID) int {
	here, _ := m.edit.Now().Device(m.dead)
	there, _ := m.edit.Now().Device(id)
	if here.Unplaced || there.Unplaced {
		return math.MaxInt32
	}
	return int(here.At().Distance(there.At()))
}
