package patch

import (
	"slices"
	"strings"

	"stageloom/model/plan"
)

// trace follows the channels of one act back to their sources.
type trace struct {
	*Arrivals
	act    *Act
	number int // of the act in the view
	// house are the silent channels of the house, silent those of this act, told or not.
	house, silent map[place]Gap
	// plugged are the inputs by where they are plugged in, waiting those behind a port that joins nothing; made when wanted.
	plugged map[Socket]*Line
	waiting map[int][]waiter
}

// waiter is an input that comes to a port which joins nothing.
type waiter struct {
	port end
	line *Line
}

func (t *trace) gaps() (told []Gap) {
	for _, at := range t.candidates() {
		gap, tell := t.judge(at)
		if gap.Cause == 0 {
			continue
		}
		t.silent[at] = gap
		if tell {
			told = append(told, gap)
		}
	}
	return told
}

// judge says why a channel gets nothing, and whether that is to be told; no cause where it gets something or lists nothing.
func (t *trace) judge(at place) (gap Gap, tell bool) {
	o := t.act.over
	row, own := o.channels[at]
	if !own && o.house != nil {
		row = o.house.channels[at]
	}
	if row.Strike || row.Device == "" || !o.here(at.console) {
		return Gap{}, false
	}
	gap = Gap{Console: at.console, Channel: at.number, Named: Socket{Device: row.Device, Number: row.Socket}}
	gap.Socket = gap.Named
	if limit, known := o.net.channels(at.console); known && at.number > limit {
		gap.Cause, gap.Limit = NoChannel, limit
		return gap, true
	}
	if !t.view.Exists(gap.Named) {
		gap.Cause, gap.Device, gap.Limit = NoSocket, row.Device, o.net.sockets(row.Device, false)
		return gap, true
	}
	on := t.on(t.number, at)
	if slices.ContainsFunc(on, func(h hit) bool { return h.channel.Reached }) {
		return Gap{}, false
	}
	gap.Socket = o.socketFor(at)
	if len(on) > 0 {
		for _, h := range on {
			gap.Inputs = append(gap.Inputs, h.line.Input.ID)
		}
		t.onTheWay(&gap)
		return gap, true
	}
	if t.behind(&gap) {
		return gap, true
	}
	gap.Cause, gap.Device = Unplugged, gap.Named.Device
	return gap, t.missed(&gap, at, own || t.act.House())
}

// missed reports whether a channel with nothing plugged in is to be told, and notes which inputs it should have.
func (t *trace) missed(gap *Gap, at place, own bool) bool {
	var wanted []plan.InputID
	for _, h := range t.Arrivals.house[at] {
		wanted = append(wanted, h.line.Input.ID)
	}
	wanted = append(wanted, t.house[at].Inputs...)
	if own && !t.act.House() {
		wanted = t.standing(gap.Named)
	}
	struck := 0
	for _, id := range wanted {
		line, found := t.act.Line(id)
		switch {
		case found && line.Struck:
			struck++
		case found && line.Patched() && line.Number(at.console) == 0:
			gap.Inputs = append(gap.Inputs, id)
		}
	}
	if len(wanted) > 0 {
		return struck < len(wanted)
	}
	return own && !t.act.House() || !t.heard[at]
}

// standing are the inputs of the house that lie on a socket.
func (t *trace) standing(s Socket) (inputs []plan.InputID) {
	house := t.view.House()
	for _, id := range house.over.users[s] {
		if line, found := house.Line(id); found && line.Patched() {
			inputs = append(inputs, id)
		}
	}
	return inputs
}

// onTheWay finds where the signal of a box is lost on its way to the console.
func (t *trace) onTheWay(gap *Gap) {
	o, box := t.act.over, gap.Socket
	way := o.net.route(box.Device, gap.Console, o.plugged)
	if lost := o.arrive(box, place{gap.Console, gap.Channel}).Lost; lost.Cause != 0 && (lost.Cause != NotPassed || way == nil) {
		gap.Spot = lost
		return
	}
	if way == nil || o.net.passes(box) {
		gap.Cause, gap.Device = NoLink, box.Device
		if lost := o.net.obstacle(box.Device, gap.Console, o.plugged); lost.Cause != 0 && !o.net.passes(box) {
			gap.Spot = lost
			return
		}
		if o.net.passes(gap.Named) {
			t.onTheLegs(gap)
		}
		return
	}
	for _, at := range way {
		on := slices.IndexFunc(o.slotsOf(box), func(s slot) bool { return s.group == at.group && s.forward == at.forward })
		if gap.Link, _ = o.net.row(slot{at.group, at.forward, 1}); on < 0 {
			gap.Cause = NoSlot
			return
		}
	}
	gap.Cause, gap.Device = NoLink, box.Device
}

// onTheLegs finds why no leg of a splitter leads to a box of the console.
func (t *trace) onTheLegs(gap *Gap) {
	part := t.part(gap.Named)
	for _, one := range part.nodes {
		if one.blocked.ways > 0 && !t.act.over.net.passes(one.socket) && t.leads(one.socket.Device, gap.Console) {
			gap.Cause, gap.Link, gap.Limit = FewWays, one.blocked.link, one.blocked.ways
			return
		}
	}
	for _, free := range part.free {
		better := t.leads(t.besideLeads(free.port), gap.Console)
		if gap.Cause == NoLink || better {
			gap.Cause, gap.Device, gap.Port = NoLeg, free.port.device, free.port.port
		}
		if better {
			return
		}
	}
}

// leads reports whether links that carry slots lead from a device to a console.
func (t *trace) leads(from, console plan.DeviceID) bool {
	return from == console || from != "" && t.act.over.net.route(from, console, t.act.over.plugged) != nil
}

// behind finds the input that should come to a socket where none does: behind a multicore of too few ways, or before a
// port that joins nothing.
func (t *trace) behind(gap *Gap) bool {
	t.gather()
	part := t.part(gap.Named)
	for _, one := range part.nodes {
		if line := t.plugged[one.socket]; line != nil && one.blocked.ways > 0 && t.act.over.net.leads(one.socket) {
			gap.Cause, gap.Link, gap.Limit, gap.Inputs = FewWays, one.blocked.link, one.blocked.ways, []plan.InputID{line.Input.ID}
			return true
		}
	}
	var likely []waiter
	for _, free := range part.free {
		for _, w := range t.waiting[free.number] {
			if w.port.device == free.port.device || part.has[w.port.device] || t.has(w.line, gap.Console) {
				continue
			}
			if t.besideLeads(w.port) == free.port.device {
				likely = []waiter{w}
				gap.Beyond, gap.BeyondPort = free.port.device, free.port.port
				t.waits(gap, likely)
				return true
			}
			likely = append(likely, w)
			gap.Beyond, gap.BeyondPort = free.port.device, free.port.port
		}
	}
	if len(likely) == 0 {
		return false
	}
	if outlets := slices.DeleteFunc(slices.Clone(likely), waiter.inlet); len(outlets) > 0 {
		likely = outlets
	}
	t.waits(gap, likely)
	return true
}

// inlet reports whether the port is one where signals come into a splitter.
func (w waiter) inlet() bool { return w.port.inlet() }

// inlet reports whether a port of a splitter is one where signals come in, by its name. Common practice, no source.
func (e end) inlet() bool { return strings.HasPrefix(strings.ToUpper(e.port), "IN") }

// waits notes the port where the input surely waits, where there is one; else the port of the box, with the first of
// several.
func (t *trace) waits(gap *Gap, likely []waiter) {
	at, line := likely[0].port, likely[0].line
	gap.Cause, gap.Device, gap.Port = Unjoined, at.device, at.port
	if slices.ContainsFunc(likely, func(w waiter) bool { return w.port != at }) {
		gap.Cause, gap.Device, gap.Port, gap.Beyond, gap.BeyondPort = Unfed, gap.Beyond, gap.BeyondPort, at.device, at.port
	}
	if !slices.ContainsFunc(likely, func(w waiter) bool { return w.line != line }) {
		gap.Inputs = []plan.InputID{line.Input.ID}
	}
}

// has reports whether an input gets to a console on any channel.
func (t *trace) has(line *Line, console plan.DeviceID) bool {
	return slices.ContainsFunc(line.Channels(), func(c Channel) bool { return c.Reached && c.Console == console })
}

// besideLeads is the device that the ports beside one lead to, those whose names begin alike: A2 beside A1.
func (t *trace) besideLeads(port end) plan.DeviceID {
	d := t.act.over.net.devices[port.device]
	stem := strings.TrimRight(port.port, "0123456789")
	for _, row := range d.kind.ports {
		over, linked := t.act.over.net.joints[end{port.device, row.Name}]
		if linked && row.Name != port.port && strings.TrimRight(row.Name, "0123456789") == stem {
			return over.to.device
		}
	}
	return ""
}

// gather notes what is plugged in where in this act.
func (t *trace) gather() {
	if t.plugged != nil {
		return
	}
	t.plugged, t.waiting = map[Socket]*Line{}, map[int][]waiter{}
	for _, line := range t.act.Lines {
		if !line.Patched() || !t.act.over.net.leads(line.At) {
			continue
		}
		t.plugged[line.At] = line
		for _, free := range t.part(line.At).free {
			if free.blocked.ways == 0 {
				t.waiting[free.number] = append(t.waiting[free.number], waiter{free.port, line})
			}
		}
	}
}
