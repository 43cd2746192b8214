package patch

import (
	"maps"
	"slices"

	"stageloom/model/plan"
)

// Offset is a move of inputs or channels by so many places.
type Offset struct {
	Act plan.ActID
	// All moves in every act what it says itself too, whatever Act is; else Act moves, and what has it from the house along.
	All bool
	By  int
	// Follow tells that channels stay with inputs that move.
	Follow bool
}

func (o Offset) work(e *plan.Edit) (*work, error) {
	if o.All {
		o.Act = ""
	}
	w, err := newWork(e, o.Act)
	if err == nil {
		w.stays = !o.Follow
	}
	return w, err
}

// Inputs moves the sockets of inputs.
func (o Offset) Inputs(e *plan.Edit, inputs []plan.InputID) error {
	return o.seats(e, func(s seat) bool { return slices.Contains(inputs, s.input.ID) })
}

// Device moves all inputs that are plugged into a device.
func (o Offset) Device(e *plan.Edit, device plan.DeviceID) error {
	return o.seats(e, func(s seat) bool { return s.at.Device == device })
}

func (o Offset) seats(e *plan.Edit, moves func(seat) bool) error {
	w, err := o.work(e)
	if err != nil {
		return err
	}
	moved := false
	for _, one := range w.seats(o.All) {
		if !moves(one) {
			continue
		}
		to := one.at
		to.Number += o.By
		if w.exists(to) != nil {
			return refuse("there is no %s for %s", w.net.socketWords(to), w.inActNamed(one.input.Name, one.over.act))
		}
		if err := w.plugIn(one.over, one.input.ID, to); err != nil {
			return err
		}
		moved = true
	}
	if !moved {
		return refuse("no input is plugged in there")
	}
	return w.settle()
}

// Channels moves all channels of a console from one on. It refuses where that falls on others that are in use.
func (o Offset) Channels(e *plan.Edit, console plan.DeviceID, from int) error {
	w, err := o.work(e)
	if err != nil {
		return err
	}
	if w.net.devices[console] == nil {
		return refuse("there is no such console any more")
	}
	numbers := map[int]bool{}
	for _, over := range w.scope(o.All) {
		for _, rows := range []*overlay{over, over.house} {
			if rows == nil {
				continue
			}
			for at := range rows.channels {
				if at.console == console && at.number >= from {
					numbers[at.number] = true
				}
			}
		}
	}
	if len(numbers) == 0 {
		return refuse("no channel of %s is patched from %d on", w.net.name(console), from)
	}
	if err := w.slide(w.scope(o.All), console, numbers, o.By); err != nil {
		return err
	}
	return w.settle()
}

// scope are the acts whose own words change: the one that is edited, or all.
func (w *work) scope(all bool) []*overlay {
	if all {
		return w.acts
	}
	return w.acts[:1]
}

// slide moves channels of a console by so many places in acts, and with them the inputs that they have. Acts that are not
// named and say nothing of these channels themselves go along with the house.
func (w *work) slide(acts []*overlay, console plan.DeviceID, numbers map[int]bool, by int) error {
	for _, o := range acts {
		for _, number := range slices.Sorted(maps.Keys(numbers)) {
			if err := w.slides(o, place{console, number}, by, numbers); err != nil {
				return err
			}
		}
	}
	heard := map[channelAt]Socket{} // before anything moves
	for _, o := range w.acts {
		if !slices.Contains(acts, o) && o.saysOf(console, numbers, by) {
			continue
		}
		for number := range numbers {
			was, to := place{console, number}, place{console, number + by}
			if now := o.heard(was); numbers[to.number] || !now.None() {
				heard[channelAt{o.act, to}] = now
				w.want(o.act, to, first(w.before[o.act].has[was]))
			}
			if !numbers[number-by] {
				heard[channelAt{o.act, was}] = Socket{}
				w.want(o.act, was, "")
			}
		}
	}
	for _, o := range w.acts { // the house first
		for at, to := range heard {
			if at.act == o.act {
				w.listen(o, at.place, to)
			}
		}
	}
	return nil
}

// slides refuses a channel that cannot move so far.
func (w *work) slides(o *overlay, was place, by int, moving map[int]bool) error {
	to := place{was.console, was.number + by}
	if o.heard(was).None() {
		return nil
	}
	limit, known := w.net.channels(to.console)
	if to.number < 1 || known && to.number > limit {
		return refuse("%s has no channel %d%s", w.net.name(to.console), to.number, w.inAct(o))
	}
	if heard := o.heard(to); !moving[to.number] && !heard.None() {
		return refuse("%s %d is in use%s: it listens to %s", w.net.name(to.console), to.number, w.inAct(o), w.net.socketWords(heard))
	}
	return nil
}

// saysOf reports whether an act itself says what channels listen to, or those that they go to.
func (o *overlay) saysOf(console plan.DeviceID, numbers map[int]bool, by int) bool {
	for number := range numbers {
		_, was := o.channels[place{console, number}]
		_, to := o.channels[place{console, number + by}]
		if was || to {
			return true
		}
	}
	return false
}

// first is the first of several inputs, blank where there is none.
func first(ids []plan.InputID) plan.InputID {
	if len(ids) == 0 {
		return ""
	}
	return ids[0]
}
