package cabling

import (
	"slices"

	"stageloom/model/budget"
	"stageloom/model/plan"
)

// sockets tells which ends of a kind are sockets as it lies: near and far, turned where the drum stands at the near end.
func sockets(kind plan.CableKind, turned bool) (near, far bool) {
	near, far = kind.NearEnd == "socket", kind.FarEnd == "socket"
	if turned {
		return far, near
	}
	return near, far
}

// follows reports whether cable b can be joined behind cable a: one medium of one sort, one connector, and no shell into a
// socket that takes none. Two plugs, or two sockets, meet in a coupler.
func follows(a, b plan.CableKind, turned bool) bool {
	if a.Media != b.Media || a.Connector != "" && b.Connector != "" && a.Connector != b.Connector {
		return false
	}
	_, behind := sockets(a, turned)
	ahead, _ := sockets(b, turned)
	switch {
	case behind == ahead:
		return true
	case behind:
		return a.Lockable || !b.Lockable
	}
	return b.Lockable || !a.Lockable
}

// enters reports whether a cable's end goes into a device's port: a plug of the port's connector, without a shell that the
// port does not take.
func enters(kind plan.CableKind, socket bool, port plan.KindPort) bool {
	switch {
	case socket:
		return false
	case kind.Connector != "" && port.Connector != "" && kind.Connector != port.Connector:
		return false
	}
	return !kind.Lockable || port.Lockable || kind.Connector != port.Connector
}

// carries reports whether a kind of cable carries a link's transport at all; checks ask the same.
func (r *run) carries(kind plan.CableKind) bool {
	return budget.Carries(kind, *r.survey.reckoner.Transport(r.link.Transport), r.fixed.Graded)
}

// Carried tells of kinds of cable whether they carry what any of some links does, nil for all links of the plan. What else keeps
// a kind off a link, such as its ends, it doesn't tell.
func Carried(p *plan.Plan, links []plan.LinkID) func(plan.CableKind) bool {
	reckoner := budget.NewReckoner(p)
	var transports []plan.TransportID
	for _, link := range chosen(p, links) {
		if !slices.Contains(transports, link.Transport) {
			transports = append(transports, link.Transport)
		}
	}
	return func(kind plan.CableKind) bool {
		return slices.ContainsFunc(transports, func(id plan.TransportID) bool { return budget.Carries(kind, *reckoner.Transport(id), false) })
	}
}

// begins and ends tell whether a kind can be the first and the last cable of the run. A panel takes any.
func (r *run) begins(kind plan.CableKind) bool {
	near, _ := sockets(kind, r.turned)
	return r.link.FromPanel != "" || enters(kind, near, r.ports[0])
}

func (r *run) ends(kind plan.CableKind) bool {
	_, far := sockets(kind, r.turned)
	return r.link.ToPanel != "" || enters(kind, far, r.ports[1])
}
