package plan

import (
	"fmt"
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

// RouteLoom makes the way of one member the loom's route. Every other member follows the route between the points that
// lie nearest its two ends, where it joins and drops off; a straight way is a route without points, which straightens all.
func (e *Edit) RouteLoom(id LoomID, like LinkID) error {
	var route []geom.Point
	for _, point := range e.next.PointsOf(like) {
		route = append(route, point.At())
	}
	e.setRoute(id, route)
	for _, link := range e.next.LoomLinks(id) {
		if link.ID == like {
			continue
		}
		if err := e.Draw(link.ID, e.next.nearestWay(link, route)); err != nil {
			return err
		}
	}
	return nil
}

// DrawLoom changes the route of a loom; its links follow as LoomWays says.
func (e *Edit) DrawLoom(id LoomID, route []geom.Point) error {
	if !e.next.Looms.Has(Key(id)) {
		return refuse("there is no such loom any more")
	}
	ways := e.next.LoomWays(id, route)
	e.setRoute(id, route)
	for _, link := range e.next.LoomLinks(id) {
		if err := e.Draw(link.ID, ways[link.ID]); err != nil {
			return err
		}
	}
	return nil
}

func (e *Edit) setRoute(id LoomID, route []geom.Point) {
	for _, old := range slices.Clone(e.next.LoomPoints.Under(Key(id))) {
		Drop[LoomPoint](e, old.Key())
	}
	for i, at := range route {
		Put(e, LoomPoint{Loom: id, Order: i + 1, X: at.X, Y: at.Y})
	}
}

// LoomRoute is the route of a loom: its corners in order. One whose route was never drawn has the way of the link with
// the most corners.
func (p *Plan) LoomRoute(id LoomID) (route []geom.Point) {
	for _, point := range p.LoomPoints.Under(Key(id)) {
		route = append(route, geom.Point{X: point.X, Y: point.Y})
	}
	if len(route) > 0 {
		return route
	}
	for _, link := range p.LoomLinks(id) {
		if points := p.PointsOf(link.ID); len(points) > len(route) {
			route = route[:0]
			for _, point := range points {
				route = append(route, point.At())
			}
		}
	}
	return route
}

// LoomWays are the ways that the links of a loom would have along another route. A link that lies along the route now
// joins and drops off at the same corners when one corner is moved, added or removed; any other joins and drops off at
// the corners that lie nearest its two ends.
func (p *Plan) LoomWays(id LoomID, route []geom.Point) map[LinkID][]geom.Point {
	old, ways := p.LoomRoute(id), map[LinkID][]geom.Point{}
	for _, link := range p.LoomLinks(id) {
		var way []geom.Point
		for _, point := range p.PointsOf(link.ID) {
			way = append(way, point.At())
		}
		s, along := spanOf(old, way)
		if along {
			s, along = s.follow(old, route)
		}
		if along {
			ways[link.ID] = s.way(route)
		} else {
			ways[link.ID] = p.nearestWay(link, route)
		}
	}
	return ways
}

func (p *Plan) nearestWay(link Link, route []geom.Point) []geom.Point {
	from, _ := p.Device(link.From)
	to, _ := p.Device(link.To)
	return between(route, from.At(), to.At())
}

// span is the part of a route that a link follows: indices of its first and last corner, and whether it goes the other
// way round.
type span struct {
	first, last int
	turned      bool
}

// spanOf finds a way in a route, and reports whether it lies there.
func spanOf(route, way []geom.Point) (span, bool) {
	if len(way) == 0 {
		return span{}, false
	}
	back := slices.Clone(way)
	slices.Reverse(back)
	for i := 0; i+len(way) <= len(route); i++ {
		part := route[i : i+len(way)]
		if slices.Equal(part, way) || slices.Equal(part, back) {
			return span{i, i + len(way) - 1, !slices.Equal(part, way)}, true
		}
	}
	return span{}, false
}

// follow is the span after one corner of its route was moved, added or removed; it reports whether it is that, and
// whether anything of the span is left.
func (s span) follow(old, route []geom.Point) (span, bool) {
	at := 0
	for at < min(len(old), len(route)) && old[at] == route[at] {
		at++
	}
	switch len(route) - len(old) {
	case 0:
	case 1: // a corner before the first, or behind the last, is one for all who begin, or end, there
		if s.first >= at && !(at == 0 && s.first == 0) {
			s.first++
		}
		if s.last >= at || at == len(old) && s.last == len(old)-1 {
			s.last++
		}
	case -1:
		if s.first > at {
			s.first--
		}
		if s.last >= at {
			s.last--
		}
	default:
		return s, false
	}
	return s, s.first <= s.last
}

func (s span) way(route []geom.Point) []geom.Point {
	way := slices.Clone(route[s.first : s.last+1])
	if s.turned {
		slices.Reverse(way)
	}
	return way
}

// LoomEnds are the devices at the two ends of a loom: those of the link that follows most of its route, in the
// route's direction.
func (p *Plan) LoomEnds(id LoomID) (from, to DeviceID) {
	route, longest := p.LoomRoute(id), -1
	for _, link := range p.LoomLinks(id) {
		points := p.PointsOf(link.ID)
		if len(points) <= longest {
			continue
		}
		longest, from, to = len(points), link.From, link.To
		way := make([]geom.Point, len(points))
		for i := range points {
			way[i] = points[i].At()
		}
		if s, along := spanOf(route, way); along && s.turned {
			from, to = to, from
		}
	}
	return from, to
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

// LeaveLooms takes links out of the looms that they lie in; a loom that holds none any more goes, unless it is stock.
func (e *Edit) LeaveLooms(links ...LinkID) error {
	for _, id := range links {
		if err := Update(e, Key(id), func(r *Link) { r.Loom = "" }); err != nil {
			return err
		}
	}
	e.DissolveEmptiedLooms()
	return nil
}

// FreeLoomName returns the first of Loom 1, Loom 2, … that no loom bears.
func (p *Plan) FreeLoomName() string {
	taken := map[string]bool{}
	for loom := range p.Looms.All() {
		taken[loom.Name] = true
	}
	for n := 1; ; n++ {
		if name := fmt.Sprintf("Loom %d", n); !taken[name] {
			return name
		}
	}
}
