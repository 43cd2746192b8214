package patch

import (
	"maps"
	"slices"

	"stageloom/model/plan"
)

// tally says what belongs to which input in one act.
type tally struct {
	// at is where inputs are plugged in, on the inputs that lie on a socket, over multicores too.
	at map[plan.InputID]Socket
	on map[Socket][]plan.InputID
	// has are the inputs that channels list.
	has map[place][]plan.InputID
}

func (w *work) tally(o *overlay) *tally {
	t := w.plugged(o)
	w.channelsOf(o, t)
	return t
}

// plugged is a tally without channels.
func (w *work) plugged(o *overlay) *tally {
	t := &tally{at: make(map[plan.InputID]Socket, len(w.order)), on: make(map[Socket][]plan.InputID, 2*len(w.order))}
	for _, id := range w.order {
		input := w.inputs[id]
		if input.Act != "" && input.Act != o.act {
			continue
		}
		at := w.at(o, input)
		if at.None() || at.Number < 1 {
			continue
		}
		t.at[id] = at
		for s := range o.spots(at) {
			t.on[s] = append(t.on[s], id)
		}
	}
	return t
}

// channelsOf notes the inputs of all channels that a tally has the sockets of.
func (w *work) channelsOf(o *overlay, t *tally) {
	t.has = make(map[place][]plan.InputID, len(w.order))
	note := func(at place, row plan.ConsolePatch) {
		if on := t.on[Socket{Device: row.Device, Number: row.Socket}]; !row.Strike && len(on) > 0 {
			t.has[at] = on
		}
	}
	for at, row := range o.channels {
		note(at, row)
	}
	if o.house == nil {
		return
	}
	for at, row := range o.house.channels {
		if _, said := o.channels[at]; !said {
			note(at, row)
		}
	}
}

// spots are all sockets that what is plugged in at one lies on in this act, over multicores and at guests.
func (o *overlay) spots(at Socket) func(func(Socket) bool) {
	return func(yield func(Socket) bool) {
		if !yield(at) {
			return
		}
		for _, way := range o.net.through[at] {
			if !yield(way.socket) {
				return
			}
			if box := o.box(way); box != way.socket && !yield(box) {
				return
			}
		}
	}
}

// want says which input a channel is to have in an act afterwards; blank is none.
func (w *work) want(act plan.ActID, at place, input plan.InputID) {
	if w.wants[act] == nil {
		w.wants[act] = map[place]plan.InputID{}
	}
	w.wants[act][at] = input
}

// keep lets every channel of an act have the input that it had, or that it is to have. One whose input is not there any more
// is left empty, and so is one that had none and would get what was plugged in elsewhere.
func (w *work) keep(o *overlay, after *tally) {
	before := w.before[o.act]
	w.revive(o, after)
	w.channelsOf(o, after)
	changes := map[place]Socket{}
	look := func(at place) {
		if to, changed := w.keepOne(o, after, at); changed {
			changes[at] = to
		}
	}
	for at := range before.has {
		look(at)
	}
	for at := range after.has {
		if _, seen := before.has[at]; !seen {
			look(at)
		}
	}
	for at := range w.wants[o.act] {
		look(at)
	}
	for _, at := range slices.SortedFunc(maps.Keys(changes), w.net.byPlace) {
		w.listen(o, at, changes[at])
	}
}

// keepOne says what a channel is to listen to, where that is something else.
func (w *work) keepOne(o *overlay, after *tally, at place) (to Socket, changed bool) {
	wanted := w.before[o.act].has[at]
	input, named := w.wants[o.act][at]
	if named {
		wanted = nil
		if input != "" {
			wanted = []plan.InputID{input}
		}
	}
	gone := func(id plan.InputID) bool {
		_, plugged := after.at[id]
		return !plugged || !slices.Contains(wanted, id)
	}
	first := slices.IndexFunc(wanted, func(id plan.InputID) bool { return !gone(id) })
	has := after.has[at]
	switch {
	case w.stays && !named && !slices.ContainsFunc(wanted, gone), len(has) == 0 && len(wanted) == 0:
		return to, false
	case first < 0:
		return to, true
	case w.anew && named && o == w.over, len(has) == 0, slices.ContainsFunc(has, gone):
		return w.bestFor(o, after.at[wanted[first]], at.console), true
	}
	return to, false
}

// revive gives an input that an act takes up again the channels that the house has for it, where they are free.
func (w *work) revive(o *overlay, after *tally) {
	if o.house == nil {
		return
	}
	var house *tally
	for id := range after.at {
		if _, was := w.before[o.act].at[id]; was || w.inputs[id].Act != "" {
			continue
		}
		if house == nil {
			house = w.tally(o.house)
		}
		for at, on := range house.has {
			row, own := o.channels[at]
			if _, named := w.wants[o.act][at]; own && row.Strike && !named && slices.Contains(on, id) {
				w.want(o.act, at, id)
			}
		}
	}
}

// bestFor is the socket that a console listens to in an act for what is plugged in at one.
func (w *work) bestFor(o *overlay, at Socket, console plan.DeviceID) Socket {
	return w.net.best(o.boxes(at), console, o.plugged)
}
