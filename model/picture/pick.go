package picture

import (
	"stageloom/model/geom"
	"stageloom/model/plan"
)

// hitDistance is how near in points a pointer must come to a line.
const hitDistance = 7.0

// ranks order what lies under a pointer: the smaller thing first.
const (
	rankArea = iota
	rankPosition
	rankEdge
	rankSelectedEdge
	rankLink
	rankLoom
	rankDevice
	rankLabel
	rankPort
)

// target is something a pointer can hit: a line when it has points and is no area, else a box.
type target struct {
	ref    Ref
	rank   int
	box    geom.Box
	points []geom.Point
	area   bool
	// silent is never hit: a device that a box only counts, which a band takes all the same.
	silent bool
}

func (t target) distance(at geom.Point) (float64, bool) {
	if !t.box.Contains(at) {
		return 0, false
	}
	if len(t.points) > 0 && !t.area {
		away := geom.Polyline(t.points).Distance(at)
		return away, away <= hitDistance
	}
	return 0, !t.area || inside(t.points, at)
}

// Pick returns what lies under a point of the view: ports before labels before devices before links before the edges of places
// before places.
func (p *Picture) Pick(at geom.Point) (Ref, bool) {
	best, found := p.best(at)
	return best.ref, found
}

func (p *Picture) best(at geom.Point) (best target, found bool) {
	bestRank, bestDistance := -1, 0.0
	for i := len(p.targets) - 1; i >= 0; i-- {
		t := p.targets[i]
		if t.rank < bestRank || t.silent {
			continue
		}
		if away, hit := t.distance(at); hit && (t.rank > bestRank || away < bestDistance) {
			best, found, bestRank, bestDistance = t, true, t.rank, away
		}
	}
	return best, found
}

// Within returns the devices and links whose boxes and lines lie wholly inside a box of the view.
func (p *Picture) Within(box geom.Box) []Ref {
	var refs []Ref
	for _, t := range p.targets {
		if t.ref.Part != "" || (t.rank != rankDevice && t.rank != rankLink) || t.ref.Table == plan.PositionsTable {
			continue
		}
		bounds := t.box
		if t.rank == rankLink {
			bounds = geom.BoxOf(t.points...)
		}
		if box.ContainsBox(bounds) {
			refs = append(refs, t.ref)
		}
	}
	return refs
}

// Where returns the box in the view that a row's marks take, for pointing it out.
func (p *Picture) Where(ref Ref) (geom.Box, bool) {
	box := geom.EmptyBox()
	for _, t := range p.targets {
		if t.ref == ref && t.rank != rankEdge && t.rank != rankSelectedEdge {
			box = box.Union(t.box)
		}
	}
	if box.Empty() {
		box = p.whereGathered(ref)
	}
	return box, !box.Empty()
}

// whereGathered is the row, or the head, that stands for a device of a gathered position, and the position for a link inside it.
func (p *Picture) whereGathered(ref Ref) geom.Box {
	switch ref.Table {
	case plan.DevicesTable:
		for i := range p.arrangement.Scene.Devices {
			device := &p.arrangement.Scene.Devices[i]
			if _, rowed := p.arrangement.rowed(device.ID); rowed && plan.Key(device.ID) == ref.Key && !p.lacksDevice(device) {
				return p.boxOf(device.ID)
			}
		}
	case plan.LinksTable:
		for i := range p.arrangement.Scene.Links {
			link := &p.arrangement.Scene.Links[i]
			if b, rowed := p.arrangement.rowed(link.From); rowed && plan.Key(link.ID) == ref.Key && p.folded(link) && !p.lacksLink(link) {
				return b.box.Shift(p.offset())
			}
		}
	}
	return geom.EmptyBox()
}

// inside reports whether a point lies in a polygon.
func inside(polygon []geom.Point, at geom.Point) bool {
	in := false
	for i, j := 0, len(polygon)-1; i < len(polygon); j, i = i, i+1 {
		a, b := polygon[i], polygon[j]
		if (a.Y > at.Y) != (b.Y > at.Y) && at.X < a.X+(at.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}
