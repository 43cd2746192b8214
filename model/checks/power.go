package checks

import (
	"errors"
	"fmt"

	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

// leastDrum is the length in metres from which on a cable is kept on a drum, unless its kind says otherwise; a shorter one is
// coiled by hand. Common practice, no source.
const leastDrum = 20.0

// onDrum reports whether a cable may be kept on a drum.
func onDrum(cable *laid) bool {
	return (cable.kind.Form == "" || cable.kind.Form == "drum") && cable.part.Length >= leastDrum
}

func powerOnDrum(s *Subject) (found []Finding) {
	s.each(func(link *plan.Link, b *budget.Budget, v *view) {
		if link.PowerW == 0 || !s.Reckoner.Transport(link.Transport).PowerOverLink {
			return
		}
		for _, cable := range v.cables {
			if !onDrum(&cable) || cable.part.Assumed || cable.foreign {
				continue
			}
			found = append(found, Finding{
				Severity: Warn, Where: at(link),
				What:   fmt.Sprintf("%s carries %.1f W, and %s, %s, may stay on its drum", link.Name, link.PowerW, cable.named(), cableLength(cable.part.Length)),
				Remedy: "Pull it off the drum to its last turn before power goes on, and keep it out of tight hot bundles: a coiled cable heats itself.",
				Short:  "carries power: pull it off its drum to the last turn",
				many:   "carry power on cable that may stay on its drum",
				item:   fmt.Sprintf("%s (%.1f W)", link.Name, link.PowerW),
			})
			return
		}
	})
	return found
}

func power(s *Subject) (found []Finding) {
	s.each(func(link *plan.Link, b *budget.Budget, v *view) {
		if link.PowerW == 0 {
			return
		}
		if what, remedy := s.powerFault(link, b, v); what != "" {
			finding := Finding{Severity: Stop, Where: at(link), What: what, Remedy: remedy}
			if !s.Reckoner.Transport(link.Transport).PowerOverLink {
				finding.Short = fmt.Sprintf("%s carries no power", b.TransportName)
				finding.many = fmt.Sprintf("are to carry power, and %s carries none", b.TransportName)
				finding.item = fmt.Sprintf("%s (%.1f W)", link.Name, link.PowerW)
			}
			found = append(found, finding)
		}
	})
	return found
}

const ownSupply = "feed the device from its own supply."

// powerFault says why power does not come to the device, and what to do.
func (s *Subject) powerFault(link *plan.Link, b *budget.Budget, v *view) (what, remedy string) {
	near, far := &v.ends[0], &v.ends[1]
	wanted := fmt.Sprintf("%s is to carry %.1f W to %s", link.Name, link.PowerW, far.device.Name)
	if !s.Reckoner.Transport(link.Transport).PowerOverLink {
		return fmt.Sprintf("%s is to carry %.1f W, and %s carries no power", link.Name, link.PowerW, b.TransportName),
			"Feed the device from its own supply; power on these pairs can harm both ends."
	}
	sender, err := s.Reckoner.Sender(*link)
	most := sender
	if types := standards.PowerTypes(); sender.Slug == "" {
		most = types[len(types)-1]
	}
	switch {
	case errors.Is(err, budget.ErrNoPower) && far.port.Power != "":
		return fmt.Sprintf("%s, and %s gives none: it comes from %s", wanted, near.named(), far.named()), "Turn the link round, so that it leads from the sender to the device."
	case errors.Is(err, budget.ErrNoPower):
		return fmt.Sprintf("%s, and %s gives none", wanted, near.named()), "Take a port that gives power, put a sender of its own between, or " + ownSupply
	case err != nil:
		return fmt.Sprintf("%s, and nothing is known of the power %s that %s gives", wanted, quoted(near.port.Power), near.named()), "Give the port a type of power that is known, or " + ownSupply
	case most.DevicePower < link.PowerW && sender.Slug == "":
		return fmt.Sprintf("%s, and no type of power over the link brings more than %.1f W", wanted, most.DevicePower), "Nothing on the link helps: " + ownSupply
	case most.DevicePower < link.PowerW:
		return fmt.Sprintf("%s, and %s is of %s, which brings %.1f W at most", wanted, near.named(), sender.Name, sender.DevicePower), strongerPort(link.PowerW)
	}
	advice, err := s.Reckoner.Advise(*link)
	if err != nil || advice.PowerErr == nil {
		return "", ""
	}
	return fmt.Sprintf("%s does not bring %.1f W to %s: %v", link.Name, link.PowerW, far.device.Name, advice.PowerErr),
		"Shorten it, take cable with thicker conductors, or " + ownSupply
}

// strongerPort names the weakest type of power that brings so much.
func strongerPort(watts float64) string {
	for _, kind := range standards.PowerTypes() {
		if kind.DevicePower >= watts {
			return fmt.Sprintf("Take a port of %s, or %s", kind.Name, ownSupply)
		}
	}
	return "Nothing on the link helps, since no type of power over a link brings so much: " + ownSupply
}
