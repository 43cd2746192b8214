package patch

import (
	"fmt"
	"slices"

	"stageloom/model/plan"
)

// eight is how many sockets a block of slots takes where the whole box finds no room. Common practice, no source.
const eight = 8

// most is how many slots are given out on links that state no number.
const most = 1024

// Connect gives out slots so that a console gets an input socket, or feeds an output socket. What is given out stays: a
// socket that has its slot keeps it. A box gets one block for all its sockets where there is room, else eight by eight.
// Slots are the house's and serve every act. It refuses where no link leads, or none has room.
func Connect(e *plan.Edit, socket Socket, console plan.DeviceID) error {
	return newGiver(e).connect(socket, console)
}

// GiveOut gives out the slots that the channels and outputs of all acts still lack, and returns for how many of them it
// did and why it could not for others.
func GiveOut(e *plan.Edit) (given int, refused []error) {
	v := Of(e.Now())
	g := newGiver(e)
	tried := map[wish]bool{}
	want := func(w wish) {
		if tried[w] {
			return
		}
		tried[w] = true
		if err := g.connect(w.socket, w.console); err != nil {
			refused = append(refused, err)
			return
		}
		given++
	}
	for _, act := range v.Acts {
		g.plugged = act.over.plugged
		for at := range act.over.all() {
			socket := act.over.socketFor(at)
			if !socket.None() && !act.over.arrive(socket, at).Reached {
				want(wish{socket, at.console})
			}
		}
		for _, line := range act.Outputs {
			if line.Patched() && !line.Reached && act.over.here(line.Console) {
				want(wish{line.Socket, line.Console})
			}
		}
	}
	return given, refused
}

type wish struct {
	socket  Socket
	console plan.DeviceID
}

// all are the channels that listen to something in this act, in order.
func (o *overlay) all() func(func(place) bool) {
	var places []place
	for at, row := range o.channels {
		if !row.Strike {
			places = append(places, at)
		}
	}
	if o.house != nil {
		for at, row := range o.house.channels {
			if _, said := o.channels[at]; !said && !row.Strike {
				places = append(places, at)
			}
		}
	}
	places = slices.DeleteFunc(places, func(at place) bool { return !o.here(at.console) })
	slices.SortFunc(places, o.net.byPlace)
	return slices.Values(places)
}

// socketFor is the box socket that a channel listens to: behind a splitter, the one that gets to the console, or could.
func (o *overlay) socketFor(at place) Socket {
	row, found := o.channels[at]
	if !found && o.house != nil {
		row = o.house.channels[at]
	}
	named := Socket{Device: row.Device, Number: row.Socket}
	if row.Strike || row.Device == "" {
		return Socket{}
	}
	boxes := o.boxes(named)
	for _, box := range boxes {
		if o.arrive(box, at).Reached {
			return box
		}
	}
	return o.net.best(boxes, at.console, o.plugged)
}

// giver gives out slots within one edit.
type giver struct {
	edit    *plan.Edit
	net     *network
	taken   map[slot]bool
	held    map[Socket][]slot
	plugged map[plan.DeviceID]plan.DeviceID
}

func newGiver(e *plan.Edit) *giver {
	now := e.Now()
	n := newNetwork(now, restOf(now))
	return giverOn(e, n, gather(now, n))
}

// giverOn gives out slots that no act of these has taken.
func giverOn(e *plan.Edit, n *network, overs map[plan.ActID]*overlay) *giver {
	g := &giver{edit: e, net: n, taken: map[slot]bool{}, held: map[Socket][]slot{}}
	for _, o := range overs {
		for at := range o.slots {
			g.taken[at] = true
		}
	}
	for socket, at := range overs[""].bySlot {
		g.held[socket] = at
	}
	return g
}

func (g *giver) connect(socket Socket, console plan.DeviceID) error {
	from, to := socket.Device, console
	if socket.Output {
		from, to = console, socket.Device
	}
	if from == to {
		return nil
	}
	way := leapsOf(finder{g.net, from, to, g.plugged}.anyRate(g.net.leaves(g.plugged)))
	if way == nil {
		if lost := g.net.obstacle(from, to, g.plugged); lost.Cause == NotPassed {
			return refuse("%s stands between %s and %s and passes nothing on; if it sends these on, set “Passes signals on” on its card, or lay a link",
				g.net.name(lost.Device), g.net.name(from), g.net.name(to))
		}
		return refuse("no link that carries channels leads from %s to %s; lay one", g.net.name(from), g.net.name(to))
	}
	for _, at := range way {
		if slices.ContainsFunc(g.held[socket], func(s slot) bool { return s.group == at.group && s.forward == at.forward }) {
			continue
		}
		if err := g.give(socket, at); err != nil {
			return err
		}
	}
	return nil
}

// give puts a socket on a slot of a group, with its whole box, its eight or alone.
func (g *giver) give(socket Socket, at leap) error {
	for _, block := range g.blocks(socket, at) {
		if first := g.room(block, at); first > 0 {
			for i, one := range block {
				g.put(one, slot{at.group, at.forward, first + i})
			}
			return nil
		}
	}
	group := g.net.groups[at.group]
	_, rate := g.net.capacityWith(at.group, g.plugged)
	link, _ := g.edit.Now().Link(g.net.spans[group.main].links[0].id)
	return refuse("%s has no channel left for %s: it carries %d each way at %v kHz", link.Name, g.net.socketWords(socket),
		g.capacity(at.group), float64(rate)/1000)
}

// blocks are the rows of sockets that could go together, largest first; none of them holds one that has its slot.
func (g *giver) blocks(socket Socket, at leap) (blocks [][]Socket) {
	count := g.net.sockets(socket.Device, socket.Output)
	first := (socket.Number-1)/eight*eight + 1
	for _, row := range [][2]int{{1, count}, {first, min(first+eight-1, count)}, {socket.Number, socket.Number}} {
		var block []Socket
		for number := row[0]; number <= row[1]; number++ {
			one := Socket{socket.Device, number, socket.Output}
			if slices.ContainsFunc(g.held[one], func(s slot) bool { return s.group == at.group && s.forward == at.forward }) {
				block = nil
				break
			}
			block = append(block, one)
		}
		if len(block) > 0 {
			blocks = append(blocks, block)
		}
	}
	return blocks
}

// room is the first slot of a free run for a block; 0 where there is none. The block keeps the shift of the box's others
// where that is free.
func (g *giver) room(block []Socket, at leap) int {
	capacity := g.capacity(at.group)
	fits := func(first int) bool {
		if first < 1 || first+len(block)-1 > capacity {
			return false
		}
		for i := range block {
			if g.taken[slot{at.group, at.forward, first + i}] {
				return false
			}
		}
		return true
	}
	for number := 1; number <= g.net.sockets(block[0].Device, block[0].Output); number++ {
		for _, s := range g.held[Socket{block[0].Device, number, block[0].Output}] {
			if first := block[0].Number + s.number - number; s.group == at.group && s.forward == at.forward && fits(first) {
				return first
			}
		}
	}
	for first := 1; first+len(block)-1 <= capacity; first++ {
		if fits(first) {
			return first
		}
	}
	return 0
}

func (g *giver) put(socket Socket, at slot) {
	link, direction := g.net.row(at)
	plan.Put(g.edit, plan.SlotPatch{Link: link, Direction: direction, Slot: at.number, Device: socket.Device, Socket: socket.Number, Output: socket.Output})
	g.taken[at] = true
	g.held[socket] = append(slices.Clone(g.held[socket]), at)
}

// row is where the plan keeps a slot: on the first link of the main span.
func (n *network) row(at slot) (plan.LinkID, string) {
	hop := n.hops(n.groups[at.group].main, at.forward, at.number)
	first := hop[0]
	if s := &n.spans[n.groups[at.group].main]; len(s.links) > 1 && first.Link != s.links[0].id {
		first = hop[len(hop)-1]
	}
	return first.Link, first.Direction
}

// capacity is how many slots a group has each way with the guests of the act, at most as many as are ever given out.
func (g *giver) capacity(number int) int {
	if c, _ := g.net.capacityWith(number, g.plugged); c > 0 {
		return c
	}
	return most
}

// sockets is how many sockets a device has in a direction.
func (n *network) sockets(id plan.DeviceID, output bool) int {
	d := n.devices[id]
	switch {
	case d == nil:
		return 0
	case output:
		return d.kind.Outputs
	}
	return d.kind.Inputs
}

// Keep holds a slot of a link for talkback, timecode or something else that has no socket, and returns its number: the
// highest that is free, so that blocks stay whole.
func Keep(e *plan.Edit, link plan.LinkID, direction, use string) (int, error) {
	g := newGiver(e)
	group, forward, found := g.net.place(link, direction)
	if !found {
		return 0, refuse("this link carries no channels")
	}
	highest := g.net.groups[group].capacity
	if highest == 0 {
		highest = 64 // links that state no number; any that is free serves
	}
	for number := highest; number > 0; number-- {
		if at := (slot{group, forward, number}); !g.taken[at] {
			plan.Put(e, plan.SlotPatch{Link: link, Direction: direction, Slot: number, Use: use})
			return number, nil
		}
	}
	row, _ := e.Now().Link(link)
	return 0, refuse("%s has no channel left in this direction", row.Name)
}

func refuse(format string, details ...any) error {
	return fmt.Errorf("%w: %s", plan.ErrRefused, fmt.Sprintf(format, details...))
}
