package budget

import (
	"cmp"
	"slices"

	"stageloom/model/plan"
)

// portAt is a port of a device.
type portAt struct {
	device plan.DeviceID
	port   string
}

// passages says how ports go on: through passive devices, into the link at a port, into a guest's tail. It is empty, and
// costs nothing, in a plan without a passive device that joins two ports.
type passages struct {
	// through holds, by passive kind, the port that each port is joined to.
	through map[plan.KindID]map[string]string
	// links are those at the ports of such devices, guests the tails that plug into them.
	links  map[portAt]plan.LinkID
	guests map[portAt][]plan.ActConsole
}

// readyPassages gathers what goes on at passive devices.
func (r *Reckoner) readyPassages() {
	g := &r.passages
	for kind := range r.plan.Kinds.All() {
		if !kind.Passive {
			continue
		}
		if joined := joinedPorts(r.plan.Ports(kind.ID)); len(joined) > 0 {
			if g.through == nil {
				g.through = map[plan.KindID]map[string]string{}
			}
			g.through[kind.ID] = joined
		}
	}
	if g.through == nil {
		return
	}
	g.links, g.guests = map[portAt]plan.LinkID{}, map[portAt][]plan.ActConsole{}
	for link := range r.plan.Links.All() {
		if link.IsSpare() { // it lies ready beside a port and is not plugged in
			continue
		}
		for _, end := range [2]portAt{{link.From, link.FromPort}, {link.To, link.ToPort}} {
			if _, passes := r.onward(end); passes {
				g.links[end] = link.ID
			}
		}
	}
	for guest := range r.plan.ActConsoles.All() {
		for _, port := range r.dropPorts(guest) {
			g.guests[port] = append(g.guests[port], guest)
		}
	}
}

// joinedPorts pairs the ports of a passive kind: by what they say, then two that are left of a transport.
func joinedPorts(ports []plan.KindPort) map[string]string {
	joined := map[string]string{}
	for _, port := range ports {
		other := slices.IndexFunc(ports, func(o plan.KindPort) bool { return o.Name == port.Through && o.Transport == port.Transport })
		if other >= 0 && port.Through != port.Name {
			joined[port.Name], joined[port.Through] = port.Through, port.Name
		}
	}
	left := map[plan.TransportID][]string{}
	for _, port := range ports {
		if joined[port.Name] == "" {
			left[port.Transport] = append(left[port.Transport], port.Name)
		}
	}
	for _, names := range left {
		if len(names) == 2 {
			joined[names[0]], joined[names[1]] = names[1], names[0]
		}
	}
	return joined
}

// dropPorts are the ports of a passive device that a guest may plug into: the one it names, else each that is joined to
// another.
func (r *Reckoner) dropPorts(guest plan.ActConsole) (ports []portAt) {
	device, _ := r.plan.Device(guest.Drop)
	if guest.DropPort != "" {
		return []portAt{{guest.Drop, guest.DropPort}}
	}
	for _, port := range r.plan.Ports(device.Kind) {
		if r.passages.through[device.Kind][port.Name] != "" {
			ports = append(ports, portAt{guest.Drop, port.Name})
		}
	}
	return ports
}

// onward is the port on the other side of a passive device.
func (r *Reckoner) onward(at portAt) (portAt, bool) {
	if r.passages.through == nil {
		return portAt{}, false
	}
	device, found := r.plan.Device(at.device)
	if !found {
		return portAt{}, false
	}
	other := r.passages.through[device.Kind][at.port]
	return portAt{at.device, other}, other != ""
}

// far is the other end of a link from one of its ports, and whether that is its near end.
func far(link *plan.Link, from portAt) (end portAt, reversed bool) {
	if (portAt{link.From, link.FromPort}) == from {
		return portAt{link.To, link.ToPort}, false
	}
	return portAt{link.From, link.FromPort}, true
}

// behind follows an electrical line from a port on, through passive devices, until an active port or a loose end. Each
// link is passed once, so that a ring of panels ends where it began.
func (r *Reckoner) behind(transport plan.TransportID, at portAt, passed map[plan.LinkID]bool) (steps []Step) {
	for {
		next, passes := r.onward(at)
		if !passes {
			return steps
		}
		steps = append(steps, Step{Device: at.device})
		id, held := r.passages.links[next]
		link, _ := r.plan.Link(id)
		if !held || link.Transport != transport {
			return r.tail(steps, transport, next)
		}
		if passed[id] {
			return steps
		}
		passed[id] = true
		end, reversed := far(&link, next)
		steps = append(steps, Step{Link: id, Name: link.Name, Reversed: reversed})
		at = end
	}
}

// tail adds the tail of the guest that loses most among those who plug in at a port, in one act or another.
func (r *Reckoner) tail(steps []Step, transport plan.TransportID, at portAt) []Step {
	var most Step
	for _, guest := range r.passages.guests[at] {
		console, _ := r.plan.Device(guest.Console)
		port, named := r.plan.KindPorts.Get(plan.PortKey(console.Kind, guest.Port))
		if named && port.Transport != transport {
			continue
		}
		tail := Step{Device: guest.Console, Guest: true, Act: guest.Act, TailKind: guest.TailKind, Length: guest.Tail, Run: guest.Tail}
		if most.Device == "" || cmp.Less(most.Length, tail.Length) {
			most = tail
		}
	}
	if most.Device == "" {
		return steps
	}
	return append(steps, most)
}

// Passes reports whether a port is joined to another one of a passive device.
func (r *Reckoner) Passes(device plan.DeviceID, port string) bool {
	_, passes := r.onward(portAt{device, port})
	return passes
}
