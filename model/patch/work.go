package patch

import (
	"cmp"
	"slices"
	"strings"

	"stageloom/model/plan"
)

// work is one edit of the patch of an act. It changes overlays first; only what settles without a collision is written, so
// that a refusal leaves the plan as it was.
type work struct {
	edit  *plan.Edit
	net   *network
	act   plan.ActID
	over  *overlay
	overs map[plan.ActID]*overlay
	// acts are those that the edit may change: the one that is edited, or the house and all that inherit from it.
	acts   []*overlay
	inputs map[plan.InputID]plan.Input
	order  []plan.InputID // by number
	before map[plan.ActID]*tally
	// wants says which input a channel is to have afterwards, none under a blank; a channel that it does not name keeps its own.
	wants map[plan.ActID]map[place]plan.InputID
	// anew tells that channels which are named listen to the best socket, though they have their input already.
	anew bool
	// stays tells that channels stay with the sockets, whatever is plugged in there.
	stays bool

	stages   map[stageAt]bool
	channels map[channelAt]bool
	changed  map[plan.InputID]bool
	wishes   map[plan.ActID][]wish
	// also is what an edit writes beside inputs, sockets and channels, before channels on links are assigned.
	also []func()
}

type stageAt struct {
	act   plan.ActID
	input plan.InputID
}

type channelAt struct {
	act plan.ActID
	place
}

func newWork(e *plan.Edit, act plan.ActID) (*work, error) {
	now := e.Now()
	n := newNetwork(now, restOf(now))
	overs := gather(now, n)
	over, found := overs[act]
	if !found {
		return nil, refuse("there is no such act any more")
	}
	w := &work{
		edit: e, net: n, act: act, over: over, overs: overs, acts: []*overlay{over}, inputs: map[plan.InputID]plan.Input{},
		before: map[plan.ActID]*tally{}, wants: map[plan.ActID]map[place]plan.InputID{},
		stages: map[stageAt]bool{}, channels: map[channelAt]bool{}, changed: map[plan.InputID]bool{}, wishes: map[plan.ActID][]wish{},
	}
	if act == "" {
		for _, row := range running(now) {
			w.acts = append(w.acts, overs[row.ID])
		}
	}
	for input := range now.Inputs.All() {
		w.inputs[input.ID] = input
		w.order = append(w.order, input.ID)
	}
	slices.SortFunc(w.order, func(a, b plan.InputID) int {
		return cmp.Or(cmp.Compare(w.inputs[a].Number, w.inputs[b].Number), strings.Compare(string(a), string(b)))
	})
	for _, o := range w.acts {
		w.before[o.act] = w.tally(o)
	}
	return w, nil
}

// input returns an input that this act can have.
func (w *work) input(id plan.InputID) (plan.Input, error) {
	input, found := w.inputs[id]
	switch {
	case !found:
		return input, refuse("there is no such input any more")
	case input.Act != "" && input.Act != w.act:
		owner, _ := w.edit.Now().Acts.Get(plan.Key(input.Act))
		return input, refuse("%s is an input of %s alone", input.Name, owner.Name)
	}
	return input, nil
}

// at is where an input is plugged in an act; none where it is not, or is struck.
func (w *work) at(o *overlay, input plan.Input) Socket {
	row, found := o.stageRow(input.ID)
	switch {
	case found && row.Strike:
		return Socket{}
	case found:
		return Socket{Device: row.Device, Number: row.Socket}
	}
	return w.net.snake(input)
}

// own reports whether the act that is edited is the one that says where an input is plugged before all others: the house,
// and of its own inputs each act.
func (w *work) own(input plan.Input) bool { return input.Act == w.act }

// plug says where an input is plugged: nothing where the house or its sub-snake says so already. A socket takes the place of
// the sub-snake that it had; a way of its sub-snake, and an output that a source leaves by, are noted as its sub-snake.
func (w *work) plug(id plan.InputID, to Socket) error { return w.plugIn(w.over, id, to) }

// plugIn is plug in one of the acts that the edit may change.
func (w *work) plugIn(o *overlay, id plan.InputID, to Socket) error {
	input := w.inputs[id]
	own := input.Act == o.act
	row := plan.StagePatch{Act: o.act, Input: id, Device: to.Device, Socket: to.Number}
	house, said := plan.StagePatch{}, false
	if o.house != nil {
		house, said = o.house.stage[id]
	}
	switch {
	case own && !said && (to.Output || to.Device == input.Snake && w.net.snake(input).Output == to.Output):
		w.snake(input, to.Device, to.Number)
		w.stage(row, false)
	case to.Output && (said || w.net.snake(input) != to):
		return refuse("%s is where a source leaves, which the house patch says of %s: set its sub-snake there", w.net.socketWords(to), input.Name)
	case !said && w.net.snake(input) == to:
		w.stage(row, false)
	default:
		house.Act = o.act
		w.stage(row, !said || house != row)
		if own {
			w.snake(input, "", 0)
		}
	}
	return nil
}

// stage puts a row into the overlay of its act, or takes it out.
func (w *work) stage(row plan.StagePatch, says bool) {
	o := w.overs[row.Act]
	if delete(o.stage, row.Input); says {
		o.stage[row.Input] = row
	}
	w.stages[stageAt{row.Act, row.Input}] = true
}

// snake notes the sub-snake of an input.
func (w *work) snake(input plan.Input, device plan.DeviceID, way int) {
	if input.Snake == device && input.SnakeWay == way {
		return
	}
	input.Snake, input.SnakeWay = device, way
	w.inputs[input.ID] = input
	w.changed[input.ID] = true
}

// unplug takes an input off its socket: in the house and of an act's own, off its sub-snake too; an act strikes what it has
// from the house.
func (w *work) unplug(input plan.Input) {
	w.forget(input)
	if !w.at(w.over, w.inputs[input.ID]).None() {
		w.stage(plan.StagePatch{Act: w.act, Input: input.ID, Strike: true}, true)
	}
}

// forget takes back what the act says of an input.
func (w *work) forget(input plan.Input) {
	w.stage(plan.StagePatch{Act: w.act, Input: input.ID}, false)
	if w.own(input) {
		w.snake(input, "", 0)
	}
}

// listen says what a channel listens to in an act; none leaves it empty, which an act says by striking what the house has
// there.
func (w *work) listen(o *overlay, at place, to Socket) {
	row := plan.ConsolePatch{Act: o.act, Console: at.console, Channel: at.number, Device: to.Device, Socket: to.Number}
	var house plan.ConsolePatch
	said := false
	if o.house != nil {
		house, said = o.house.channels[at]
	}
	house.Act = o.act
	delete(o.channels, at)
	switch {
	case said && house == row, to.None() && (!said || house.Strike):
	case to.None():
		row.Strike = true
		o.channels[at] = row
	default:
		o.channels[at] = row
	}
	w.channels[channelAt{o.act, at}] = true
	if !to.None() {
		w.wishes[o.act] = append(w.wishes[o.act], wish{to, at.console})
	}
}

// heard is what a channel listens to in an act.
func (o *overlay) heard(at place) Socket {
	row, found := o.channels[at]
	if !found && o.house != nil {
		row = o.house.channels[at]
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

// settle is check, and writes what is left.
func (w *work) settle() error {
	if err := w.check(); err != nil {
		return err
	}
	w.write()
	return nil
}

// check lets channels keep their inputs in every act that the edit may change, and refuses what would share a socket.
func (w *work) check() error {
	moved := len(w.stages)+len(w.changed) > 0
	for _, o := range w.acts {
		before := w.before[o.act]
		after := &tally{at: before.at, on: before.on}
		if moved {
			after = w.plugged(o)
		}
		if err := w.collides(o, after); err != nil {
			return err
		}
		w.keep(o, after)
	}
	return nil
}

// write puts into the plan what differs from it, and gives out the slots that channels need; where there are none, the
// channel stands all the same and a finding says why it is not reached.
func (w *work) write() {
	for at := range w.stages {
		row := plan.StagePatch{Act: at.act, Input: at.input}
		put(w.edit, row, w.overs[at.act].stage[at.input], says(w.overs[at.act].stage[at.input].Device, w.overs[at.act].stage[at.input].Strike))
	}
	for at := range w.channels {
		row, said := w.overs[at.act].channels[at.place]
		put(w.edit, plan.ConsolePatch{Act: at.act, Console: at.console, Channel: at.number}, row, said)
	}
	for id := range w.changed {
		plan.Put(w.edit, w.inputs[id])
	}
	for _, write := range w.also {
		write()
	}
	if len(w.wishes) == 0 {
		return
	}
	g := giverOn(w.edit, w.net, w.overs)
	for _, o := range w.acts {
		g.plugged = o.plugged
		for _, one := range w.wishes[o.act] {
			_ = g.connect(one.socket, one.console)
		}
	}
}

// put writes a row, or takes away the one that has its key.
func put[R plan.Row](e *plan.Edit, blank, row R, said bool) {
	if said {
		plan.Put(e, row)
		return
	}
	plan.Drop[R](e, blank.Key())
}
