package tool

import (
	"slices"

	"stageloom/model/budget"
	"stageloom/model/geom"
	"stageloom/model/plan"
)

// WayDrag is a way point on the move: the link's way as it would be, and its budget then.
type WayDrag struct {
	Link   plan.LinkID
	Way    []geom.Point
	Budget budget.Budget
}

// Bending returns the way being drawn, or nil.
func (h *Hand) Bending() *WayDrag {
	if g, bending := h.gesture.(*bending); bending && g.started {
		return &g.drag
	}
	return nil
}

// bending drags a way point of a link, or pulls a new one out of its line.
type bending struct {
	from    geom.Point
	started bool
	link    plan.Link
	index   int
	fresh   bool
	drag    WayDrag
}

// newBending takes hold of way point order of a link; order 0 pulls a new one out where the pointer is.
func newBending(h *Hand, at geom.Point, id plan.LinkID, order int) *bending {
	p := h.desk.Plan()
	link, _ := p.Link(id)
	g := &bending{from: at, link: link, index: order - 1, drag: WayDrag{Link: id}}
	course := courseOf(p, linkRef(id))
	g.drag.Way = course.way
	if order == 0 {
		g.index, g.fresh = stretchAt(course.whole(), h.board.View().Metres(at)), true
	}
	return g
}

// stretchAt returns the index that a new way point at a place would have: that of the nearest stretch of a whole way.
func stretchAt(whole []geom.Point, at geom.Point) int {
	best, index := -1.0, 0
	for i := 0; i+1 < len(whole); i++ {
		away := geom.Stretch{A: whole[i], B: whole[i+1]}.Distance(at)
		if best < 0 || away < best {
			best, index = away, i
		}
	}
	return index
}

func (g *bending) move(h *Hand, at geom.Point) {
	if !g.started {
		if at.Distance(g.from) <= threshold {
			return
		}
		g.started = true
		if g.fresh {
			g.drag.Way = slices.Insert(slices.Clone(g.drag.Way), g.index, geom.Point{})
		}
	}
	way := append([]geom.Point(nil), g.drag.Way...)
	way[g.index] = h.Snapped(h.board.View().Metres(at)).RoundMM()
	g.drag.Way = way
	g.drag.Budget = h.desk.Assessment().Reckoner().Sketch(sketchAlong(g.link, way))
}

func (g *bending) release(h *Hand, at geom.Point) error {
	g.move(h, at)
	if !g.started {
		if !g.fresh {
			h.way = wayRef(linkRef(g.link.ID), g.index+1)
		}
		return nil
	}
	h.way = wayRef(linkRef(g.link.ID), g.index+1)
	return h.desk.Do("Draw way of "+g.link.Name, func(e *plan.Edit) error { return e.Draw(g.link.ID, g.drag.Way) })
}

func (g *bending) cancel(*Hand) {}
