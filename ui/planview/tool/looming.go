package tool

import (
	"slices"

	"stageloom/model/budget"
	"stageloom/model/geom"
	"stageloom/model/plan"
)

// LoomDrag is a corner of a loom's route on the move: the route and the ways of its links as they would be, with their
// budgets then, in the order of Links.
type LoomDrag struct {
	Loom    plan.LoomID
	Route   []geom.Point
	Links   []plan.Link
	Ways    map[plan.LinkID][]geom.Point
	Budgets []budget.Budget
}

// Looming returns the loom whose route is being drawn, or nil.
func (h *Hand) Looming() *LoomDrag {
	if g, looming := h.gesture.(*looming); looming && g.started {
		return &g.drag
	}
	return nil
}

// looming drags a corner of a loom's route, or pulls a new one out of it; all its links follow.
type looming struct {
	from    geom.Point
	started bool
	course  course
	index   int
	fresh   bool
	drag    LoomDrag
}

// newLooming takes hold of corner order of a loom's route; order 0 pulls a new one out where the pointer is.
func newLooming(h *Hand, at geom.Point, id plan.LoomID, order int) *looming {
	p := h.desk.Plan()
	g := &looming{from: at, course: courseOf(p, loomRef(id)), index: order - 1, drag: LoomDrag{Loom: id, Links: p.LoomLinks(id)}}
	g.drag.Route = g.course.way
	if order == 0 {
		g.index, g.fresh = stretchAt(g.course.whole(), h.board.View().Metres(at)), true
	}
	return g
}

func (g *looming) move(h *Hand, at geom.Point) {
	if !g.started && at.Distance(g.from) <= threshold {
		return
	}
	g.started = true
	place := h.Snapped(h.board.View().Metres(at)).RoundMM()
	g.drag.Route = slices.Clone(g.course.way)
	if g.fresh {
		g.drag.Route = slices.Insert(g.drag.Route, g.index, place)
	}
	g.drag.Route[g.index] = place
	g.drag.Ways = h.desk.Plan().LoomWays(g.drag.Loom, g.drag.Route)
	reckoner := h.desk.Assessment().Reckoner()
	g.drag.Budgets = g.drag.Budgets[:0]
	for _, link := range g.drag.Links {
		g.drag.Budgets = append(g.drag.Budgets, reckoner.Sketch(sketchAlong(link, g.drag.Ways[link.ID])))
	}
}

// sketchAlong is a link drawn along a way.
func sketchAlong(link plan.Link, way []geom.Point) budget.Sketch {
	link.Way = "drawn"
	if len(way) == 0 {
		link.Way = "straight"
	}
	points := make([]plan.LinkPoint, len(way))
	for i, each := range way {
		points[i] = plan.LinkPoint{Link: link.ID, Order: i + 1, X: each.X, Y: each.Y}
	}
	return budget.Sketch{Link: link, Points: points}
}

func (g *looming) release(h *Hand, at geom.Point) error {
	g.move(h, at)
	if g.started || !g.fresh {
		h.way = wayRef(g.course.ref, g.index+1)
	}
	if !g.started {
		return nil
	}
	return h.desk.Do("Draw route of "+g.course.name, func(e *plan.Edit) error { return e.DrawLoom(g.drag.Loom, g.drag.Route) })
}

func (g *looming) cancel(*Hand) {}
