package patch

import (
	"stageloom/model/plan"
)

// work is the patch of one act as an edit sees it.
type work struct {
	edit *plan.Edit
	net  *network
	act  plan.ActID
	over *overlay
}

func newWork(e *plan.Edit, act plan.ActID) (*work, error) {
	now := e.Now()
	n := newNetwork(now, restOf(now))
	over, found := gather(now, n)[act]
	if !found {
		return nil, refuse("there is no such act any more")
	}
	return &work{e, n, act, over}, nil
}

// input returns an input that this act can have.
func (w *work) input(id plan.InputID) (plan.Input, error) {
	input, found := w.edit.Now().Inputs.Get(plan.Key(id))
	switch {
	case !found:
		return input, refuse("there is no such input any more")
	case input.Act != "" && input.Act != w.act:
		owner, _ := w.edit.Now().Acts.Get(plan.Key(input.Act))
		return input, refuse("%s is an input of %s alone", input.Name, owner.Name)
	}
	return input, nil
}

// at is where an input is plugged in this act; none where it is not, or is struck.
func (w *work) at(input plan.Input) Socket {
	row, found := w.over.stageRow(input.ID)
	switch {
	case found && row.Strike:
		return Socket{}
	case found:
		return Socket{Device: row.Device, Number: row.Socket}
	}
	return w.net.snake(input)
}

// plug writes where an input is plugged: nothing where the house or its sub-snake says so already.
func (w *work) plug(id plan.InputID, to Socket) {
	row := plan.StagePatch{Act: w.act, Input: id, Device: to.Device, Socket: to.Number}
	said, found := plan.StagePatch{}, false
	if w.over.house != nil {
		said, found = w.over.house.stage[id]
	}
	if input, err := w.input(id); err == nil && !found && w.net.snake(input) == to {
		said = row
	}
	if said.Act = w.act; said == row {
		plan.Drop[plan.StagePatch](w.edit, row.Key())
		return
	}
	plan.Put(w.edit, row)
}

// listen writes what a channel listens to; none leaves it empty, which an act says by striking what the house has there.
func (w *work) listen(at place, to Socket) {
	row := plan.ConsolePatch{Act: w.act, Console: at.console, Channel: at.number, Device: to.Device, Socket: to.Number}
	var house plan.ConsolePatch
	said := false
	if w.over.house != nil {
		house, said = w.over.house.channels[at]
	}
	house.Act = w.act
	switch {
	case said && house == row, to.None() && !said, to.None() && house.Strike:
		plan.Drop[plan.ConsolePatch](w.edit, row.Key())
	case to.None():
		row.Strike = true
		plan.Put(w.edit, row)
	default:
		plan.Put(w.edit, row)
	}
}

// heard is what a channel listens to in this act.
func (w *work) heard(at place) Socket {
	row, found := w.over.channels[at]
	if !found && w.over.house != nil {
		row = w.over.house.channels[at]
	}
	if row.Strike {
		return Socket{}
	}
	return Socket{Device: row.Device, Number: row.Socket}
}

// exists refuses a socket that its device has not.
func (w *work) exists(s Socket) error {
	d := w.net.devices[s.Device]
	switch {
	case d == nil:
		return refuse("there is no such device any more")
	case s.Number < 1 || s.Number > w.net.sockets(s.Device, s.Output):
		return refuse("%s has %d sockets of this sort; there is no %s", d.name, w.net.sockets(s.Device, s.Output), w.net.socketWords(s))
	}
	return nil
}

// connect gives out what slots the channel needs; where it cannot, the channel stands all the same and a finding says why
// it is not reached.
func (w *work) connect(wishes []wish) {
	g := newGiver(w.edit)
	g.plugged = w.over.plugged
	for _, one := range wishes {
		_ = g.connect(one.socket, one.console)
	}
}
