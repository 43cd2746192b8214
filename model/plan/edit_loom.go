package plan

import (
	"slices"

	"stageloom/model/geom"
)

// MakeLoom gathers links in a new loom whose route is the way of the first of them, and lets them follow it. A link
// lies in one loom: it leaves the one it was in.
func (e *Edit) MakeLoom(name string, links []LinkID) (LoomID, error) {
	if len(links) < 2 {
		return "", refuse("a loom needs at least two links")
	}
	id := LoomID(newID[Loom](e))
	Put(e, Loom{ID: id, Name: name})
	for _, link := range links {
		if err := Update(e, Key(link), func(r *Link) { r.Loom = id }); err != nil {
			return "", err
		}
	}
	return id, e.RouteLoom(id, links[0])
}

// RouteLoom makes the way of one member the loom's route. Every member follows the route between the points that lie
// nearest its two ends, where it joins and drops off; a straight way is a route without points, which straightens all.
func (e *Edit) RouteLoom(id LoomID, like LinkID) error {
	var route []geom.Point
	for _, point := range e.next.PointsOf(like) {
		route = append(route, point.At())
	}
	for _, old := range slices.Clone(e.next.LoomPoints.Under(Key(id))) {
		Drop[LoomPoint](e, old.Key())
	}
	for i, at := range route {
		Put(e, LoomPoint{Loom: id, Order: i + 1, X: at.X, Y: at.Y})
	}
	for _, link := range e.next.LoomLinks(id) {
		if link.ID == like {
			continue
		}
		from, _ := e.next.Device(link.From)
		to, _ := e.next.Device(link.To)
		if err := e.Draw(link.ID, between(route, from.At(), to.At())); err != nil {
			return err
		}
	}
	return nil
}

// between is the part of a route from the point nearest one place to the point nearest another, turned round where
// that is the way it goes.
func between(route []geom.Point, from, to geom.Point) []geom.Point {
	if len(route) == 0 {
		return nil
	}
	first, last := nearest(route, from), nearest(route, to)
	if first <= last {
		return slices.Clone(route[first : last+1])
	}
	way := slices.Clone(route[last : first+1])
	slices.Reverse(way)
	return way
}

func nearest(route []geom.Point, at geom.Point) int {
	best := 0
	for i := range route {
		if route[i].Distance(at) < route[best].Distance(at) {
			best = i
		}
	}
	return best
}

// LoomLinks lists the links of a loom.
func (p *Plan) LoomLinks(id LoomID) (links []Link) {
	for link := range p.Links.All() {
		if link.Loom == id {
			links = append(links, link)
		}
	}
	return links
}

// DissolveLoom sets the links of a loom free; their ways stay as they are.
func (e *Edit) DissolveLoom(id LoomID) {
	changeWhere(e, func(r Link) bool { return r.Loom == id }, func(r *Link) { r.Loom = "" })
	dropWhere(e, func(r LoomPoint) bool { return r.Loom == id })
	Drop[Loom](e, Key(id))
}

// DissolveEmptiedLooms takes away the looms whose last link left in this edit; one that is stock stays.
func (e *Edit) DissolveEmptiedLooms() {
	held := map[LoomID]bool{}
	for link := range e.next.Links.All() {
		held[link.Loom] = true
	}
	for link := range e.base.Links.All() {
		if loom, found := e.next.Looms.Get(Key(link.Loom)); found && !held[link.Loom] && !loom.Stock {
			e.DissolveLoom(link.Loom)
		}
	}
}
