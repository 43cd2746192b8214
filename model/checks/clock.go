package checks

import (
	"fmt"
	"slices"

	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/standards"
	"stageloom/model/words"
)

// carriesClock are the transports whose audio clock goes from end to end, whichever way.
var carriesClock = []plan.TransportID{"aes50", "aes10", "word-clock"}

// embedsClock is the transport that carries its clock with the audio from its first end to its other, and no way back: AES3
// has it in its frames, published. What receives it follows it, or converts the rate at that input.
const embedsClock plan.TransportID = "aes3"

// domain are devices that share one clock, and what is known of them.
type domain struct {
	devices            []plan.DeviceID
	leaders, followers []plan.Device
	// unknown tells of a device of audio of which nobody said whether it can lead.
	unknown bool
	// fedBy are the domains whose clock comes to this one inside its audio.
	fedBy []int
}

// clock finds devices joined by digital audio of which all follow, those of which several can lead, and leaders that are
// brought another's clock.
func clock(s *Subject) (found []Finding) {
	domains := s.domains()
	led := ledBy(domains)
	found = unled(domains, led)
	for _, d := range domains {
		if len(d.leaders) > 1 {
			names, where := deviceNames(d.leaders)
			found = append(found, Finding{
				Severity: Note, Where: where,
				What:   fmt.Sprintf("%s are joined by digital audio, and each can lead the clock", words.Listed(names)),
				Remedy: "Agree which one leads, set the others to follow it, and write it on the sheet.",
			})
		}
	}
	return append(found, s.broughtAnother(domains)...)
}

// ledBy tells of each domain whether something leads its clock: one of its own, or one whose audio it receives.
func ledBy(domains []domain) []bool {
	led := make([]bool, len(domains))
	for again := true; again; {
		again = false
		for i, d := range domains {
			fed := slices.ContainsFunc(d.fedBy, func(from int) bool { return led[from] })
			if !led[i] && (len(d.leaders) > 0 || d.unknown || fed) {
				led[i], again = true, true
			}
		}
	}
	return led
}

// unled finds those who can only follow and nobody leads. Domains that feed one another are told together.
func unled(domains []domain, led []bool) (found []Finding) {
	told := make([]bool, len(domains))
	var gather func(i int, followers *[]plan.Device)
	gather = func(i int, followers *[]plan.Device) {
		if told[i] || led[i] {
			return
		}
		told[i] = true
		*followers = append(*followers, domains[i].followers...)
		for j, d := range domains {
			if slices.Contains(domains[i].fedBy, j) || slices.Contains(d.fedBy, i) {
				gather(j, followers)
			}
		}
	}
	for i := range domains {
		var followers []plan.Device
		gather(i, &followers)
		if len(followers) == 0 {
			continue
		}
		names, where := deviceNames(followers)
		remedy := "Join them to a device with a clock of its own, or feed one of them from a clock; without a leader they run apart and click."
		if slices.ContainsFunc(domains, func(d domain) bool { return len(d.fedBy) > 0 }) {
			remedy += " AES3 brings a clock one way only: a link that is drawn against its signal has to be turned round."
		}
		found = append(found, Finding{
			Severity: Warn, Where: where,
			What:   fmt.Sprintf("nobody leads the clock: %s can only follow", words.Listed(names)),
			Remedy: remedy,
		})
	}
	return found
}

// broughtAnother finds AES3 from one clock into a device that has a clock of its own.
func (s *Subject) broughtAnother(domains []domain) (found []Finding) {
	in := memberOf(domains)
	s.each(func(link *plan.Link, _ *budget.Budget, _ *view) {
		from, into := in[link.From], in[link.To]
		if link.Transport != embedsClock || from == into || s.clockOf(link.To) != "own" || len(domains[from].leaders) == 0 {
			return
		}
		names, _ := deviceNames(domains[from].leaders)
		device := s.device(link.To)
		found = append(found, Finding{
			Severity: Note, Where: and(at(link), plan.DevicesTable, device.Key()),
			What:   fmt.Sprintf("%s brings the clock of %s to %s, which has one of its own", link.Name, words.Listed(names), device.Name),
			Remedy: "Let it follow this input, or let the input convert the rate; two clocks that run apart click.",
			Short:  "brings a clock to a device that has its own",
			many:   "bring a clock to devices that have one of their own", item: fmt.Sprintf("%s (%s)", link.Name, device.Name),
		})
	})
	return found
}

// clockOf is what the kind of a device says of its clock.
func (s *Subject) clockOf(id plan.DeviceID) string {
	kind, _ := s.Plan.Kinds.Get(plan.Key(s.device(id).Kind))
	return kind.Clock
}

// memberOf finds the domain of a device.
func memberOf(domains []domain) map[plan.DeviceID]int {
	in := map[plan.DeviceID]int{}
	for i, d := range domains {
		for _, id := range d.devices {
			in[id] = i
		}
	}
	return in
}

// namesOf names devices and says where they stand.
func deviceNames(devices []plan.Device) (names []string, where []Place) {
	for _, device := range devices {
		names, where = append(names, device.Name), append(where, Place{plan.DevicesTable, device.Key()})
	}
	return names, where
}

// domains gathers the devices that share a clock, in the order of their first link, with whom each receives audio from.
func (s *Subject) domains() []domain {
	domains, of := s.clockGroups()
	for i := range domains {
		s.describe(&domains[i])
	}
	s.each(func(link *plan.Link, _ *budget.Budget, _ *view) {
		if media := s.Reckoner.Transport(link.Transport); media.Media != standards.BalancedPair || media.NeverIntoNetworkPort {
			return
		}
		for _, id := range []plan.DeviceID{link.From, link.To} { // a network may bring a clock too, and nothing here says so
			if at, in := of[id]; in && len(domains[at].devices) == 1 {
				domains[at].unknown = true
			}
		}
	})
	s.each(func(link *plan.Link, _ *budget.Budget, _ *view) {
		if from, into := of[link.From], of[link.To]; link.Transport == embedsClock && from != into {
			domains[into].fedBy = append(domains[into].fedBy, from)
		}
	})
	return domains
}

// clockGroups are the devices that share a clock, and for each device which of them it belongs to. Those that went into
// others are empty.
func (s *Subject) clockGroups() (domains []domain, of map[plan.DeviceID]int) {
	of = map[plan.DeviceID]int{}
	enter := func(id plan.DeviceID) int {
		if at, in := of[id]; in {
			return at
		}
		of[id] = len(domains)
		domains = append(domains, domain{devices: []plan.DeviceID{id}})
		return of[id]
	}
	s.each(func(link *plan.Link, _ *budget.Budget, v *view) {
		if link.Transport == embedsClock {
			enter(link.From)
			enter(link.To)
		}
		if !slices.Contains(carriesClock, link.Transport) && !s.fibreOfClock(v) {
			return
		}
		near, far := enter(link.From), enter(link.To)
		if near == far {
			return
		}
		for _, id := range domains[far].devices {
			of[id] = near
		}
		domains[near].devices = append(domains[near].devices, domains[far].devices...)
		domains[far].devices = nil
	})
	return domains, of
}

// describe sorts the devices of a domain by what their kinds say of their clock.
func (s *Subject) describe(d *domain) {
	for _, id := range d.devices {
		device := s.device(id)
		kind, _ := s.Plan.Kinds.Get(plan.Key(device.Kind))
		switch {
		case kind.Clock == "own":
			d.leaders = append(d.leaders, device)
		case kind.Clock == "follows":
			d.followers = append(d.followers, device)
		case !kind.Passive && kind.Inputs+kind.Outputs+kind.Channels > 0:
			d.unknown = true
		}
	}
}

// fibreOfClock reports whether a fibre lies at a converter of a transport that carries clock.
func (s *Subject) fibreOfClock(v *view) bool {
	for i := range v.ends {
		signals := s.signalsOf(v.ends[i].device)
		if s.Reckoner.Transport(v.link.Transport).Media == "fibre" && len(signals) == 1 && slices.Contains(carriesClock, signals[0]) {
			return true
		}
	}
	return false
}
