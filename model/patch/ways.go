package patch

import (
	"slices"

	"stageloom/model/plan"
)

// joint is what a multicore does at one of its ends: where it leads, and how many ways it has.
type joint struct {
	link plan.LinkID
	to   end
	ways int // 0 where nothing says
}

// far is where the ways of a socket lead.
type far struct {
	ways    []Way
	through []Socket // of passive devices between
	socket  Socket
	// isolated tells that 48 V from there does not come back to where the way began.
	isolated bool
	// dead tells that it ends at a passive device: at a drop where nobody is plugged in.
	dead bool
}

func (n *network) joinWays(link plan.Link, ways int) {
	from, to := end{link.From, link.FromPort}, end{link.To, link.ToPort}
	n.joints[from], n.joints[to] = joint{link.ID, to, ways}, joint{link.ID, from, ways}
}

// follow finds where every socket leads whose ways map through: those of passive devices and active splitters, and the
// outputs of racks.
func (n *network) follow() {
	for _, row := range n.rest.devices {
		d := n.devices[row.ID]
		if d == nil || len(n.joints) == 0 {
			continue
		}
		for _, direction := range []string{"in", "out"} {
			count, output := d.kind.Inputs, direction == "out"
			if output {
				count = d.kind.Outputs
			}
			if !d.kind.passes() && !output {
				continue
			}
			for number := 1; number <= count; number++ {
				socket := Socket{d.id, number, output}
				if found := n.lead(socket); len(found) > 0 {
					n.through[socket] = found
				}
			}
		}
	}
}

// passes tells whether what is plugged into an input of this kind goes on over its multicore ports.
func (k *kind) passes() bool { return k.Passive || k.Splitter == "active" }

func (n *network) lead(socket Socket) []far {
	walk := walk{net: n, seen: map[plan.DeviceID]bool{}}
	walk.on(socket, "", far{})
	return walk.found
}

// walk follows ways from device to device.
type walk struct {
	net   *network
	seen  map[plan.DeviceID]bool
	found []far
}

// on leaves a socket by every port that lies parallel to it, save the one it came by.
func (w *walk) on(socket Socket, cameBy string, so far) {
	d := w.net.devices[socket.Device]
	w.seen[socket.Device] = true
	for _, row := range d.kind.ways {
		number := row.First + socket.Number - row.Socket
		if row.Port == cameBy || (row.Direction == "out") != socket.Output || socket.Number < row.Socket || number >= row.First+row.Count {
			continue
		}
		joint, linked := w.net.joints[end{socket.Device, row.Port}]
		if !linked || w.seen[joint.to.device] || joint.ways > 0 && number > joint.ways {
			continue
		}
		next := far{ways: append(slices.Clone(so.ways), Way{joint.link, number}), through: so.through}
		next.isolated = so.isolated || d.kind.isolates(row.Port)
		w.arrive(joint, number, next)
	}
	delete(w.seen, socket.Device)
}

func (w *walk) arrive(j joint, number int, so far) {
	d := w.net.devices[j.to.device]
	if d == nil {
		return
	}
	for _, row := range d.kind.ways {
		if row.Port != j.to.port || number < row.First || number >= row.First+row.Count {
			continue
		}
		socket := Socket{d.id, row.Socket + number - row.First, row.Direction == "out"}
		if !d.kind.passes() {
			so.socket = socket
			w.found = append(w.found, so)
			continue
		}
		before, next := len(w.found), so
		next.through = append(slices.Clone(so.through), socket)
		w.on(socket, j.to.port, next)
		if len(w.found) == before {
			so.socket, so.dead = socket, true
			w.found = append(w.found, so)
		}
	}
}

// isolates tells whether 48 V from beyond a port stays there.
func (k *kind) isolates(port string) bool {
	for _, p := range k.ports {
		if p.Name == port && p.Splitter != "" {
			return p.Splitter == "isolated"
		}
	}
	return k.Splitter == "isolated" || k.Splitter == "active"
}

// parallel is which sockets the ways of the ports lie parallel to. A kind that does not say so and has one multicore port
// has its inputs there, then its outputs; a source, its outputs alone.
func (k *kind) parallel() []plan.KindWay {
	if len(k.ways) > 0 {
		return k.ways
	}
	name := ""
	for _, port := range k.ports {
		if sortOf(port.Transport) == inWays {
			if name != "" {
				return nil
			}
			name = port.Name
		}
	}
	if name == "" {
		return nil
	}
	var rows []plan.KindWay
	if k.Inputs > 0 {
		rows = append(rows, plan.KindWay{Kind: k.ID, Port: name, First: 1, Count: k.Inputs, Direction: "in", Socket: 1})
	}
	if k.Outputs > 0 {
		rows = append(rows, plan.KindWay{Kind: k.ID, Port: name, First: 1 + k.Inputs, Count: k.Outputs, Direction: "out", Socket: 1})
	}
	return rows
}
