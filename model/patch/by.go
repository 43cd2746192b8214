package patch

import (
	"cmp"
	"iter"
	"slices"
	"strings"

	"stageloom/model/plan"
)

// BoxRow is one socket of a device in one act, with what is on it: more than one input is a conflict.
type BoxRow struct {
	Socket  Socket
	Lines   []*Line
	Outputs []*OutputLine
}

// Box lists every socket of a device in an act, inputs first, free ones too. Sockets that the patch names and the kind has
// not come last.
func (v *View) Box(act *Act, device plan.DeviceID) []BoxRow {
	rows := map[Socket]*BoxRow{}
	row := func(s Socket) *BoxRow {
		if rows[s] == nil {
			rows[s] = &BoxRow{Socket: s}
		}
		return rows[s]
	}
	for _, output := range []bool{false, true} {
		for number := 1; number <= v.nets.sockets(device, output); number++ {
			row(Socket{device, number, output})
		}
	}
	for _, line := range act.Lines {
		for s := range line.Sockets() {
			if s.Device == device {
				row(s).Lines = append(row(s).Lines, line)
			}
		}
	}
	for _, line := range act.Outputs {
		if line.Patched() && line.Socket.Device == device {
			row(line.Socket).Outputs = append(row(line.Socket).Outputs, line)
		}
	}
	all := make([]BoxRow, 0, len(rows))
	for _, one := range rows {
		all = append(all, *one)
	}
	slices.SortFunc(all, func(a, b BoxRow) int {
		return cmp.Or(compareBool(a.Socket.Output, b.Socket.Output), cmp.Compare(a.Socket.Number, b.Socket.Number))
	})
	return all
}

// Sockets are those a line touches, each once: the sub-snake's way, where it is patched, the boxes behind.
func (l *Line) Sockets() iter.Seq[Socket] {
	return func(yield func(Socket) bool) {
		if l.Struck || !l.Snake.None() && !yield(l.Snake) {
			return
		}
		if !l.At.None() && l.At != l.Snake && !yield(l.At) {
			return
		}
		for i := range l.Legs {
			for _, s := range l.Legs[i].Through {
				if (i == 0 || !slices.Contains(l.Legs[0].Through, s)) && !yield(s) {
					return
				}
			}
			if s := l.Legs[i].Socket; s != l.At && s != l.Snake && !yield(s) {
				return
			}
		}
	}
}

// Lies are all sockets that an input lies on in an act, each once: those that its line touches, and what is wired parallel to
// them, used or not.
func (v *View) Lies(act *Act, l *Line) iter.Seq[Socket] {
	return func(yield func(Socket) bool) {
		seen := map[Socket]bool{}
		once := func(s Socket) bool {
			if seen[s] {
				return true
			}
			seen[s] = true
			return yield(s)
		}
		for s := range l.Sockets() {
			if !once(s) {
				return
			}
		}
		if !l.Patched() {
			return
		}
		for s := range act.over.spots(l.At) {
			if !once(s) {
				return
			}
		}
	}
}

func compareBool(a, b bool) int {
	switch {
	case a == b:
		return 0
	case b:
		return -1
	}
	return 1
}

// ChannelRow is one channel of a console in one act: what it listens to, and the inputs that come in there.
type ChannelRow struct {
	Number  int
	Socket  Socket
	Channel Channel
	Lines   []*Line
}

// ConsoleRows lists the channels that are patched in an act under their consoles, by number.
func (v *View) ConsoleRows(act *Act) map[plan.DeviceID][]ChannelRow {
	all := map[plan.DeviceID][]ChannelRow{}
	where := map[place]int{}
	for at := range act.over.all() { // by number within a console
		socket := act.over.socketFor(at)
		where[at] = len(all[at.console])
		all[at.console] = append(all[at.console], ChannelRow{Number: at.number, Socket: socket, Channel: act.over.arrive(socket, at)})
	}
	for _, line := range act.Lines {
		for _, channel := range line.Channels() {
			if i, found := where[place{channel.Console, channel.Number}]; found {
				row := &all[channel.Console][i]
				row.Channel, row.Lines = channel, append(row.Lines, line)
			}
		}
	}
	return all
}

// SlotRow is one slot of a link in one act.
type SlotRow struct {
	Hop    Hop
	Socket Socket
	// Use is what the slot is kept for where it has no socket.
	Use string
	// Lines are the inputs whose signal is on it.
	Lines []*Line
}

// Slots lists the slots in use on a link in an act, by direction along the link and number, and how many it has each way;
// 0 where nothing says. A backup lists those of its main link.
func (v *View) Slots(act *Act, link plan.LinkID) (rows []SlotRow, capacity int) {
	number, found := v.nets.spanOf[link]
	if !found {
		return nil, 0
	}
	group := v.nets.spans[number].group
	users := map[Socket][]*Line{}
	for _, line := range act.Lines {
		for i := range line.Legs {
			users[line.Legs[i].Socket] = append(users[line.Legs[i].Socket], line)
		}
	}
	for at, on := range act.over.carried() {
		if at.group != group {
			continue
		}
		for _, hop := range v.nets.hops(number, at.forward, at.number) {
			if hop.Link == link {
				rows = append(rows, SlotRow{Hop: hop, Socket: on.socket, Use: on.use, Lines: users[on.socket]})
			}
		}
	}
	slices.SortFunc(rows, func(a, b SlotRow) int {
		return cmp.Or(strings.Compare(a.Hop.Direction, b.Hop.Direction), cmp.Compare(a.Hop.Slot, b.Hop.Slot))
	})
	capacity, _ = v.nets.capacityWith(group, act.over.plugged)
	return rows, capacity
}

// carried are the slots that hold something in this act.
func (o *overlay) carried() map[slot]content {
	all := map[slot]content{}
	if o.house != nil {
		for at, on := range o.house.slots {
			if !on.strike {
				all[at] = on
			}
		}
	}
	for at, on := range o.slots {
		if delete(all, at); !on.strike {
			all[at] = on
		}
	}
	return all
}
