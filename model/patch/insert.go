package patch

import (
	"maps"
	"slices"

	"stageloom/model/plan"
)

// Insertion is a new input at the row of another.
type Insertion struct {
	// Act has the new input alone; blank is the house.
	Act plan.ActID
	// At is the row. The new one takes its number, where nothing that keeps its own has it.
	At   plan.InputID
	Name string
	// Below lets everything from the row's socket and channels on move down by one, up to the first gap; else the new one goes
	// to the first that are free.
	Below bool
}

// InsertInput puts a new input into the list at the row of another, on a socket of the same device and channels of the same
// consoles, and returns it. Inputs behind it are numbered anew up to the first number that is free; nothing else changes.
func InsertInput(e *plan.Edit, with Insertion) (id plan.InputID, err error) {
	return id, e.Try(func() error {
		w, err := newWork(e, with.Act)
		if err != nil {
			return err
		}
		row, err := w.input(with.At)
		if err != nil {
			return err
		}
		numbers := w.renumbered(row.Number)
		input := plan.Input{Number: numbers[0], Name: with.Name, Act: with.Act, Use: row.Use, Riser: row.Riser}
		if slices.Max(slices.Collect(maps.Values(numbers))) > mostInputs {
			return refuse("number %d is taken, and there is none above it", mostInputs)
		}
		for _, other := range w.order {
			if to := numbers[w.inputs[other].Number]; to > 0 && w.renumbers(w.inputs[other]) {
				moved := w.inputs[other]
				moved.Number = to
				w.inputs[other], w.changed[other] = moved, true
			}
		}
		id = e.AddInput(input)
		input.ID = id
		w.inputs[id] = input
		w.order = append(w.order, id)
		if err := w.makeRoom(row, id, with.Below); err != nil {
			return err
		}
		return w.settle()
	})
}

// mostInputs is the highest number of an input.
const mostInputs = 9999

// renumbers reports whether an input is of the list that the act may number anew: of the house, all are.
func (w *work) renumbers(input plan.Input) bool { return w.act == "" || input.Act == w.act }

// renumbered says which numbers become which when one is put in at a number; under 0, the one that it gets itself.
func (w *work) renumbered(at int) map[int]int {
	fixed, moving := map[int]bool{}, map[int]bool{}
	for _, input := range w.inputs {
		switch {
		case w.renumbers(input):
			moving[input.Number] = true
		case input.Act == "":
			fixed[input.Number] = true
		}
	}
	next := func(number int) int {
		for fixed[number] {
			number++
		}
		return number
	}
	last := next(at)
	numbers := map[int]int{0: last}
	for _, number := range slices.Sorted(maps.Keys(moving)) {
		if number < last {
			continue
		}
		if number > last {
			break
		}
		last = next(number + 1)
		numbers[number] = last
	}
	return numbers
}

// makeRoom plugs a new input beside the one of a row, and puts it on channels of the same consoles.
func (w *work) makeRoom(row plan.Input, id plan.InputID, below bool) error {
	at := w.at(w.over, row)
	if at.None() {
		return nil
	}
	to, err := w.roomAt(at, below)
	if err != nil || to.None() {
		return err
	}
	lowest := map[plan.DeviceID]int{}
	for place, on := range w.before[w.act].has {
		if number, known := lowest[place.console]; slices.Contains(on, row.ID) && (!known || place.number < number) {
			lowest[place.console] = place.number
		}
	}
	for _, console := range slices.SortedFunc(maps.Keys(lowest), w.net.byName) {
		number, err := w.channelAt(console, lowest[console], below)
		if err != nil {
			return err
		}
		for _, o := range w.acts {
			if number > 0 {
				w.want(o.act, place{console, number}, id)
			}
		}
	}
	return w.plug(id, to)
}

// roomAt is the socket for a new input: the one of the row, whose inputs and those behind it move on, or the first that is
// free in every act; none where all are in use.
func (w *work) roomAt(at Socket, below bool) (Socket, error) {
	from := 1
	if below {
		from = at.Number
	}
	fed := w.net.fed()
	gap := Socket{}
	for number := from; number <= w.net.sockets(at.Device, at.Output) && gap.None(); number++ {
		if s := (Socket{at.Device, number, at.Output}); !fed[s] && w.freeInAll(s) {
			gap = s
		}
	}
	switch {
	case !below:
		return gap, nil
	case gap.None():
		return gap, refuse("%s has no gap from %s on: choose the first free socket", w.net.name(at.Device), w.net.socketWords(at))
	}
	for _, one := range w.seats(true) {
		to := one.at
		if to.Number++; to.Device == at.Device && to.Output == at.Output && one.at.Number >= at.Number && one.at.Number < gap.Number {
			if err := w.plugIn(one.over, one.input.ID, to); err != nil {
				return gap, err
			}
		}
	}
	return at, nil
}

// freeInAll reports whether nothing lies on a socket in any act that the edit may change.
func (w *work) freeInAll(s Socket) bool {
	for _, o := range w.acts {
		for at := range o.spots(s) {
			if len(w.before[o.act].on[at]) > 0 {
				return false
			}
		}
	}
	return true
}

// channelAt is the channel for a new input, as roomAt is its socket; 0 where none is free.
func (w *work) channelAt(console plan.DeviceID, at int, below bool) (int, error) {
	from := 1
	if below {
		from = at
	}
	limit, known := w.net.channels(console)
	if !known {
		limit = most
	}
	gap := 0
	for number := from; number <= limit && gap == 0; number++ {
		used := func(o *overlay) bool { return !o.heard(place{console, number}).None() }
		if !slices.ContainsFunc(w.acts, used) {
			gap = number
		}
	}
	switch {
	case !below:
		return gap, nil
	case gap == 0:
		return 0, refuse("%s has no gap from channel %d on: choose the first that is free", w.net.name(console), at)
	}
	numbers := map[int]bool{}
	for number := at; number < gap; number++ {
		numbers[number] = true
	}
	return at, w.slide(w.acts, console, numbers, 1)
}
