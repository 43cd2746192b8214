package patch

import (
	"slices"

	"stageloom/model/plan"
	"stageloom/model/standards"
)

// span is a chain of links joined by converters, from one device that has more to do with the audio than pass it on to
// the next: one row of slots.
type span struct {
	links []spanLink
	rows  []plan.Link // of the links, in no order
	ends  [2]end
	// capacity is how many slots it has each way; 0 where nothing says.
	capacity int
	// rate is the sample rate in hertz that it runs at.
	rate int
	// oneWay tells that it carries nothing against its own direction.
	oneWay bool
	group  int
	// turned tells that the span runs against its group.
	turned bool
}

type spanLink struct {
	id plan.LinkID
	// turned tells that the link runs against its span.
	turned bool
}

// group is a span, or two that stand in for each other and carry the same slots.
type group struct {
	main, backup int // spans; backup is -1 where there is none
	// apart tells that main and backup do not join the same two devices.
	apart    bool
	capacity int
}

// join gathers the links that carry slots into spans.
func (n *network) join() {
	at := map[end]int{}
	for i, link := range n.rest.links {
		if sortOf(link.Transport) != nothing {
			at[end{link.From, link.FromPort}], at[end{link.To, link.ToPort}] = i, i
		}
		if sortOf(link.Transport) == inWays {
			n.joinWays(link, n.rest.ways[i])
		}
	}
	for _, link := range n.rest.links {
		if _, taken := n.spanOf[link.ID]; taken || sortOf(link.Transport) != inSlots {
			continue
		}
		n.span(link, at)
	}
}

// span follows one link to both sides as far as converters pass it on.
func (n *network) span(link plan.Link, at map[end]int) {
	number := len(n.spans)
	n.spanOf[link.ID] = number
	s, rows := span{links: []spanLink{{id: link.ID}}, group: -1}, []plan.Link{link}
	for side := range 2 {
		here := [2]end{{link.From, link.FromPort}, {link.To, link.ToPort}}[side]
		for {
			other, found := n.beyond(here)
			next, linked := at[other]
			if !found || !linked || sortOf(n.rest.links[next].Transport) != inSlots {
				break
			}
			on := n.rest.links[next]
			if _, taken := n.spanOf[on.ID]; taken {
				break
			}
			n.spanOf[on.ID] = number
			entersAtFrom := end{on.From, on.FromPort} == other
			part := spanLink{id: on.ID, turned: entersAtFrom == (side == 0)}
			rows = append(rows, on)
			if side == 0 {
				s.links = slices.Insert(s.links, 0, part)
			} else {
				s.links = append(s.links, part)
			}
			here = end{on.From, on.FromPort}
			if entersAtFrom {
				here = end{on.To, on.ToPort}
			}
		}
		s.ends[side] = here
	}
	s.rate = n.rateOf(s.devices())
	for _, row := range rows {
		s.take(n.limit(row, s.rate))
	}
	s.rows = rows
	n.spans = append(n.spans, s)
}

// beyond is the other port of a converter to another medium. One that has a sample rate of its own ends a span.
func (n *network) beyond(here end) (end, bool) {
	d := n.devices[here.device]
	if d == nil || !d.kind.converter || d.rate != 0 {
		return end{}, false
	}
	for _, port := range d.kind.ports {
		if port.Name != here.port {
			return end{here.device, port.Name}, true
		}
	}
	return end{}, false
}

// take lets a span be no wider than one of its links.
func (s *span) take(capacity int, oneWay bool) {
	s.capacity = fewer(s.capacity, capacity)
	s.oneWay = s.oneWay || oneWay
}

// fewer is the lesser of two numbers of which 0 says nothing.
func fewer(a, b int) int {
	if a == 0 || b != 0 && b < a {
		return b
	}
	return a
}

// limit is how many slots a link has each way: what its transport states at its sample rate, else what its ports state.
func (n *network) limit(link plan.Link, rate int) (capacity int, oneWay bool) {
	transport, err := standards.TransportBySlug(standards.TransportSlug(link.Transport))
	if err != nil {
		return 0, false
	}
	if channels, stated := transport.ChannelsAt(rate); stated {
		return channels, transport.OneWay
	}
	return fewer(n.port(end{link.From, link.FromPort}).Channels, n.port(end{link.To, link.ToPort}).Channels), transport.OneWay
}

// capacityWith is how many slots a group has each way, and at which sample rate in hertz, where guests sit at drops: a guest
// brings a rate of its own.
func (n *network) capacityWith(number int, plugged map[plan.DeviceID]plan.DeviceID) (capacity, rate int) {
	g := &n.groups[number]
	main := &n.spans[g.main]
	if len(plugged) == 0 {
		return g.capacity, main.rate
	}
	capacity, rate = n.spanWith(main, plugged)
	if g.backup >= 0 {
		other, _ := n.spanWith(&n.spans[g.backup], plugged)
		capacity = fewer(capacity, other)
	}
	return capacity, rate
}

func (n *network) spanWith(s *span, plugged map[plan.DeviceID]plan.DeviceID) (capacity, rate int) {
	if rate = n.rateOf(s.standing(plugged)); rate == s.rate {
		return s.capacity, rate
	}
	for _, row := range s.rows {
		limit, _ := n.limit(row, rate)
		capacity = fewer(capacity, limit)
	}
	return capacity, rate
}

func (n *network) port(at end) plan.KindPort {
	if d := n.devices[at.device]; d != nil {
		for _, port := range d.kind.ports {
			if port.Name == at.port {
				return port
			}
		}
	}
	return plan.KindPort{}
}

// pair puts spans whose links are partners into one group: main and backup carry the same slots. Two ways into a network
// that are partners and join different switches stay apart: there the network finds the way.
func (n *network) pair() {
	links := map[plan.LinkID]plan.Link{}
	for _, link := range n.rest.links {
		links[link.ID] = link
	}
	for i := range n.spans {
		if n.spans[i].group >= 0 {
			continue
		}
		g := group{main: i, backup: -1, capacity: n.spans[i].capacity}
		for _, part := range n.spans[i].links {
			partner, found := n.spanOf[links[part.id].Partner]
			if !found || partner == i || n.spans[partner].group >= 0 || g.backup >= 0 || n.network(i, partner) {
				continue
			}
			g.backup = partner
			if links[part.id].Role == "backup" {
				g.main, g.backup = partner, i
			}
		}
		n.group(g)
	}
}

// network reports whether two spans state no number of slots and join different devices.
func (n *network) network(a, b int) bool {
	one, other := n.spans[a].devices(), n.spans[b].devices()
	return n.spans[a].capacity == 0 && n.spans[b].capacity == 0 && differ(one, other)
}

// differ reports whether two spans do not join the same two devices.
func differ(a, b [2]plan.DeviceID) bool { return a != b && a != [2]plan.DeviceID{b[1], b[0]} }

func (n *network) group(g group) {
	number := len(n.groups)
	n.spans[g.main].group = number
	if g.backup >= 0 {
		main, backup := &n.spans[g.main], &n.spans[g.backup]
		backup.group = number
		a, b := main.devices(), backup.devices()
		backup.turned = a[0] == b[1] && a[0] != b[0] || a[1] == b[0] && a[1] != b[1]
		g.apart = differ(a, b)
		g.capacity = fewer(main.capacity, backup.capacity)
	}
	n.groups = append(n.groups, g)
}

func (s *span) devices() [2]plan.DeviceID {
	return [2]plan.DeviceID{s.ends[0].device, s.ends[1].device}
}

// standing are the two devices of a span in an act: a guest counts for the drop it is plugged into.
func (s *span) standing(plugged map[plan.DeviceID]plan.DeviceID) [2]plan.DeviceID {
	ends := s.devices()
	for i, device := range ends {
		if guest, found := plugged[device]; found {
			ends[i] = guest
		}
	}
	return ends
}

// hops are the slots of a span, in the order in which a signal passes them.
func (n *network) hops(number int, forward bool, slot int) []Hop {
	s := &n.spans[number]
	along := forward != s.turned
	hops := make([]Hop, 0, len(s.links))
	for i := range s.links {
		part := s.links[i]
		if !along {
			part = s.links[len(s.links)-1-i]
		}
		direction := Forward
		if along == part.turned {
			direction = Return
		}
		hops = append(hops, Hop{Link: part.id, Direction: direction, Slot: slot})
	}
	return hops
}

// place finds the group of a link, and whether a direction of the link runs along the group.
func (n *network) place(link plan.LinkID, direction string) (group int, forward, found bool) {
	number, found := n.spanOf[link]
	if !found {
		return 0, false, false
	}
	s := &n.spans[number]
	forward = direction == Forward
	for _, part := range s.links {
		if part.id == link {
			forward = forward != part.turned
		}
	}
	return s.group, forward != s.turned, true
}
