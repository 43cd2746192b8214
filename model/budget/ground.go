package budget

import (
	"slices"

	"stageloom/model/geom"
	"stageloom/model/medium"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

// Way is the way of a link on the ground, from device to device through its way points.
func (r *Reckoner) Way(link plan.Link) geom.Polyline {
	points := r.plan.PointsOf(link.ID)
	way := make(geom.Polyline, 0, len(points)+2)
	way = append(way, r.end(link.From).at)
	for i := range points {
		way = append(way, points[i].At())
	}
	return append(way, r.end(link.To).at)
}

// Ground is the areas of a plan with their outlines, gathered once for many ways.
type Ground struct {
	areas []plan.Area
	rings []geom.Polyline
}

// Ground is the areas of the plan, gathered when they are first asked for.
func (r *Reckoner) Ground() Ground { return r.ground() }

func (r *Reckoner) gatherGround() (ground Ground) {
	for area := range r.plan.Areas.All() {
		ground.areas, ground.rings = append(ground.areas, area), append(ground.rings, r.outline(area.ID))
	}
	return ground
}

// Crossed returns the areas that a way touches, in the order of the table of areas.
func (g Ground) Crossed(way geom.Polyline) []plan.Area {
	var crossed []plan.Area
	for i, ring := range g.rings {
		if touches(way, ring) {
			crossed = append(crossed, g.areas[i])
		}
	}
	return crossed
}

// outline is the closed line round an area.
func (r *Reckoner) outline(id plan.AreaID) geom.Polyline {
	corners := r.plan.AreaPoints.Under(plan.Key(id))
	ring := make(geom.Polyline, 0, len(corners)+1)
	for _, corner := range corners {
		ring = append(ring, geom.Pt(corner.X, corner.Y))
	}
	if len(ring) > 0 {
		ring = append(ring, ring[0])
	}
	return ring
}

// touches reports whether a way crosses the ring or lies within it.
func touches(way, ring geom.Polyline) bool {
	if !way.Box().Overlaps(ring.Box()) {
		return false
	}
	for _, stretch := range way.Lines() {
		for _, edge := range ring.Lines() {
			if _, cross := stretch.Crossing(edge); cross {
				return true
			}
		}
	}
	return len(way) > 0 && inside(way[0], ring)
}

// inside counts the edges to the right of a point: an odd number is inside.
func inside(p geom.Point, ring geom.Polyline) bool {
	within := false
	for _, edge := range ring.Lines() {
		if (edge.A.Y > p.Y) != (edge.B.Y > p.Y) && p.X < edge.A.X+(p.Y-edge.A.Y)/(edge.B.Y-edge.A.Y)*(edge.B.X-edge.A.X) {
			within = !within
		}
	}
	return within
}

// Transport is what the standards hold of a transport; one they do not know has its slug as its name and nothing else.
// Read it, never write it.
func (r *Reckoner) Transport(id plan.TransportID) *standards.Transport { return &r.transportOf(id).row }

// HardwareName is the name of connecting hardware in words; what the standards do not know counts as the poorest of the first
// medium.
func (r *Reckoner) HardwareName(id plan.HardwareID) string {
	for _, m := range r.media {
		if own := m.hardwareOf(id); own.ID == id {
			return own.Name
		}
	}
	return r.media[0].hardware[0].Name
}

// Medium is what reckons a kind of cable; nil where no loss of its medium is reckoned.
func (r *Reckoner) Medium(kind plan.CableKindID) medium.Medium {
	if c := r.kindOf(kind); c.medium != nil {
		return c.medium.Medium
	}
	return nil
}

// KnowsRule reports whether a transport can be graded by a limit rule: it is of its medium.
func (r *Reckoner) KnowsRule(transport plan.TransportID, id plan.RuleID) bool {
	_, known := r.ruleOf(id, r.transportOf(transport).row.Media)
	return known
}

// CountsAs says what hardware that a medium does not know counts as: its poorest; blank where it knows it, or none is named.
func CountsAs(m medium.Medium, id plan.HardwareID) string {
	all := standards.HardwareOf(m.Media())
	if id == "" || slices.ContainsFunc(all, func(h standards.Hardware) bool { return string(h.Slug) == string(id) }) {
		return ""
	}
	return all[0].Name
}

// Knows reports whether what a kind states of its loss is enough to grade by.
func (r *Reckoner) Knows(kind plan.CableKindID) bool { return r.kindOf(kind).Known }

// WhyUnknown says in words what is wrong with what a kind states of its loss; blank where nothing is, or nothing is stated.
func (r *Reckoner) WhyUnknown(kind plan.CableKindID) string { return r.kindOf(kind).Unknown }

// Share is a measured loss of a piece over what its kind gives for its length, both at 20 °C; 0 where the kind's loss is
// not known. Far under 1 is a slip of the pen, far over 1 a bad cable.
func (r *Reckoner) Share(kind plan.CableKindID, length, measuredDB float64) float64 {
	c := r.kindOf(kind)
	if !c.Known {
		return 0
	}
	return measuredDB / c.medium.own.dB(c.PerMetre.Times(length))
}
