package patch

import (
	"cmp"
	"slices"

	"stageloom/model/plan"
)

// place is a channel of a console.
type place struct {
	console plan.DeviceID
	number  int
}

// slot is one slot of a group in one direction along it.
type slot struct {
	group   int
	forward bool
	number  int
}

// content is what lies on a slot.
type content struct {
	socket Socket
	use    string
	strike bool
}

// overlay holds the rows of one act, made ready to be asked; what it does not say, its house says. That of the house has
// none over it.
type overlay struct {
	net   *network
	house *overlay
	act   plan.ActID

	stage    map[plan.InputID]plan.StagePatch
	channels map[place]plan.ConsolePatch
	bySocket map[Socket][]place
	slots    map[slot]content
	bySlot   map[Socket][]slot
	outputs  map[plan.OutputID]plan.OutputPatch
	owners   map[Socket]plan.SocketOwner

	// guests are all consoles that some act brings; present those that this one does.
	guests  map[plan.DeviceID]bool
	present map[plan.DeviceID]bool
	// plugged says which guest sits at a drop.
	plugged map[plan.DeviceID]plan.DeviceID

	// lines are those that are not the house's own.
	lines map[plan.InputID]*Line
	// users are the inputs whose line touches a socket; only the house has them.
	users map[Socket][]plan.InputID
}

// says reports whether a row says anything: a blank one inherits.
func says(device plan.DeviceID, strike bool) bool { return device != "" || strike }

// gather makes the overlays of all acts, the house's under "".
func gather(p *plan.Plan, n *network) map[plan.ActID]*overlay {
	all := map[plan.ActID]*overlay{}
	house := newOverlay(n, nil, "")
	all[""] = house
	for row := range p.Acts.All() {
		all[row.ID] = newOverlay(n, house, row.ID)
	}
	for row := range p.StagePatches.All() {
		if says(row.Device, row.Strike) {
			all[row.Act].stage[row.Input] = row
		}
	}
	for row := range p.ConsolePatches.All() {
		if says(row.Device, row.Strike) {
			all[row.Act].channel(row)
		}
	}
	for row := range p.SlotPatches.All() {
		if says(row.Device, row.Strike) || row.Use != "" {
			all[row.Act].slot(row)
		}
	}
	for row := range p.OutputPatches.All() {
		if says(row.Device, row.Strike) {
			all[row.Act].outputs[row.Output] = row
		}
	}
	for row := range p.SocketOwners.All() {
		all[row.Act].owners[Socket{Device: row.Device, Number: row.Socket}] = row
	}
	for row := range p.ActConsoles.All() {
		house.guests[row.Console] = true
		all[row.Act].guest(row)
	}
	return all
}

func newOverlay(n *network, house *overlay, act plan.ActID) *overlay {
	o := &overlay{
		net: n, house: house, act: act,
		stage: map[plan.InputID]plan.StagePatch{}, channels: map[place]plan.ConsolePatch{}, bySocket: map[Socket][]place{},
		slots: map[slot]content{}, bySlot: map[Socket][]slot{}, outputs: map[plan.OutputID]plan.OutputPatch{},
		owners: map[Socket]plan.SocketOwner{}, present: map[plan.DeviceID]bool{}, plugged: map[plan.DeviceID]plan.DeviceID{},
		lines: map[plan.InputID]*Line{},
	}
	if house == nil {
		o.guests = map[plan.DeviceID]bool{}
		return o
	}
	o.guests = house.guests
	return o
}

func (o *overlay) channel(row plan.ConsolePatch) {
	at := place{row.Console, row.Channel}
	o.channels[at] = row
	if !row.Strike {
		socket := Socket{Device: row.Device, Number: row.Socket}
		o.bySocket[socket] = append(o.bySocket[socket], at)
	}
}

// slot takes a row of any link of a group; where several speak of one slot the first in the table holds.
func (o *overlay) slot(row plan.SlotPatch) {
	group, forward, found := o.net.place(row.Link, row.Direction)
	at := slot{group, forward, row.Slot}
	if _, taken := o.slots[at]; !found || taken {
		return
	}
	on := content{socket: Socket{row.Device, row.Socket, row.Output}, use: row.Use, strike: row.Strike}
	o.slots[at] = on
	if !on.strike && !on.socket.None() {
		o.bySlot[on.socket] = append(o.bySlot[on.socket], at)
	}
}

func (o *overlay) guest(row plan.ActConsole) {
	o.present[row.Console] = true
	if row.Drop != "" {
		o.plugged[row.Drop] = row.Console
	}
}

// here reports whether a console is there in this act.
func (o *overlay) here(console plan.DeviceID) bool { return !o.guests[console] || o.present[console] }

// stageRow is the row that holds for an input in this act.
func (o *overlay) stageRow(id plan.InputID) (plan.StagePatch, bool) {
	row, found := o.stage[id]
	if !found && o.house != nil {
		row, found = o.house.stage[id]
	}
	return row, found
}

// channelsOf are the channels that listen to a socket in this act, by console and number.
func (o *overlay) channelsOf(socket Socket) []place {
	var all []place
	if o.house != nil {
		for _, at := range o.house.bySocket[socket] {
			if _, said := o.channels[at]; !said && o.here(at.console) {
				all = append(all, at)
			}
		}
	}
	for _, at := range o.bySocket[socket] {
		if o.here(at.console) {
			all = append(all, at)
		}
	}
	if len(all) > 1 {
		slices.SortFunc(all, o.net.byPlace)
	}
	return all
}

// slotsOf are the slots that a socket lies on in this act, by group, direction and number.
func (o *overlay) slotsOf(socket Socket) []slot {
	var all []slot
	if o.house != nil {
		for _, at := range o.house.bySlot[socket] {
			if _, said := o.slots[at]; !said {
				all = append(all, at)
			}
		}
	}
	all = append(all, o.bySlot[socket]...)
	if len(all) > 1 {
		slices.SortFunc(all, func(a, b slot) int {
			if a.forward != b.forward && a.group == b.group {
				if a.forward {
					return -1
				}
				return 1
			}
			return cmp.Or(cmp.Compare(a.group, b.group), cmp.Compare(a.number, b.number))
		})
	}
	return all
}

// owner says who sets the gain of a socket and who switches its 48 V.
func (o *overlay) owner(socket Socket) (gain, phantom plan.DeviceID) {
	row, found := o.owners[socket]
	if found && row.Strike {
		return "", ""
	}
	gain, phantom = row.Gain, row.Phantom
	if o.house != nil && (gain == "" || phantom == "") {
		above, named := o.house.owner(socket)
		gain, phantom = cmp.Or(gain, above), cmp.Or(phantom, named)
	}
	return gain, phantom
}

// endsOf are the two devices a group joins in this act.
func (o *overlay) endsOf(number int) [2]plan.DeviceID {
	return o.net.spans[o.net.groups[number].main].standing(o.plugged)
}
