package patch

import (
	"fmt"

	"stageloom/model/plan"
)

// seat is an input on the socket where one act says that it is plugged.
type seat struct {
	over  *overlay
	input plan.Input
	at    Socket
	// acts are all that have it so: of the house, those that say nothing else.
	acts []*overlay
}

// seats are all inputs that are plugged in, as the act that is edited says, and with all also as every other act that the
// edit may change says itself.
func (w *work) seats(all bool) (seats []seat) {
	for _, o := range w.acts {
		if o != w.over && !all {
			continue
		}
		for _, id := range w.order {
			input := w.inputs[id]
			if at := w.at(o, input); w.saysOf(o, input) && !at.None() && at.Number > 0 {
				seats = append(seats, seat{o, input, at, w.having(o, input)})
			}
		}
	}
	return seats
}

// saysOf reports whether an act itself says where an input is plugged; the one that is edited says so of all that it has.
func (w *work) saysOf(o *overlay, input plan.Input) bool {
	if input.Act != "" {
		return input.Act == o.act
	}
	_, says := o.stage[input.ID]
	return says || o == w.over
}

// having are the acts that have an input as one of them says.
func (w *work) having(o *overlay, input plan.Input) []*overlay {
	acts := []*overlay{o}
	for _, other := range w.acts {
		if _, says := other.stage[input.ID]; o.house == nil && input.Act == "" && other != o && !says {
			acts = append(acts, other)
		}
	}
	return acts
}

// actName is how an act is called in a message; blank for the house.
func (w *work) actName(id plan.ActID) string {
	act, _ := w.edit.Now().Acts.Get(plan.Key(id))
	return act.Name
}

// inActNamed is a name with the act that it is said of.
func (w *work) inActNamed(name string, act plan.ActID) string {
	if said := w.actName(act); said != "" {
		return fmt.Sprintf("%s in %s", name, said)
	}
	return name
}

// used are the sockets that a channel of any act listens to, or that an output leaves by.
func (w *work) used(p *plan.Plan) map[Socket]bool {
	used := map[Socket]bool{}
	for _, o := range w.overs {
		for _, row := range o.channels {
			if !row.Strike {
				used[Socket{Device: row.Device, Number: row.Socket}] = true
			}
		}
	}
	for row := range p.OutputPatches.All() {
		if !row.Strike {
			used[Socket{row.Device, row.Socket, true}] = true
		}
	}
	return used
}

// fed are the sockets that a multicore leads to: its plug is in the way of another.
func (n *network) fed() map[Socket]bool {
	fed := map[Socket]bool{}
	for _, all := range n.through {
		for _, way := range all {
			fed[way.socket] = true
		}
	}
	return fed
}

// release takes back the channels on links of sockets that were used before and are not any more.
func (w *work) release(before map[Socket]bool) {
	now := w.used(w.edit.Now())
	gone := func(s Socket) bool { return !s.None() && before[s] && !now[s] }
	var rows []plan.SlotPatch
	for row := range w.edit.Now().SlotPatches.All() {
		if gone(Socket{row.Device, row.Socket, row.Output}) {
			rows = append(rows, row)
		}
	}
	for _, row := range rows {
		plan.Drop[plan.SlotPatch](w.edit, row.Key())
	}
	for _, o := range w.overs {
		for at, on := range o.slots {
			if gone(on.socket) {
				delete(o.slots, at)
			}
		}
		for s := range o.bySlot {
			if gone(s) {
				delete(o.bySlot, s)
			}
		}
	}
}
