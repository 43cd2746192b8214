package patch

import (
	"slices"

	"stageloom/model/plan"
)

// Unplug takes inputs off their sockets in one act: in the house they are not patched any more; an act strikes what it has
// from the house, and forgets what it says itself where the house has the input nowhere. Their sockets and channels are free.
func Unplug(e *plan.Edit, act plan.ActID, inputs ...plan.InputID) error {
	return onEach(e, act, inputs, false, (*work).unplug)
}

// SetSnake says which way of a sub-snake an input is plugged into first, in the list that it belongs to; no device takes it off
// its sub-snake. A socket that the way does not lead to is taken back; channels stay with the input.
func SetSnake(e *plan.Edit, id plan.InputID, device plan.DeviceID, way int) error {
	row, _ := e.Now().Inputs.Get(plan.Key(id))
	w, err := newWork(e, row.Act)
	if err != nil {
		return err
	}
	input, err := w.input(id)
	if err != nil {
		return err
	}
	if device == "" {
		way = 0
	}
	return together(w, []onSnake{{id, device, way}}, w.rightWays(input, device, way), func(w *work, ways []onSnake) error {
		for _, one := range ways {
			w.onWay(one)
		}
		return nil
	})
}

// onSnake is an input and the way of a sub-snake that it goes to.
type onSnake struct {
	input  plan.InputID
	device plan.DeviceID
	number int
}

// onWay notes the sub-snake of an input, and takes back a socket that its way does not lead to.
func (w *work) onWay(to onSnake) {
	input := w.inputs[to.input]
	w.snake(input, to.device, to.number)
	snake := w.net.snake(w.inputs[to.input])
	if said, found := w.over.stage[to.input]; found && !said.Strike && !snake.None() && !w.net.tails(snake, Socket{Device: said.Device, Number: said.Socket}) {
		w.stage(plan.StagePatch{Act: input.Act, Input: to.input}, false)
	}
}

// tails reports whether what is plugged into a sub-snake's way can come out at a socket: over a multicore, or, where none is
// laid, over tails that are plugged in by hand.
func (n *network) tails(snake, at Socket) bool {
	return len(n.through[snake]) == 0 || n.leadsTo(snake, at)
}

// leadsTo reports whether a socket is another, or lies on one multicore with it.
func (n *network) leadsTo(from, to Socket) bool {
	return from == to || slices.ContainsFunc(n.through[from], func(way far) bool { return way.socket == to })
}

// AddAct adds an act at the end of the running list, on the stage of the one before, and returns it.
func AddAct(e *plan.Edit, name string) plan.ActID {
	row := plan.Act{Name: name, Order: 1}
	for act := range e.Now().Acts.All() {
		if act.Order >= row.Order {
			row.Order, row.Stage = act.Order+1, act.Stage
		}
	}
	row.Order = min(row.Order, mostActs)
	return e.AddAct(row)
}

// mostActs is the highest place in the running list.
const mostActs = 999

// MoveAct puts an act at a place of the running list, counted from 1, and numbers the list anew.
func MoveAct(e *plan.Edit, id plan.ActID, place int) error {
	acts := slices.Collect(e.Now().Acts.All())
	slices.SortStableFunc(acts, func(a, b plan.Act) int { return a.Order - b.Order })
	at := slices.IndexFunc(acts, func(a plan.Act) bool { return a.ID == id })
	if at < 0 {
		return refuse("there is no such act any more")
	}
	moved := acts[at]
	acts = slices.Delete(acts, at, at+1)
	acts = slices.Insert(acts, max(0, min(place-1, len(acts))), moved)
	for i, act := range acts {
		act.Order = i + 1
		plan.Put(e, act)
	}
	return nil
}

// Bring says which guest consoles an act brings, each at a drop or at none; those that it brought before and that are not
// named stay away from then on.
func Bring(e *plan.Edit, act plan.ActID, guests []plan.ActConsole) error {
	if !e.Now().Acts.Has(plan.Key(act)) {
		return refuse("a guest console belongs to an act; there is no such act any more")
	}
	for _, row := range slices.Collect(e.Now().ActConsoles.All()) {
		if row.Act == act {
			plan.Drop[plan.ActConsole](e, row.Key())
		}
	}
	for _, guest := range guests {
		guest.Act = act
		plan.Put(e, guest)
	}
	return nil
}
