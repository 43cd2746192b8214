package checks

import (
	"fmt"

	"stageloom/model/budget"
	"stageloom/model/plan"
)

// plugged is one end of a link: the port, its device, and the cable that meets it.
type plugged struct {
	device plan.Device
	port   plan.KindPort
	meets  *laid // nil where none is known
}

// endsOf gathers both ends of a link.
func (s *Subject) endsOf(v *view) [2]plugged {
	link := &v.link
	near, far := s.end(link.From, link.FromPort), s.end(link.To, link.ToPort)
	near.meets = meeting(v.cables, 0, link.FromPanel != "" && (link.FromLead == 0 || link.FromLeadKind == ""))
	far.meets = meeting(v.cables, len(v.cables)-1, link.ToPanel != "" && (link.ToLead == 0 || link.ToLeadKind == ""))
	return [2]plugged{near, far}
}

func meeting(cables []laid, i int, unknown bool) *laid {
	if unknown || len(cables) == 0 {
		return nil
	}
	return &cables[i]
}

func (s *Subject) end(id plan.DeviceID, name string) plugged {
	device := s.device(id)
	port, _ := s.Plan.KindPorts.Get(plan.PortKey(device.Kind, name))
	return plugged{device: device, port: port}
}

func (p *plugged) named() string { return fmt.Sprintf("port %s of %s", p.port.Name, p.device.Name) }

func (p *plugged) at(link *plan.Link) []Place {
	return and(at(link), plan.DevicesTable, p.device.Key())
}

// eachEnd visits both ends of every link.
func (s *Subject) eachEnd(visit func(link *plan.Link, b *budget.Budget, end *plugged)) {
	s.each(func(link *plan.Link, b *budget.Budget, v *view) {
		for i := range v.ends {
			visit(link, b, &v.ends[i])
		}
	})
}

func wrongPort(s *Subject) (found []Finding) {
	s.eachEnd(func(link *plan.Link, b *budget.Budget, end *plugged) {
		if link.Transport == end.port.Transport {
			return
		}
		mine, its := s.Reckoner.Transport(link.Transport), s.Reckoner.Transport(end.port.Transport)
		if mine.Slug != "" && mine.AcceptedBy(*its) {
			return
		}
		finding := Finding{
			Severity: Stop, Where: end.at(link),
			What:   fmt.Sprintf("%s carries %s, but %s is for %s", link.Name, mine.Name, end.named(), its.Name),
			Remedy: "Plug it into a port of its own transport, or put the right converter between.",
		}
		if (mine.NeverIntoNetworkPort || its.NeverIntoNetworkPort) && mine.Media == its.Media {
			finding.Remedy = "Unplug it: AES50 is no network, though the plug fits. Neither side works, and either may be harmed."
		}
		finding.many = fmt.Sprintf("carry %s into a port for %s", mine.Name, its.Name)
		finding.item, finding.noun = fmt.Sprintf("%s at %s", link.Name, end.named()), endsOfLinks
		finding.Short = fmt.Sprintf("carries %s into a port for %s", mine.Name, its.Name)
		found = append(found, finding)
	})
	return found
}

// endsOfLinks are what a finding with a list counts where each end of a link is one.
const endsOfLinks = "ends of links"

func shell(s *Subject) (found []Finding) {
	s.eachEnd(func(link *plan.Link, b *budget.Budget, end *plugged) {
		if end.meets != nil && !end.meets.foreign && end.meets.kind.Lockable && !end.port.Lockable && mates(end.meets.kind.Connector, end.port.Connector) {
			found = append(found, Finding{
				Severity: Stop, Where: end.at(link),
				What:   fmt.Sprintf("%s: the metal shell of %s does not go into the plain %s", link.Name, end.meets.named(), end.named()),
				Remedy: "Put a tail with plain plugs between, or take a port that accepts the shell. Do not strip the shell.",
				Short:  fmt.Sprintf("the metal shell of %s goes into no plain port", end.meets.kind.Name),
				many:   fmt.Sprintf("meet a plain port with the metal shell of %s", end.meets.ofMany()),
				item:   fmt.Sprintf("%s at %s", link.Name, end.named()), noun: endsOfLinks,
			})
		}
	})
	return found
}

func connector(s *Subject) (found []Finding) {
	s.eachEnd(func(link *plan.Link, b *budget.Budget, end *plugged) {
		if end.meets == nil || end.meets.foreign || mates(end.meets.kind.Connector, end.port.Connector) {
			return
		}
		found = append(found, Finding{
			Severity: Warn, Where: end.at(link),
			What:   fmt.Sprintf("%s: %s has %s, but %s wants %s", link.Name, end.meets.named(), end.meets.kind.Connector, end.named(), end.port.Connector),
			Remedy: "Pack an adapter or a tail for this end.",
		})
	})
	return append(found, connectorsBetween(s)...)
}

// connectorsBetween finds cables of one run whose connectors do not go together where they are joined.
func connectorsBetween(s *Subject) (found []Finding) {
	s.each(func(link *plan.Link, b *budget.Budget, v *view) {
		var before *laid
		for i := range v.cables {
			next := &v.cables[i]
			if next.part.What != budget.Cable || next.foreign {
				before = nil
				continue
			}
			if before != nil && !mates(before.kind.Connector, next.kind.Connector) {
				found = append(found, Finding{
					Severity: Warn, Where: and(and(at(link), plan.CableKindsTable, before.kind.Key()), plan.CableKindsTable, next.kind.Key()),
					What:   fmt.Sprintf("%s: %s has %s, and %s behind it has %s", link.Name, before.named(), before.kind.Connector, next.named(), next.kind.Connector),
					Remedy: "Lay a tail with one of each between them, as a cable of this link, or stay with one connector.",
				})
			}
			before = next
		}
	})
	return found
}

func socketAtDevice(s *Subject) (found []Finding) {
	s.each(func(link *plan.Link, b *budget.Budget, v *view) {
		for i := range v.ends {
			end := &v.ends[i]
			panel := [2]plan.HardwareID{link.FromPanel, link.ToPanel}[i]
			if end.meets == nil || end.meets.foreign || panel != "" {
				continue
			}
			sockets := [2]bool{end.meets.kind.NearEnd == "socket", end.meets.kind.FarEnd == "socket"}
			if turned := link.DrumEnd == "from"; turned {
				sockets[0], sockets[1] = sockets[1], sockets[0]
			}
			if sockets[i] {
				found = append(found, Finding{
					Severity: Warn, Where: end.at(link),
					What:   fmt.Sprintf("%s: %s ends in a socket at %s", link.Name, end.meets.named(), end.device.Name),
					Remedy: "Add a tail from the socket to the device as a cable of this link: it counts in the budget.",
					Short:  "ends in a socket at a device: add a tail",
					many:   fmt.Sprintf("are a socket of %s at a device", end.meets.ofMany()),
					item:   fmt.Sprintf("%s at %s", link.Name, end.device.Name), noun: endsOfLinks,
				})
			}
		}
	})
	return found
}

func screen(s *Subject) (found []Finding) {
	s.each(func(link *plan.Link, b *budget.Budget, v *view) {
		transport := s.Reckoner.Transport(link.Transport)
		if !transport.ScreenRequired {
			return
		}
		if finding, wrong := screenFault(v, transport.Name); wrong {
			finding.Remedy = "Take screened cable whose shells carry the screen, connected at both ends. Never cut a screen or lift an earth to cure hum."
			found = append(found, finding)
		}
	})
	return found
}

// screenFault names the first thing that does not carry the screen on. Shells of metal matter on data pairs; a round
// audio plug has one anyway.
func screenFault(v *view, transport string) (finding Finding, wrong bool) {
	link, b := &v.link, v.budget
	fault := func(what, many, item string, where []Place) (Finding, bool) {
		return Finding{
			Severity: Stop, Where: where,
			What:  fmt.Sprintf("%s: the screen ends at %s, and %s needs it through from end to end", link.Name, what, transport),
			Short: fmt.Sprintf("the screen ends at %s", many),
			many:  fmt.Sprintf("lose the screen at %s, and %s needs it through from end to end", many, transport), item: item,
		}, true
	}
	for _, cable := range v.cables {
		lacks := ""
		switch {
		case cable.foreign:
		case !cable.kind.Screened:
			lacks = ", which is unscreened"
		case b.Graded && !cable.kind.MetalShell:
			lacks = ", whose plugs are not of metal"
		}
		if lacks != "" {
			return fault(cable.named()+lacks, cable.ofMany()+lacks, link.Name, and(at(link), plan.CableKindsTable, cable.kind.Key()))
		}
	}
	for i := range v.ends {
		end := &v.ends[i]
		if b.Graded && !end.port.MetalShell {
			return fault(end.named()+", which has no metal shell", "a port without a metal shell",
				fmt.Sprintf("%s (%s)", link.Name, end.named()), end.at(link))
		}
	}
	return Finding{}, false
}

func pairsMissing(s *Subject) (found []Finding) {
	s.each(func(link *plan.Link, b *budget.Budget, v *view) {
		needed := s.Reckoner.Transport(link.Transport).PairsNeeded
		for _, cable := range v.cables {
			if cable.kind.Pairs > 0 && cable.kind.Pairs < needed && !cable.foreign {
				found = append(found, Finding{
					Severity: Stop, Where: and(at(link), plan.CableKindsTable, cable.kind.Key()),
					What:   fmt.Sprintf("%s: %s has %d pairs, and %s needs %d", link.Name, cable.named(), cable.kind.Pairs, b.TransportName, needed),
					Remedy: "Take a cable with all its pairs through.",
					Short:  fmt.Sprintf("%s has %d pairs of the %d it needs", cable.kind.Name, cable.kind.Pairs, needed),
					many:   fmt.Sprintf("need %d pairs for %s, and %s has %d", needed, b.TransportName, cable.ofMany(), cable.kind.Pairs), item: link.Name,
				})
			}
		}
	})
	return found
}
