package catalogue

import (
	"fmt"

	"stageloom/model/plan"
	"stageloom/model/standards"
)

// NewLink completes a link between two ports: its transport, and the wanted kind of cable, which goes into both ports:
// that of most of the plan's links of this transport, or the catalogue's usual one, or none where no kind does. A blank To
// asks about the near port alone. The reason says in words why the ports do not fit; it is blank when they do.
func NewLink(p *plan.Plan, draft plan.Link) (link plan.Link, reason string) {
	from, reason := portOf(p, draft.From, draft.FromPort)
	if reason != "" {
		return draft, reason
	}
	transport, ends := from.Transport, []plan.KindPort{from}
	if draft.To != "" {
		to, reason := portOf(p, draft.To, draft.ToPort)
		if reason != "" {
			return draft, reason
		}
		if draft.From == draft.To {
			return draft, "both ends are on one device"
		}
		if transport, reason = between(from.Transport, to.Transport); reason != "" {
			return draft, reason
		}
		ends = append(ends, to)
	}
	draft.Transport = transport
	if draft.FillKind == "" {
		draft.FillKind = wantedKind(p, transport, ends)
	}
	return draft, ""
}

// MovedEnd is a link with one of its ends at another port; the reason says in words why it does not fit there. Its transport
// stays, so both ports have to take it.
func MovedEnd(p *plan.Plan, link plan.Link, near bool, device plan.DeviceID, port string) (moved plan.Link, reason string) {
	moved = link
	if moved.To, moved.ToPort = device, port; near {
		moved = link
		moved.From, moved.FromPort = device, port
	}
	if moved.From == moved.To {
		return link, "both ends are on one device"
	}
	at, reason := portBut(p, device, port, link)
	if reason != "" {
		return link, reason
	}
	takes, errAt := standards.TransportBySlug(standards.TransportSlug(at.Transport))
	carries, err := standards.TransportBySlug(standards.TransportSlug(link.Transport))
	known := err == nil && errAt == nil
	switch {
	case at.Transport == link.Transport, known && carries.AcceptedBy(takes):
		return moved, ""
	case known:
		return link, fmt.Sprintf("port %s takes %s; %s carries %s", port, takes.Name, link.Name, carries.Name)
	}
	return link, fmt.Sprintf("port %s takes %s; %s carries %s", port, at.Transport, link.Name, link.Transport)
}

// portOf finds a free port of a device.
func portOf(p *plan.Plan, id plan.DeviceID, name string) (plan.KindPort, string) {
	return portBut(p, id, name, plan.Link{})
}

// portBut finds a port of a device that no link but one holds; a laid spare is in nobody's way.
func portBut(p *plan.Plan, id plan.DeviceID, name string, but plan.Link) (plan.KindPort, string) {
	device, found := p.Device(id)
	if !found {
		return plan.KindPort{}, "there is no such device"
	}
	port, found := p.KindPorts.Get(plan.PortKey(device.Kind, name))
	if !found {
		return plan.KindPort{}, fmt.Sprintf("%s has no port %s", device.Name, name)
	}
	for link := range p.Links.All() {
		if link.ID != but.ID && !but.IsSpare() && !link.IsSpare() && (link.From == id && link.FromPort == name || link.To == id && link.ToPort == name) {
			return plan.KindPort{}, fmt.Sprintf("port %s of %s holds %s already", name, device.Name, link.Name)
		}
	}
	return port, ""
}

// between is the transport of a link between two ports, or why there is none.
func between(from, to plan.TransportID) (plan.TransportID, string) {
	if from == to {
		return from, ""
	}
	a, errA := standards.TransportBySlug(standards.TransportSlug(from))
	b, errB := standards.TransportBySlug(standards.TransportSlug(to))
	switch {
	case errA != nil || errB != nil:
		return "", fmt.Sprintf("one port takes %s, the other %s", from, to)
	case a.AcceptedBy(b):
		return from, ""
	case b.AcceptedBy(a):
		return to, ""
	case a.NeverIntoNetworkPort || b.NeverIntoNetworkPort:
		return "", fmt.Sprintf("one port is %s, the other %s; AES50 never goes into a network port, though the plug fits", a.Name, b.Name)
	}
	return "", fmt.Sprintf("one port is %s, the other %s", a.Name, b.Name)
}

// DoubleOf is a second link between the devices of one, on the first ports of the same transport that are free and fit;
// it bears no name, partner or patch of its own yet.
func DoubleOf(p *plan.Plan, link plan.Link) (plan.Link, bool) {
	from, _ := p.Device(link.From)
	to, _ := p.Device(link.To)
	for _, near := range p.Ports(from.Kind) {
		for _, far := range p.Ports(to.Kind) {
			draft := link
			draft.FillKind = ""
			draft.FromPort, draft.ToPort = near.Name, far.Name
			if double, reason := NewLink(p, draft); reason == "" && double.Transport == link.Transport {
				double.Name, double.Partner, double.Role = "", "", ""
				return double, true
			}
		}
	}
	return plan.Link{}, false
}
