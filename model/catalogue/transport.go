package catalogue

import (
	"stageloom/model/plan"
	"stageloom/model/standards"
)

// TransportsFor lists the transports that both ports of a link take, the link's own first.
func TransportsFor(p *plan.Plan, link plan.Link) []plan.TransportID {
	fit := []plan.TransportID{link.Transport}
	near, nearFound := transportAt(p, link.From, link.FromPort)
	far, farFound := transportAt(p, link.To, link.ToPort)
	if !nearFound || !farFound {
		return fit
	}
	for _, transport := range standards.Transports() {
		if id := plan.TransportID(transport.Slug); id != link.Transport && transport.AcceptedBy(near) && transport.AcceptedBy(far) {
			fit = append(fit, id)
		}
	}
	return fit
}

// transportAt is the transport of a port, whether a link holds it or not.
func transportAt(p *plan.Plan, id plan.DeviceID, name string) (standards.Transport, bool) {
	device, _ := p.Device(id)
	port, found := p.KindPorts.Get(plan.PortKey(device.Kind, name))
	if !found {
		return standards.Transport{}, false
	}
	transport, err := standards.TransportBySlug(standards.TransportSlug(port.Transport))
	return transport, err == nil
}
