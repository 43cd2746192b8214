package checks

import (
	"fmt"
	"slices"

	"stageloom/model/budget"
	"stageloom/model/plan"
)

// carriesClock are the transports whose audio clock goes from end to end. An AES3 input may convert its rate and is left
// out.
var carriesClock = []plan.TransportID{"aes50", "aes10", "word-clock"}

// clock finds devices joined by digital audio of which all follow, and those of which several can lead.
func clock(s *Subject) (found []Finding) {
	domains := s.domains()
	for _, devices := range domains {
		if len(devices) < 2 {
			continue
		}
		var leaders, followers []string
		var lead, follow []Place
		unknown := false
		for _, id := range devices {
			device := s.device(id)
			kind, _ := s.Plan.Kinds.Get(plan.Key(device.Kind))
			switch {
			case kind.Clock == "own":
				leaders, lead = append(leaders, device.Name), append(lead, Place{"devices", device.Key()})
			case kind.Clock == "follows":
				followers, follow = append(followers, device.Name), append(follow, Place{"devices", device.Key()})
			case !kind.Passive && kind.Inputs+kind.Outputs+kind.Channels > 0:
				unknown = true
			}
		}
		switch {
		case len(leaders) == 0 && len(followers) > 0 && !unknown:
			found = append(found, Finding{
				Severity: Warn, Where: follow,
				What:   fmt.Sprintf("nobody leads the clock: %s can only follow", listed(followers)),
				Remedy: "Join them to a device with a clock of its own, or feed one of them from a clock; without a leader they run apart and click.",
			})
		case len(leaders) > 1:
			found = append(found, Finding{
				Severity: Note, Where: lead,
				What:   fmt.Sprintf("%s are joined by digital audio, and each can lead the clock", listed(leaders)),
				Remedy: "Agree which one leads, set the others to follow it, and write it on the sheet.",
			})
		}
	}
	return found
}

// domains gathers the devices that share a clock, in the order of their first link.
func (s *Subject) domains() [][]plan.DeviceID {
	of := map[plan.DeviceID]int{}
	var domains [][]plan.DeviceID
	s.each(func(link *plan.Link, _ *budget.Budget, v *view) {
		if !slices.Contains(carriesClock, link.Transport) && !s.fibreOfClock(v) {
			return
		}
		near, nearIn := of[link.From]
		far, farIn := of[link.To]
		switch {
		case !nearIn && !farIn:
			near = len(domains)
			domains = append(domains, []plan.DeviceID{link.From})
			of[link.From] = near
			fallthrough
		case !farIn:
			if link.To != link.From {
				domains[near], of[link.To] = append(domains[near], link.To), near
			}
		case !nearIn:
			domains[far], of[link.From] = append(domains[far], link.From), far
		case near != far:
			for _, id := range domains[far] {
				of[id] = near
			}
			domains[near], domains[far] = append(domains[near], domains[far]...), nil
		}
	})
	return domains
}

// fibreOfClock tells whether a fibre lies at a converter of a transport that carries clock.
func (s *Subject) fibreOfClock(v *view) bool {
	for i := range v.ends {
		signals := s.signalsOf(v.ends[i].device)
		if s.Reckoner.Transport(v.link.Transport).Media == "fibre" && len(signals) == 1 && slices.Contains(carriesClock, signals[0]) {
			return true
		}
	}
	return false
}
