package patch

import (
	"cmp"
	"maps"
	"slices"

	"stageloom/model/plan"
)

// Left is an input or output that an edit found no place for.
type Left struct {
	Act   plan.ActID
	Where plan.Ref
	// Words say it: "Kick in stays on SL in 3: no free socket has 48 V".
	Words string
}

// MoveOff takes everything off a device that is dead, in all acts: each socket's inputs go to the first socket elsewhere
// that is free in every act concerned and takes them, its outputs likewise. Channels keep their inputs; where an input goes
// over a splitter and another box of it gets to the console, its channel listens there instead. Where devices are named, only
// those take something over. What finds no place is returned and stays.
func MoveOff(e *plan.Edit, dead plan.DeviceID, to ...plan.DeviceID) ([]Left, error) {
	w, err := newWork(e, "")
	if err != nil {
		return nil, err
	}
	if w.net.devices[dead] == nil {
		return nil, refuse("there is no such device any more")
	}
	m := newMovingOff(w, dead, to)
	used := w.used(e.Now())
	m.inputs()
	m.outputs()
	w.also = append(w.also, func() { w.release(used) })
	if len(m.left) == 0 && m.moved == 0 {
		return nil, refuse("nothing is patched at %s", w.net.name(dead))
	}
	return m.left, w.settle()
}

// movingOff finds places for what is at a device.
type movingOff struct {
	*work
	dead    plan.DeviceID
	inputTo []plan.DeviceID
	output  []plan.DeviceID
	fed     map[Socket]bool
	taken   map[plan.ActID]map[Socket]bool
	ways    map[wayAt]int
	left    []Left
	moved   int
}

type wayAt struct {
	act      plan.ActID
	from, to plan.DeviceID
}

func newMovingOff(w *work, dead plan.DeviceID, to []plan.DeviceID) *movingOff {
	m := &movingOff{work: w, dead: dead, fed: w.net.fed(), taken: map[plan.ActID]map[Socket]bool{}, ways: map[wayAt]int{}}
	for _, o := range w.acts {
		m.taken[o.act] = map[Socket]bool{}
		for s := range w.before[o.act].on {
			m.taken[o.act][s] = true
		}
		for _, line := range allOutputs(w.edit.Now(), o) {
			if line.Patched() {
				m.taken[o.act][line.Socket] = true
			}
		}
	}
	m.choose(to)
	return m
}

// choose says which devices take inputs and outputs over: those that are named, else boxes for microphones, and boxes that
// are no source. A console does unasked only where it stands with the dead one: nobody runs a microphone's cable to FOH.
func (m *movingOff) choose(to []plan.DeviceID) {
	for _, id := range slices.SortedFunc(maps.Keys(m.net.devices), m.net.byName) {
		k := m.net.devices[id].kind
		named := slices.Contains(to, id)
		if id == m.dead || !named && (len(to) > 0 || m.farConsole(id)) {
			continue
		}
		if k.Inputs > 0 && (named || !k.Passive && k.takesMics()) {
			m.inputTo = append(m.inputTo, id)
		}
		if k.Outputs > 0 && k.Inputs+k.Channels > 0 && (named || !k.Passive) {
			m.output = append(m.output, id)
		}
	}
}

// farConsole reports whether a device is a console that does not stand with the dead one.
func (m *movingOff) farConsole(id plan.DeviceID) bool {
	return m.net.console(id) && m.elsewhere(id) > 0
}

// takesMics reports whether a kind has inputs for microphones, or does not say what its inputs take.
func (k *kind) takesMics() bool {
	says := false
	for _, row := range k.sockets {
		if row.Direction == "in" {
			if says = true; row.Use == "mic" {
				return true
			}
		}
	}
	return !says
}

// deadAt is the socket of the device by which an input comes; none where it does not.
func (m *movingOff) deadAt(s seat) Socket {
	for _, o := range s.acts {
		for at := range o.spots(s.at) {
			if at.Device == m.dead {
				return at
			}
		}
	}
	return Socket{}
}

// inputs moves all that are plugged in at the device or come by it, socket by socket, so that what shares a socket over the
// acts goes to one again.
func (m *movingOff) inputs() {
	at := map[Socket][]seat{}
	for _, one := range m.seats(true) {
		if s := m.deadAt(one); !s.None() && !m.otherLegs(one) {
			at[s] = append(at[s], one)
		}
	}
	for _, s := range slices.SortedFunc(maps.Keys(at), bySocket) {
		if to, _ := m.placeFor(at[s]); apart(at[s]) && !to.None() {
			m.seatAt(s, to, at[s])
			continue
		}
		for _, one := range at[s] {
			to, why := m.placeFor([]seat{one})
			if to.None() {
				m.left = append(m.left, Left{one.over.act, plan.RefOf(one.input), one.input.Name + " stays on " + m.net.socketWords(one.at) + ": " + why})
				continue
			}
			m.seatAt(s, to, []seat{one})
		}
	}
}

func bySocket(a, b Socket) int {
	return cmp.Or(compareBool(a.Output, b.Output), cmp.Compare(a.Number, b.Number))
}

// apart reports whether no two of these are in one act.
func apart(group []seat) bool {
	seen := map[*overlay]bool{}
	for _, one := range group {
		for _, o := range one.acts {
			if seen[o] {
				return false
			}
			seen[o] = true
		}
	}
	return true
}

// seatAt plugs inputs into a socket, with who sets the gain and switches 48 V there.
func (m *movingOff) seatAt(was, to Socket, group []seat) {
	for _, one := range group {
		if err := m.plugIn(one.over, one.input.ID, to); err != nil {
			continue // only outputs are refused, and none is a place
		}
		m.moved++
		for _, o := range one.acts {
			for s := range o.spots(to) {
				m.taken[o.act][s] = true
			}
			m.ownAs(o, was, to)
		}
	}
}

// ownAs lets a socket have the owners that another had in an act, where it has none of its own.
func (m *movingOff) ownAs(o *overlay, was, to Socket) {
	gain, phantom := o.owner(was)
	turned := func(id plan.DeviceID) plan.DeviceID {
		if id == m.dead {
			return to.Device
		}
		return id
	}
	hasGain, hasPhantom := o.owner(to)
	row := plan.SocketOwner{Act: o.act, Device: to.Device, Socket: to.Number, Gain: cmp.Or(hasGain, turned(gain)), Phantom: cmp.Or(hasPhantom, turned(phantom))}
	if row.Gain == hasGain && row.Phantom == hasPhantom || o.owners[to].Strike {
		return
	}
	o.owners[to] = row
	m.also = append(m.also, func() { plan.Put(m.edit, row) })
}

// otherLegs lets the channels of an input that is plugged into a splitter listen to another box of it, where that gets to
// all consoles that listened to the dead one. It stays plugged in then.
func (m *movingOff) otherLegs(one seat) bool {
	if one.at.Device == m.dead {
		return false
	}
	listens := map[channelAt]Socket{}
	for _, o := range one.acts {
		boxes := slices.DeleteFunc(slices.Clone(o.boxes(one.at)), func(s Socket) bool { return s.Device == m.dead })
		for at, on := range m.before[o.act].has {
			if !slices.Contains(on, one.input.ID) || o.socketFor(at).Device != m.dead {
				continue
			}
			if len(boxes) == 0 {
				return false
			}
			box := m.net.best(boxes, at.console, o.plugged)
			if m.way(o, box.Device, at.console) < 0 {
				return false
			}
			listens[channelAt{o.act, at}] = box
		}
		if len(boxes) == 0 {
			return false
		}
	}
	for _, o := range one.acts {
		for at, box := range listens {
			if at.act == o.act {
				m.listen(o, at.place, box)
				m.moved++
			}
		}
	}
	return true
}

// way is how many links lead from a device to another in an act; negative where none does.
func (m *movingOff) way(o *overlay, from, to plan.DeviceID) int {
	if from == to {
		return 0
	}
	key := wayAt{o.act, from, to}
	steps, known := m.ways[key]
	if !known {
		way := m.net.route(from, to, o.plugged)
		if steps = len(way); way == nil {
			steps = -1
		}
		m.ways[key] = steps
	}
	return steps
}
