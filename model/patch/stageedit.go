package patch

import (
	"cmp"
	"slices"

	"stageloom/model/plan"
)

// Fill plugs inputs into the sockets of a device in order from one on: "16 in order from here". With follow, the channels
// that have an input stay with it. It refuses sockets that are not there or that another input of the act holds.
func Fill(e *plan.Edit, act plan.ActID, inputs []plan.InputID, first Socket, follow bool) error {
	w, err := newWork(e, act)
	if err != nil {
		return err
	}
	if room := w.net.sockets(first.Device, first.Output) - first.Number + 1; room < len(inputs) && w.net.devices[first.Device] != nil {
		return refuse("%s has room for %d from %s on; %d are wanted", w.net.name(first.Device), max(0, room), w.net.socketWords(first), len(inputs))
	}
	moves := make([]Move, len(inputs))
	for i, id := range inputs {
		moves[i] = Move{id, Socket{first.Device, first.Number + i, first.Output}}
	}
	return w.moveAll(moves, follow)
}

// Plug plugs one input into a socket, as a drag does. With follow, the channels that have it stay with it.
func Plug(e *plan.Edit, act plan.ActID, input plan.InputID, to Socket, follow bool) error {
	return PlugAll(e, act, []Move{{input, to}}, follow)
}

// Swap exchanges the sockets of two inputs.
func Swap(e *plan.Edit, act plan.ActID, a, b plan.InputID, follow bool) error {
	w, err := newWork(e, act)
	if err != nil {
		return err
	}
	return w.rearrange([]plan.InputID{a, b}, follow, func(_ []plan.Input, at []Socket) { at[0], at[1] = at[1], at[0] })
}

// Shift moves inputs by so many sockets of their devices, up or down.
func Shift(e *plan.Edit, act plan.ActID, inputs []plan.InputID, by int, follow bool) error {
	w, err := newWork(e, act)
	if err != nil {
		return err
	}
	return w.rearrange(inputs, follow, func(_ []plan.Input, at []Socket) {
		for i := range at {
			at[i].Number += by
		}
	})
}

// Sort puts inputs in the order of their numbers on the sockets that they hold together, device by device as they are
// named. Those that are not plugged in stay so.
func Sort(e *plan.Edit, act plan.ActID, inputs []plan.InputID, follow bool) error {
	w, err := newWork(e, act)
	if err != nil {
		return err
	}
	inputs = slices.DeleteFunc(slices.Clone(inputs), func(id plan.InputID) bool {
		return w.inputs[id].ID != "" && w.at(w.over, w.inputs[id]).None()
	})
	return w.rearrange(inputs, follow, func(rows []plan.Input, at []Socket) {
		sorted := slices.Clone(at)
		slices.SortFunc(sorted, func(a, b Socket) int {
			return cmp.Or(w.net.byName(a.Device, b.Device), cmp.Compare(a.Number, b.Number))
		})
		order := make([]int, len(rows))
		for i := range order {
			order[i] = i
		}
		slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(rows[a].Number, rows[b].Number) })
		for i, row := range order {
			at[row] = sorted[i]
		}
	})
}

// Clear forgets what an act says of inputs: in an act they stand as in the house again, with their channels; in the house
// they are not patched, not over a sub-snake either. It refuses where another input of the act is where one would come back.
func Clear(e *plan.Edit, act plan.ActID, inputs ...plan.InputID) error {
	return onEach(e, act, inputs, true, (*work).forget)
}

// Strike takes inputs out of an act, whatever the house says, each with its right side. Their sockets and channels are free
// there.
func Strike(e *plan.Edit, act plan.ActID, inputs ...plan.InputID) error {
	return onEach(e, act, inputs, true, func(w *work, input plan.Input) {
		w.stage(plan.StagePatch{Act: act, Input: input.ID, Strike: true}, true)
	})
}

// onEach changes inputs of an act, all in one, with their right sides where both go together.
func onEach(e *plan.Edit, act plan.ActID, ids []plan.InputID, both bool, change func(*work, plan.Input)) error {
	if len(ids) == 0 {
		return nil
	}
	w, err := newWork(e, act)
	if err != nil {
		return err
	}
	var along []plan.InputID
	for _, id := range ids {
		if right := w.rightOf(id); both && right != "" && !slices.Contains(ids, right) {
			along = append(along, right)
		}
	}
	return together(w, ids, along, func(w *work, ids []plan.InputID) error {
		for _, id := range ids {
			input, err := w.input(id)
			if err != nil {
				return err
			}
			change(w, input)
		}
		return nil
	})
}

// Move is an input and the socket that it goes to.
type Move struct {
	Input plan.InputID
	To    Socket
}

// PlugAll plugs inputs into sockets all at once, so that they may take each other's places. With follow, the channels that
// have them stay with them.
func PlugAll(e *plan.Edit, act plan.ActID, moves []Move, follow bool) error {
	if len(moves) == 0 {
		return nil
	}
	w, err := newWork(e, act)
	if err != nil {
		return err
	}
	return w.moveAll(moves, follow)
}

// PlugOnly is PlugAll without the right sides of stereo pairs that are not named themselves.
func PlugOnly(e *plan.Edit, act plan.ActID, moves []Move, follow bool) error {
	w, err := newWork(e, act)
	if err == nil {
		err = w.movesOnly(moves, follow)
	}
	if err != nil {
		return err
	}
	return w.settle()
}

// rearrange lets change say where inputs that are all plugged go.
func (w *work) rearrange(ids []plan.InputID, follow bool, change func(rows []plan.Input, at []Socket)) error {
	rows, at := make([]plan.Input, len(ids)), make([]Socket, len(ids))
	for i, id := range ids {
		input, err := w.input(id)
		if err != nil {
			return err
		}
		rows[i], at[i] = input, w.at(w.over, input)
		if at[i].None() {
			return refuse("%s is not patched here; plug it in first", input.Name)
		}
	}
	change(rows, at)
	moves := make([]Move, len(ids))
	for i, id := range ids {
		moves[i] = Move{id, at[i]}
	}
	return w.moveAll(moves, follow)
}

// moveAll plugs inputs where they go, all at once, so that they may take each other's places. The right side of a stereo pair
// goes to the socket behind its left one's, where that is free.
func (w *work) moveAll(moves []Move, follow bool) error {
	return together(w, moves, w.rightMoves(moves), func(w *work, moves []Move) error { return w.movesOnly(moves, follow) })
}

// movesOnly plugs in what is named and nothing else.
func (w *work) movesOnly(moves []Move, follow bool) error {
	moving, goal := map[plan.InputID]bool{}, map[Socket]bool{}
	for _, m := range moves {
		if _, err := w.input(m.Input); err != nil {
			return err
		}
		if err := w.exists(m.To); err != nil {
			return err
		}
		if m.To.Output && !w.net.source(m.To) {
			return refuse("%s is an output; an input goes into an input", w.net.socketWords(m.To))
		}
		if goal[m.To] || moving[m.Input] {
			return refuse("%s would hold two inputs", w.net.socketWords(m.To))
		}
		moving[m.Input], goal[m.To] = true, true
	}
	for _, m := range moves {
		if err := w.plug(m.Input, m.To); err != nil {
			return err
		}
	}
	w.stays = !follow
	return nil
}

func (n *network) source(s Socket) bool {
	return s.Output && (n.sockets(s.Device, false) == 0 || len(n.through[s]) > 0)
}
