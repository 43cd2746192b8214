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

// far is one socket that the ways of another lead to. It knows the one before it by its place in the list, so that all of
// a list costs no more than the sockets in it.
type far struct {
	before int // -1 where the way begins
	way    Way
	socket Socket
	// isolated tells that 48 V from there does not come back to where the way began.
	isolated bool
	// passive tells that it passes the signal on and has no preamp: a splitter, a drop where nobody is plugged in.
	passive bool
	// last tells that nothing more was found beyond it.
	last bool
}

// wayTo lists the ways of multicores up to one of these sockets, and the sockets of passive devices between.
func wayTo(all []far, at int) (ways []Way, through []Socket) {
	for i := at; i >= 0; i = all[i].before {
		ways = append(ways, all[i].way)
		if i != at {
			through = append(through, all[i].socket)
		}
	}
	slices.Reverse(ways)
	slices.Reverse(through)
	return ways, through
}

func (n *network) joinWays(link plan.Link, ways int) {
	from, to := end{link.From, link.FromPort}, end{link.To, link.ToPort}
	n.joints[from], n.joints[to] = joint{link.ID, to, ways}, joint{link.ID, from, ways}
}

// steps are the sockets that lie on the far end of the multicores at a socket, whatever the number of their ways.
func (n *network) steps(socket Socket, visit func(row plan.KindWay, number int, over joint, to Socket)) {
	d := n.devices[socket.Device]
	if d == nil {
		return
	}
	for _, row := range d.kind.ways {
		number := row.First + socket.Number - row.Socket
		if (row.Direction == "out") != socket.Output || socket.Number < row.Socket || number >= row.First+row.Count {
			continue
		}
		over, linked := n.joints[end{socket.Device, row.Port}]
		other := n.devices[over.to.device]
		if !linked || other == nil {
			visit(row, number, joint{}, Socket{})
			continue
		}
		for _, there := range other.kind.ways {
			if there.Port == over.to.port && number >= there.First && number < there.First+there.Count {
				visit(row, number, over, Socket{other.id, there.Socket + number - there.First, there.Direction == "out"})
			}
		}
	}
}

// passes reports whether a socket hands on what comes in there: its ways map through.
func (n *network) passes(s Socket) bool {
	d := n.devices[s.Device]
	return d != nil && d.kind.passes()
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

// passes reports whether what is plugged into an input of this kind goes on over its multicore ports.
func (k *kind) passes() bool { return k.Passive || k.Splitter == "active" }

// blocks reports whether a port says itself that 48 V does not pass: coming in by an isolated output, it comes from there no
// more than it goes.
func (k *kind) blocks(port string) bool {
	return slices.ContainsFunc(k.ports, func(p plan.KindPort) bool { return p.Name == port && p.Splitter == "isolated" })
}

// isolates reports whether 48 V from beyond a port stays there.
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
