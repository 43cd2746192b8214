package tool

import (
	"fmt"
	"strconv"
	"strings"

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
	for _, point := range p.PointsOf(id) {
		g.drag.Way = append(g.drag.Way, point.At())
	}
	if order == 0 {
		g.index, g.fresh = stretchAt(p, link, g.drag.Way, h.board.View().Metres(at)), true
	}
	return g
}

// stretchAt returns the index that a new way point at a place would have: that of the nearest stretch of the way.
func stretchAt(p *plan.Plan, link plan.Link, way []geom.Point, at geom.Point) int {
	from, _ := p.Device(link.From)
	to, _ := p.Device(link.To)
	whole := append(append([]geom.Point{from.At()}, way...), to.At())
	best, index := -1.0, 0
	for i := 0; i+1 < len(whole); i++ {
		away := geom.Line{A: whole[i], B: whole[i+1]}.Distance(at)
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
			g.drag.Way = append(g.drag.Way[:g.index:g.index], append([]geom.Point{{}}, g.drag.Way[g.index:]...)...)
		}
	}
	way := append([]geom.Point(nil), g.drag.Way...)
	way[g.index] = h.Snapped(h.board.View().Metres(at)).RoundMM()
	g.drag.Way = way
	link, points := g.link, make([]plan.LinkPoint, len(way))
	link.Way = "drawn"
	for i, each := range way {
		points[i] = plan.LinkPoint{Link: link.ID, Order: i + 1, X: each.X, Y: each.Y}
	}
	g.drag.Budget = h.desk.Assessment().Reckoner().Sketch(budget.Sketch{Link: link, Points: points})
}

func (g *bending) release(h *Hand, at geom.Point) error {
	g.move(h, at)
	if !g.started {
		if !g.fresh {
			h.way = wayRef(g.link.ID, g.index+1)
		}
		return nil
	}
	h.way = wayRef(g.link.ID, g.index+1)
	return h.desk.Do("Draw way of "+g.link.Name, func(e *plan.Edit) error { return e.Draw(g.link.ID, g.drag.Way) })
}

func (g *bending) cancel(*Hand) {}

func wayRef(id plan.LinkID, order int) plan.Ref {
	return plan.Ref{Table: "links", Key: plan.Key(id), Part: "way " + strconv.Itoa(order)}
}

// wayOrder returns the order of the way point that a reference's part names, 0 for none.
func wayOrder(ref plan.Ref) int {
	number, found := strings.CutPrefix(ref.Part, "way ")
	if !found {
		return 0
	}
	order, _ := strconv.Atoi(number)
	return order
}

// WayPoint returns the way point that keys work on, if its link is selected.
func (h *Hand) WayPoint() (plan.Ref, bool) {
	points := len(h.desk.Plan().PointsOf(plan.LinkID(h.way.Key)))
	order := wayOrder(h.way)
	return h.way, order > 0 && order <= points && h.desk.Selected(h.way)
}

// changeWay changes the way of a link by one named edit.
func (h *Hand) changeWay(id plan.LinkID, name string, change func(way []geom.Point) []geom.Point) error {
	link, found := h.desk.Plan().Link(id)
	if !found {
		return nil
	}
	var way []geom.Point
	for _, point := range h.desk.Plan().PointsOf(id) {
		way = append(way, point.At())
	}
	way = change(way)
	return h.desk.DoAgain(fmt.Sprintf("%s of %s", name, link.Name), func(e *plan.Edit) error { return e.Draw(id, way) })
}

// AddWayPoint puts a way point in the middle of the longest stretch of the selected link, and makes it the one that
// keys work on.
func (h *Hand) AddWayPoint() error {
	id, found := h.selectedLink()
	if !found {
		return nil
	}
	p := h.desk.Plan()
	link, _ := p.Link(id)
	from, _ := p.Device(link.From)
	to, _ := p.Device(link.To)
	index := 0
	err := h.changeWay(id, "Add way point", func(way []geom.Point) []geom.Point {
		whole := append(append([]geom.Point{from.At()}, way...), to.At())
		longest := -1.0
		for i := 0; i+1 < len(whole); i++ {
			if length := whole[i].Distance(whole[i+1]); length > longest {
				longest, index = length, i
			}
		}
		middle := whole[index].Between(whole[index+1], 0.5).RoundMM()
		return append(way[:index:index], append([]geom.Point{middle}, way[index:]...)...)
	})
	if err == nil {
		h.way = wayRef(id, index+1)
	}
	return err
}

// RemoveWayPoint takes away the way point that keys work on, and tells whether there was one.
func (h *Hand) RemoveWayPoint() (bool, error) {
	ref, found := h.WayPoint()
	if !found {
		return false, nil
	}
	at := wayOrder(ref) - 1
	err := h.changeWay(plan.LinkID(ref.Key), "Remove way point", func(way []geom.Point) []geom.Point {
		return append(way[:at:at], way[at+1:]...)
	})
	h.way = plan.Ref{}
	return true, err
}

func (h *Hand) selectedLink() (plan.LinkID, bool) {
	selection := h.desk.Selection()
	if len(selection) != 1 || selection[0].Table != "links" {
		return "", false
	}
	return plan.LinkID(selection[0].Key), true
}
