package patch

import "stageloom/model/plan"

// dirty finds the inputs whose line an act may have otherwise than the house.
func (o *overlay) dirty() map[plan.InputID]bool {
	d := dirt{over: o, inputs: map[plan.InputID]bool{}}
	for id := range o.stage {
		d.inputs[id] = true
	}
	for at, row := range o.channels {
		d.socket(Socket{Device: row.Device, Number: row.Socket})
		if above, found := o.house.channels[at]; found {
			d.socket(Socket{Device: above.Device, Number: above.Socket})
		}
	}
	for at, on := range o.slots {
		d.socket(on.socket)
		d.socket(o.house.slots[at].socket)
	}
	for socket := range o.owners {
		d.socket(socket)
	}
	d.guests()
	return d.inputs
}

type dirt struct {
	over   *overlay
	inputs map[plan.InputID]bool
}

func (d *dirt) socket(s Socket) {
	for _, id := range d.over.house.users[s] {
		d.inputs[id] = true
	}
}

// guests marks what a guest listens to, and what leads to a drop where one is plugged in.
func (d *dirt) guests() {
	o := d.over
	if len(o.present) == 0 {
		return
	}
	for at, row := range o.house.channels {
		if o.present[at.console] {
			d.socket(Socket{Device: row.Device, Number: row.Socket})
		}
	}
	if len(o.plugged) == 0 {
		return
	}
	for socket := range o.house.users {
		if _, taken := o.plugged[socket.Device]; taken {
			d.socket(socket)
		}
	}
	for at, on := range o.house.slots {
		for _, device := range o.net.spans[o.net.groups[at.group].main].devices() {
			if _, taken := o.plugged[device]; taken {
				d.socket(on.socket)
			}
		}
	}
}
