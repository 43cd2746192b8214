package patch

import (
	"slices"

	"stageloom/model/plan"
)

// handsOn reports whether a kind has no audio of its own and no sample rate, only hands on what others send: a converter to
// another medium, a drop, a network switch.
func (k *kind) handsOn() bool {
	return k.converter || k.Group == "Network" && k.Inputs == 0 && k.Outputs == 0 && k.Channels == 0
}

// fixed is the sample rate in hertz that a device demands of its links; 0 where it takes any.
func (n *network) fixed(id plan.DeviceID) int {
	if d := n.devices[id]; d != nil && !d.converts {
		return d.rate
	}
	return 0
}

// rateOf is the sample rate that a link between two devices runs at, in hertz: that of its ends, of the one that does not
// convert, the plan's where neither demands one. Where they do not agree it is the lower:
// nothing is carried, and what would not fit at the higher is told when they do.
func (n *network) rateOf(ends [2]plan.DeviceID) int {
	rate := fewer(n.fixed(ends[0]), n.fixed(ends[1]))
	if rate == 0 {
		rate = n.rest.rate
	}
	return rate
}

// Rate is the sample rate in hertz of a device; 0 where it only hands on what others send.
func (v *View) Rate(id plan.DeviceID) int {
	if d := v.nets.devices[id]; d != nil {
		return d.rate
	}
	return 0
}

// LinkRate is the sample rate in hertz that a digital link runs at; 0 where it carries no audio in slots.
func (v *View) LinkRate(id plan.LinkID) int {
	if number, found := v.nets.spanOf[id]; found {
		return v.nets.spans[number].rate
	}
	return 0
}

// Seam is a link whose ends run at two sample rates and do not convert: it carries nothing.
type Seam struct {
	Link plan.LinkID
	Ends [2]plan.DeviceID
	// Acts are those in which they do not agree, in running order with the house: a guest at a drop brings a rate of its own.
	Acts []plan.ActID
}

// Seams lists the links whose ends do not agree in some act, in the order of the table of links, each with every two devices
// once.
func (v *View) Seams() (seams []Seam) {
	if !v.nets.rates {
		return nil
	}
	for i := range v.nets.spans {
		s := &v.nets.spans[i]
		for _, act := range v.Acts {
			ends := s.standing(act.over.plugged)
			a, b := v.nets.fixed(ends[0]), v.nets.fixed(ends[1])
			if a == 0 || b == 0 || a == b {
				continue
			}
			link := s.links[0].id
			at := slices.IndexFunc(seams, func(known Seam) bool { return known.Link == link && known.Ends == ends })
			if at < 0 {
				at, seams = len(seams), append(seams, Seam{Link: link, Ends: ends})
			}
			seams[at].Acts = append(seams[at].Acts, act.Act.ID)
		}
	}
	return seams
}
