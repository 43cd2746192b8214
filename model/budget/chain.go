package budget

import (
	"stageloom/model/medium"
	"stageloom/model/plan"
)

// chain lays the parts of links one after the other, in one piece of memory for all links of a plan. With keep it also
// gathers the parts of one link for a line.
type chain struct {
	reckoner *Reckoner
	parts    []Part
	line     []medium.Part
	keep     bool

	graded       bool
	medium       *ready // the first where nothing is graded
	scale        scale
	temperatureC float64
	factor       [2]float64 // temperature factor of unscreened and screened cable
	turned       bool
	first        int     // index of the link's first part
	at           float64 // metres of cable so far
	loss         medium.Loss
	interfaces   int
}

// piece is one cable to be laid: which it is, and its two ends as they lie.
type piece struct {
	part      Part
	cable     *cable
	near, far bool // socket
}

// tip is the far end of the last cable laid.
type tip struct {
	cable  *cable
	socket bool
}

// build lays the parts of a link and fills in what they amount to.
func (c *chain) build(b *Budget, link *plan.Link, segments []plan.Segment) {
	c.begin(b, link)
	c.nearPanel(link, segments)
	var last tip
	for i := range segments {
		next := c.pieceOf(&segments[i])
		b.Laid += next.part.Length
		if i > 0 {
			b.Joins++
			c.join(last, &next, segments[i].Coupler)
		}
		last = c.lay(&next)
	}
	b.Missing = missing(b.Run, b.Laid)
	if b.Assumed() {
		last = c.assume(b, last)
	}
	c.farPanel(link, last)
	if len(c.parts) > c.first {
		b.Parts = c.parts[c.first:len(c.parts):len(c.parts)]
	}
	b.Loss, b.Interfaces = c.loss, c.interfaces
}

func (c *chain) begin(b *Budget, link *plan.Link) {
	c.graded, c.temperatureC, c.turned = b.Graded, b.TemperatureC, link.DrumEnd == "from"
	c.medium = c.reckoner.media[0]
	c.scale = c.medium.own
	if b.Graded {
		c.medium = c.reckoner.mediumOf(b.Medium.Media())
		c.scale = c.reckoner.transportOf(b.Transport).scale
		c.factor = [2]float64{c.medium.Warm(b.TemperatureC, false), c.medium.Warm(b.TemperatureC, true)}
	}
	c.first, c.at, c.loss, c.interfaces = len(c.parts), 0, medium.Loss{}, 0
	c.line = c.line[:0]
}

// pieceOf finds the cable of a segment: a reel or a house line with its measured loss, or kind and length.
func (c *chain) pieceOf(s *plan.Segment) piece {
	r := c.reckoner
	part := Part{Order: s.Order, Reel: s.Reel, HouseLine: s.HouseLine, Kind: s.Kind, Length: s.Length}
	measured := plan.Optional{}
	switch {
	case s.Reel != "":
		reel, _ := r.plan.Reels.Get(plan.Key(s.Reel))
		part.Kind, part.Length, measured = reel.Kind, reel.Length, reel.Measured
	case s.HouseLine != "":
		line, _ := r.plan.HouseLines.Get(plan.Key(s.HouseLine))
		part.Kind, part.Length, measured = line.Kind, line.Length, line.Measured
	}
	kind := r.kindOf(part.Kind)
	if measured.Set && kind.medium != nil && part.Length > 0 {
		own := kind.measured(measured.Value, part.Length)
		kind = &own
	}
	return c.turn(piece{part: part, cable: kind})
}

// turn lays the ends of a cable as its link wants its drum.
func (c *chain) turn(p piece) piece {
	p.near, p.far = p.cable.nearSocket, p.cable.farSocket
	if c.turned {
		p.near, p.far = p.far, p.near
	}
	return p
}

// assume lays the cable that stands for the missing metres, behind the last one.
func (c *chain) assume(b *Budget, last tip) tip {
	fill := c.turn(piece{part: Part{Kind: b.Fill, Length: b.Missing, Assumed: true}, cable: c.reckoner.kindOf(b.Fill)})
	if last.cable != nil {
		c.join(last, &fill, "")
	}
	return c.lay(&fill)
}

// lay adds a cable, and the inner connection of a drum on the side of its socket.
func (c *chain) lay(p *piece) tip {
	inner := p.cable.drum && c.graded
	if inner && p.near {
		c.joint(Part{What: Inner, Order: p.part.Order, Assumed: p.part.Assumed}, medium.Joint{p.cable.plug, p.cable.plug})
	}
	c.cable(p.part, p.cable)
	if inner && p.far {
		c.joint(Part{What: Inner, Order: p.part.Order, Assumed: p.part.Assumed}, medium.Joint{p.cable.plug, p.cable.plug})
	}
	return tip{p.cable, p.far}
}

func (c *chain) cable(part Part, kind *cable) {
	part.Start, part.BeforeDB = c.at, c.scale.dB(c.loss)
	c.at += part.Length
	if c.graded {
		part.Unknown = !kind.knownIn(c.medium)
		if !part.Unknown {
			factor := c.factor[0]
			if kind.Screened {
				factor = c.factor[1]
			}
			loss := kind.PerMetre.Times(factor * part.Length)
			part.LossDB = c.scale.dB(loss)
			c.loss = c.loss.Plus(loss)
			if c.keep {
				c.line = append(c.line, medium.Part{Cable: &kind.Cable, Length: part.Length, TemperatureC: c.temperatureC})
			}
		}
	}
	c.parts = append(c.parts, part)
}

// join adds what joins two cables: one connection where a plug meets a socket, else a coupler.
func (c *chain) join(a tip, b *piece, coupler plan.HardwareID) {
	part := Part{What: Coupler, Order: b.part.Order, Assumed: b.part.Assumed}
	if a.socket != b.near {
		part.What = Connection
		c.joint(part, medium.Joint{a.cable.plug, b.cable.plug})
		return
	}
	body := c.medium.coupler
	if coupler != "" {
		body = c.medium.hardwareOf(coupler)
	}
	if c.graded || coupler != "" {
		part.Hardware = body.ID
	}
	c.between(part, a.cable.plug, body, b.cable.plug)
}

// between adds a coupler or a panel between two plugs: a connection on each side of its body, or one that is as poor as the
// poorest of the three.
func (c *chain) between(part Part, near, body, far *medium.Hardware) {
	if c.medium.joints == 1 {
		c.joint(part, medium.Joint{medium.Joint{near, body}.Poorer(), far})
		return
	}
	c.joint(part, medium.Joint{near, body}, medium.Joint{body, far})
}

// joint adds a part of mated connections; on a transport without a budget it is there but loses nothing.
func (c *chain) joint(part Part, joints ...medium.Joint) {
	part.Start, part.BeforeDB, part.Interfaces = c.at, c.scale.dB(c.loss), len(joints)
	c.interfaces += len(joints)
	if c.graded {
		for _, joint := range joints {
			poorer := joint.Poorer()
			part.LossDB += poorer.DB
			c.loss = c.loss.Plus(poorer.Loss)
			if c.keep {
				c.line = append(c.line, medium.Part{Joint: joint})
			}
		}
	}
	c.parts = append(c.parts, part)
}

// nearPanel adds the panel in front of the near device, its inner lead first.
func (c *chain) nearPanel(link *plan.Link, segments []plan.Segment) {
	if link.FromPanel == "" {
		return
	}
	panel := c.medium.hardwareOf(link.FromPanel)
	lead := c.leadPlug(link.FromLeadKind, link.FromLead, panel)
	c.lead(link.FromLeadKind, link.FromLead)
	first := panel
	switch {
	case len(segments) > 0:
		first = c.pieceOf(&segments[0]).cable.plug
	case link.FillKind != "":
		first = c.reckoner.kindOf(link.FillKind).plug
	}
	c.between(Part{What: Panel, Hardware: panel.ID}, lead, panel, first)
}

// farPanel adds the panel in front of the far device and its inner lead.
func (c *chain) farPanel(link *plan.Link, last tip) {
	if link.ToPanel == "" {
		return
	}
	panel := c.medium.hardwareOf(link.ToPanel)
	before := panel
	if last.cable != nil {
		before = last.cable.plug
	}
	lead := c.leadPlug(link.ToLeadKind, link.ToLead, panel)
	c.between(Part{What: Panel, Hardware: panel.ID}, before, panel, lead)
	c.lead(link.ToLeadKind, link.ToLead)
}

// leadPlug is the hardware of an inner lead's plug at its panel; a lead of no length is as good as the panel.
func (c *chain) leadPlug(id plan.CableKindID, length float64, panel *medium.Hardware) *medium.Hardware {
	if length == 0 {
		return panel
	}
	return c.reckoner.leadKind(id, c.medium).plug
}

// lead adds an inner lead, where it has a length.
func (c *chain) lead(id plan.CableKindID, length float64) {
	if length > 0 {
		c.cable(Part{What: Lead, Kind: id, Length: length}, c.reckoner.leadKind(id, c.medium))
	}
}
