package patch_test

import (
	"fmt"
	"math/rand/v2"

	"stageloom/model/patch"
	"stageloom/model/patch/patchtest"
	"stageloom/model/plan"
)

// hop is a link of a socket's signal in one direction, as somebody reads it from the rows.
type hop struct{ from, to plan.DeviceID }

// cables are the links over which each socket is sent in one act, from the rows alone: those of AES50 carry 48 channels each
// way up to 48 kHz and 24 above, and none where their ends run at two rates and neither converts.
type cables map[patch.Socket][]hop

// rates are the words of sample rates in kHz that a device may have.
var rates = []string{"", "", "48", "44.1", "96"}

// cabled reads the cables of an act.
func cabled(p *plan.Plan, act plan.ActID) cables {
	all := cables{}
	for row := range p.SlotPatches.All() {
		own := plan.SlotPatch{Act: act, Link: row.Link, Direction: row.Direction, Slot: row.Slot}
		if row.Strike || row.Device == "" || row.Act != act && (row.Act != "" || p.SlotPatches.Has(own.Key())) {
			continue
		}
		link, _ := p.Link(row.Link)
		from, to := link.From, link.To
		if row.Direction == patch.Return {
			from, to = to, from
		}
		if rate, agreed := agreed(p, from, to); agreed && (row.Slot <= 24 || row.Slot <= 48 && rate != "96") {
			socket := patch.Socket{Device: row.Device, Number: row.Socket, Output: row.Output}
			all[socket] = append(all[socket], hop{from, to})
		}
	}
	return all
}

// agreed is the rate at which a link between two devices runs, where they agree.
func agreed(p *plan.Plan, from, to plan.DeviceID) (string, bool) {
	var demanded []string
	for _, id := range []plan.DeviceID{from, to} {
		device, _ := p.Device(id)
		switch {
		case device.Converts:
		case device.Rate == "":
			demanded = append(demanded, "48")
		default:
			demanded = append(demanded, device.Rate)
		}
	}
	switch len(demanded) {
	case 0:
		return "48", true
	case 1:
		return demanded[0], true
	}
	return demanded[0], demanded[0] == demanded[1]
}

// bring reports whether a socket's signal comes to a console: over racks, and over consoles that pass it on.
func (c cables) bring(p *plan.Plan, box patch.Socket, console plan.DeviceID) bool {
	there := map[plan.DeviceID]bool{box.Device: true}
	for grew := true; grew && !there[console]; {
		grew = false
		for _, at := range c[box] {
			device, _ := p.Device(at.from)
			if there[at.from] && !there[at.to] && (at.from == box.Device || device.Kind != "desk" || device.PassesOn) {
				there[at.to], grew = true, true
			}
		}
	}
	return there[console]
}

// arrives says where a channel gets its input in the view and not by hand, or the other way round; blank where they agree.
func arrives(b *patchtest.ByHand, p *plan.Plan, act *patch.Act) string {
	carried := cabled(p, act.Act.ID)
	for _, line := range act.Lines {
		for _, channel := range line.Channels() {
			listed := b.Hear[patchtest.Spot{Console: channel.Console, Number: channel.Number}]
			boxes := map[patch.Socket]bool{listed: true}
			if device, _ := p.Device(listed.Device); device.Kind == "split" || device.Kind == "snake" {
				boxes = b.Wet[line.Input.ID]
			}
			reached := false
			for box := range boxes {
				device, _ := p.Device(box.Device)
				reached = reached || device.Kind == "rack" && carried.bring(p, box, channel.Console)
			}
			if reached != channel.Reached {
				return fmt.Sprintf("%s on %v: %v by hand and %v", line.Input.Name, channel, reached, channel.Reached)
			}
		}
	}
	return ""
}

// turned is the rig with one device of other rate, or that passes signals on or not.
func (m mover) turned(p *plan.Plan) *plan.Plan {
	next, err := plan.Do(p, nil, func(e *plan.Edit) error { return retune(e, m.Rand, movesDevice(3+m.IntN(5))) })
	if err != nil {
		panic(err)
	}
	return next
}

// retune gives a device other rates at random.
func retune(e *plan.Edit, random *rand.Rand, id plan.DeviceID) error {
	return plan.Update(e, plan.Key(id), func(d *plan.Device) {
		d.PassesOn, d.Rate, d.Converts = random.IntN(2) == 0, rates[random.IntN(len(rates))], random.IntN(6) == 0
	})
}
