package checks

import (
	"fmt"
	"slices"

	"stageloom/model/plan"
	"stageloom/model/standards"
	"stageloom/model/words"
)

// plug is a port of a device.
type plug struct {
	device plan.DeviceID
	port   string
}

// claim is what one piece of a line says of the signal on it: any of these transports.
type claim struct {
	who     string
	where   Place
	signals []plan.TransportID
	// sure tells that it can be nothing else: a link of its own transport, or a converter.
	sure bool
}

// lines follows links through passive devices, and fibre to the devices that give it its signal.
type lines struct {
	*Subject
	at   map[plug]*plan.Link
	seen map[plan.LinkID]bool
}

// signal finds lines whose two ends are not made for one signal: a fibre, or a panel, takes every plug that fits.
func signal(s *Subject) (found []Finding) {
	l := lines{s, map[plug]*plan.Link{}, map[plan.LinkID]bool{}}
	views := s.views()
	for i := range views {
		link := &views[i].link
		l.at[plug{link.From, link.FromPort}], l.at[plug{link.To, link.ToPort}] = link, link
	}
	for i := range views {
		link := &views[i].link
		if l.seen[link.ID] {
			continue
		}
		l.seen[link.ID] = true
		claims := append(l.follow(link, plug{link.From, link.FromPort}), l.of(link)...)
		claims = append(claims, l.follow(link, plug{link.To, link.ToPort})...)
		if finding, wrong := l.clash(link, claims); wrong {
			found = append(found, finding)
		}
	}
	return found
}

// of is what a link of copper claims by itself; fibre carries whatever is given to it.
func (l *lines) of(link *plan.Link) []claim {
	if l.Reckoner.Transport(link.Transport).Media != standards.BalancedPair {
		return nil
	}
	return []claim{{fmt.Sprintf("link %s", link.Name), Place{plan.LinksTable, link.Key()}, []plan.TransportID{link.Transport}, true}}
}

// follow goes on from one end of a link, through passive devices, and gathers what is claimed on the way.
func (l *lines) follow(link *plan.Link, at plug) (claims []claim) {
	for {
		device := l.device(at.device)
		kind, _ := l.Plan.Kinds.Get(plan.Key(device.Kind))
		if !kind.Passive {
			return append(claims, l.ends(link, device)...)
		}
		next := l.at[plug{at.device, l.through(device.Kind, at.port)}]
		if next == nil || l.seen[next.ID] {
			return claims
		}
		l.seen[next.ID] = true
		claims = append(claims, l.of(next)...)
		far := plug{next.To, next.ToPort}
		if next.To == at.device {
			far = plug{next.From, next.FromPort}
		}
		link, at = next, far
	}
}

// through is the port on the other side of a passive device that has two of one media, or blank.
func (l *lines) through(kind plan.KindID, port string) (other string) {
	row, _ := l.Plan.KindPorts.Get(plan.PortKey(kind, port))
	media := l.Reckoner.Transport(row.Transport).Media
	for _, candidate := range l.Plan.KindPorts.Under(plan.Key(kind)) {
		if candidate.Name == port || l.Reckoner.Transport(candidate.Transport).Media != media {
			continue
		}
		if other != "" {
			return ""
		}
		other = candidate.Name
	}
	return other
}

// ends is what an active device at the end of a fibre gives to it and takes from it: what its ports of copper are for.
func (l *lines) ends(link *plan.Link, device plan.Device) []claim {
	if l.Reckoner.Transport(link.Transport).Media != standards.Fibre {
		return nil
	}
	signals := l.signalsOf(device)
	if len(signals) == 0 {
		return nil
	}
	kind, _ := l.Plan.Kinds.Get(plan.Key(device.Kind))
	return []claim{{device.Name, Place{plan.DevicesTable, device.Key()}, signals, kind.Inputs+kind.Outputs+kind.Channels == 0}}
}

// signalsOf lists the digital transports of copper that a device has ports for, in the order of its ports.
func (s *Subject) signalsOf(device plan.Device) (signals []plan.TransportID) {
	for _, port := range s.Plan.KindPorts.Under(plan.Key(device.Kind)) {
		digital := s.Reckoner.Transport(port.Transport).Media == standards.BalancedPair || port.Transport == "aes10"
		if digital && !slices.Contains(signals, port.Transport) {
			signals = append(signals, port.Transport)
		}
	}
	return signals
}

// clash finds the first claim that does not go with the first.
func (l *lines) clash(link *plan.Link, claims []claim) (Finding, bool) {
	for i := 1; i < len(claims); i++ {
		one, other := claims[0], claims[i]
		if l.meet(one.signals, other.signals) {
			continue
		}
		if l.noNetwork(other.signals) && !l.noNetwork(one.signals) {
			one, other = other, one
		}
		finding := Finding{
			Severity: Stop, Where: at(link),
			What:   fmt.Sprintf("%s: %s is for %s, but %s for %s", link.Name, one.who, l.names(one.signals), other.who, l.names(other.signals)),
			Remedy: "Put converters of one sort at both ends, and ports of their transport behind them: what comes out is what went in.",
		}
		for _, c := range []claim{one, other} {
			if !slices.Contains(finding.Where, c.where) {
				finding.Where = append(finding.Where, c.where)
			}
		}
		switch {
		case !one.sure || !other.sure:
			finding.Severity = Note
			finding.Remedy = "Ask what the fibre port of each is made for; where the two differ, put converters of one sort at both ends."
		case l.noNetwork(one.signals):
			finding.Remedy = "Unplug it: AES50 is no network, though the plug fits. Put an AES50 converter at both ends, and an AES50 port behind each."
		}
		return finding, true
	}
	return Finding{}, false
}

// meet reports whether two lists have a transport in common, or one that a port of the other takes.
func (l *lines) meet(a, b []plan.TransportID) bool {
	for _, x := range a {
		for _, y := range b {
			mine, its := l.Reckoner.Transport(x), l.Reckoner.Transport(y)
			if x == y || mine.AcceptedBy(*its) || its.AcceptedBy(*mine) {
				return true
			}
		}
	}
	return false
}

// noNetwork reports whether all of a list must never meet a network port.
func (l *lines) noNetwork(signals []plan.TransportID) bool {
	return !slices.ContainsFunc(signals, func(id plan.TransportID) bool { return !l.Reckoner.Transport(id).NeverIntoNetworkPort })
}

func (l *lines) names(signals []plan.TransportID) string {
	var names []string
	for _, id := range signals {
		names = append(names, l.Reckoner.Transport(id).Name)
	}
	return words.And(names, fewNamed)
}
