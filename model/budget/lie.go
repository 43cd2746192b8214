package budget

import (
	"stageloom/model/geom"
	"stageloom/model/plan"
)

// How a cable lies, in the words of routes.
const (
	OnGround = "ground"
	Overhead = "overhead"
	InTrench = "trench"
	InRamp   = "ramp"
)

const (
	// overPeople is how high in metres a cable hangs to count as overhead; common practice, no source.
	overPeople = 2.5
	// alongRoute is how near in metres to a route a way lies that follows it.
	alongRoute = 1.0
)

// LieIn says how a link lies along a stretch of its way: overhead where all of it is at a height, else as the route says
// that it follows there, else on the ground.
func (r *Reckoner) LieIn(link plan.Link, span Span) string {
	if r.lowest(link, span) >= overPeople {
		return Overhead
	}
	way := r.Way(link)
	for route := range r.plan.Routes.All() {
		if route.Lie != OnGround && follows(way, span, r.routeLine(route.ID)) {
			return route.Lie
		}
	}
	return OnGround
}

func (r *Reckoner) routeLine(id plan.RouteID) geom.Polyline {
	var line geom.Polyline
	for _, corner := range r.plan.RoutePoints.Under(plan.Key(id)) {
		line = append(line, geom.Pt(corner.X, corner.Y))
	}
	return line
}

// follows reports whether both ends and the middle of a stretch of a way lie along a route.
func follows(way geom.Polyline, span Span, route geom.Polyline) bool {
	if len(route) < 2 {
		return false
	}
	for _, at := range []float64{span.From, (span.From + span.To) / 2, span.To} {
		if point, _ := way.At(at); route.Distance(point) > alongRoute {
			return false
		}
	}
	return true
}

// lowest is the least height of a link along a stretch of its way; between two points it changes evenly.
func (r *Reckoner) lowest(link plan.Link, span Span) float64 {
	from, to := r.end(link.From), r.end(link.To)
	at, height, along := from.at, from.height, 0.0
	least, some := 0.0, false
	look := func(low float64) {
		if !some || low < least {
			least, some = low, true
		}
	}
	hop := func(next geom.Point, nextHeight float64) {
		length := at.Distance(next)
		first, last := max(span.From, along), min(span.To, along+length)
		for _, place := range []float64{first, last} {
			if first > last {
				break
			}
			share := 0.0
			if length > 0 {
				share = (place - along) / length
			}
			look(height + share*(nextHeight-height))
		}
		at, height, along = next, nextHeight, along+length
	}
	for _, point := range r.plan.PointsOf(link.ID) {
		hop(point.At(), r.height(point.Level))
	}
	hop(to.at, to.height)
	return least
}
