package tool

import (
	"math"

	"stageloom/model/geom"
	"stageloom/model/plan"
)

// edgeReach is how near in points a pointer must come to the edge of an outline.
const edgeReach = 7.0

// Edges are the edges of an outline that a pointer holds.
type Edges struct{ Left, Right, Top, Bottom bool }

// Any reports whether an edge is held.
func (e Edges) Any() bool { return e.Left || e.Right || e.Top || e.Bottom }

// Across reports whether only an edge at the side is held.
func (e Edges) Across() bool { return (e.Left || e.Right) && !e.Top && !e.Bottom }

// OutlineDrag is an outline on the move, in metres as it would be.
type OutlineDrag struct {
	Position plan.PositionID
	Outline  geom.Box
}

// Stretching returns the outline being stretched, or nil.
func (h *Hand) Stretching() *OutlineDrag {
	if g, stretching := h.gesture.(*stretching); stretching && g.started {
		return &g.drag
	}
	return nil
}

// EdgesAt returns the edges under a point of the view of the one position that is selected.
func (h *Hand) EdgesAt(at geom.Point) (edges Edges) {
	if selection := h.desk.Selection(); len(selection) == 1 && selection[0].Table == plan.PositionsTable {
		edges = h.edgesOf(selection[0], at)
	}
	return edges
}

// edgesOf measures from the outline on the ground, wherever the box that names the position lies.
func (h *Hand) edgesOf(ref plan.Ref, at geom.Point) (edges Edges) {
	position, found := h.desk.Plan().Positions.Get(ref.Key)
	outline, has := position.Outline()
	if !found || !has {
		return edges
	}
	view := h.board.View()
	box := geom.BoxOf(view.Point(outline.Min), view.Point(outline.Max))
	if !box.Inset(-edgeReach).Contains(at) {
		return edges
	}
	near := func(a, b float64) bool { return math.Abs(a-b) <= edgeReach }
	return Edges{Left: near(at.X, box.Min.X), Right: near(at.X, box.Max.X), Top: near(at.Y, box.Min.Y), Bottom: near(at.Y, box.Max.Y)}
}

// stretching drags edges of a position's outline; the devices that it covers then belong to it.
type stretching struct {
	from    geom.Point
	started bool
	edges   Edges
	old     geom.Box
	drag    OutlineDrag
}

// newStretching takes hold of the edges of a position under the pointer, or returns nil.
func newStretching(h *Hand, at geom.Point, id plan.PositionID) gesture {
	edges := h.edgesOf(plan.Ref{Table: plan.PositionsTable, Key: plan.Key(id)}, at)
	position, found := h.desk.Plan().Positions.Get(plan.Key(id))
	if !edges.Any() || !found {
		return nil
	}
	outline := geom.BoxAround(position.At(), position.Width, position.Depth)
	return &stretching{from: at, edges: edges, old: outline, drag: OutlineDrag{Position: id, Outline: outline}}
}

// leastOutline is how small in metres an outline can be dragged.
const leastOutline = 0.5

func (g *stretching) move(h *Hand, at geom.Point) {
	g.started = g.started || at.Distance(g.from) > threshold
	if !g.started {
		return
	}
	to, box := h.Snapped(h.board.View().Metres(at)).RoundMM(), g.old
	if g.edges.Left {
		box.Min.X = min(to.X, box.Max.X-leastOutline)
	}
	if g.edges.Right {
		box.Max.X = max(to.X, box.Min.X+leastOutline)
	}
	if g.edges.Bottom {
		box.Min.Y = min(to.Y, box.Max.Y-leastOutline)
	}
	if g.edges.Top {
		box.Max.Y = max(to.Y, box.Min.Y+leastOutline)
	}
	g.drag.Outline = box
}

func (g *stretching) release(h *Hand, at geom.Point) error {
	g.move(h, at)
	if !g.started {
		return nil
	}
	position, _ := h.desk.Plan().Positions.Get(plan.Key(g.drag.Position))
	return h.desk.Do("Stretch "+position.Name, func(e *plan.Edit) error {
		return e.Stretch(g.drag.Position, g.drag.Outline)
	})
}

func (*stretching) cancel(*Hand) {}
