package tool

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"stageloom/model/geom"
	"stageloom/model/plan"
)

// course is what has way points: a link's way or a loom's route, between the places of two devices.
type course struct {
	ref      plan.Ref
	name     string
	from, to geom.Point
	way      []geom.Point
	found    bool
}

// courseOf reads the course of a link or a loom.
func courseOf(p *plan.Plan, ref plan.Ref) course {
	c := course{ref: plan.Ref{Table: ref.Table, Key: ref.Key}}
	var from, to plan.DeviceID
	switch ref.Table {
	case plan.LinksTable:
		link, found := p.Link(plan.LinkID(ref.Key))
		c.name, c.found, from, to = link.Name, found, link.From, link.To
		for _, point := range p.PointsOf(link.ID) {
			c.way = append(c.way, point.At())
		}
	case plan.LoomsTable:
		loom, found := p.Looms.Get(ref.Key)
		c.name, c.found, c.way = loom.Name, found, p.LoomRoute(loom.ID)
		from, to = p.LoomEnds(loom.ID)
	}
	near, _ := p.Device(from)
	far, _ := p.Device(to)
	c.from, c.to = near.At(), far.At()
	return c
}

// whole is the way with its two ends.
func (c course) whole() []geom.Point {
	return append(append([]geom.Point{c.from}, c.way...), c.to)
}

// draw sets the course's way points.
func (c course) draw(e *plan.Edit, way []geom.Point) error {
	if c.ref.Table == plan.LoomsTable {
		return e.DrawLoom(plan.LoomID(c.ref.Key), way)
	}
	return e.Draw(plan.LinkID(c.ref.Key), way)
}

func linkRef(id plan.LinkID) plan.Ref { return plan.Ref{Table: plan.LinksTable, Key: plan.Key(id)} }

func loomRef(id plan.LoomID) plan.Ref { return plan.Ref{Table: plan.LoomsTable, Key: plan.Key(id)} }

func wayRef(of plan.Ref, order int) plan.Ref {
	of.Part = "way " + strconv.Itoa(order)
	return of
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

// WayPoint returns the way point that keys work on, if its link or loom is selected.
func (h *Hand) WayPoint() (plan.Ref, bool) {
	order := wayOrder(h.way)
	if order == 0 {
		return h.way, false
	}
	return h.way, order <= len(courseOf(h.desk.Plan(), h.way).way) && h.selectedCourse(h.way)
}

// WayPlace is where the way point that keys work on lies on the site.
func (h *Hand) WayPlace() (geom.Point, bool) {
	ref, found := h.WayPoint()
	if !found {
		return geom.Point{}, false
	}
	return courseOf(h.desk.Plan(), ref).way[wayOrder(ref)-1], true
}

// selectedCourse reports whether the link or loom of a reference is selected.
func (h *Hand) selectedCourse(ref plan.Ref) bool {
	return h.desk.Selected(plan.Ref{Table: ref.Table, Key: ref.Key}) || h.desk.Selected(ref)
}

// changeWay changes the way points of a link or a loom by one named edit.
func (h *Hand) changeWay(ref plan.Ref, name string, change func(way []geom.Point) []geom.Point) error {
	c := courseOf(h.desk.Plan(), ref)
	if !c.found {
		return nil
	}
	way := change(c.way)
	return h.desk.DoAgain(fmt.Sprintf("%s of %s", name, c.name), func(e *plan.Edit) error { return c.draw(e, way) })
}

// AddWayPoint puts a way point in the middle of the longest stretch of the selected link or loom, and makes it the one
// that keys work on.
func (h *Hand) AddWayPoint() error {
	selection := h.desk.Selection()
	if len(selection) != 1 {
		return nil
	}
	c := courseOf(h.desk.Plan(), selection[0])
	if !c.found {
		return nil
	}
	whole, index, longest := c.whole(), 0, -1.0
	for i := 0; i+1 < len(whole); i++ {
		if length := whole[i].Distance(whole[i+1]); length > longest {
			longest, index = length, i
		}
	}
	err := h.changeWay(c.ref, "Add way point", func(way []geom.Point) []geom.Point {
		return slices.Insert(way, index, whole[index].Between(whole[index+1], 0.5).RoundMM())
	})
	if err == nil {
		h.way = wayRef(c.ref, index+1)
	}
	return err
}

// RemoveWayPoint takes away the way point that keys work on, and reports whether there was one.
func (h *Hand) RemoveWayPoint() (bool, error) {
	ref, found := h.WayPoint()
	if !found {
		return false, nil
	}
	at := wayOrder(ref) - 1
	err := h.changeWay(ref, "Remove way point", func(way []geom.Point) []geom.Point { return slices.Delete(way, at, at+1) })
	h.way = plan.Ref{}
	return true, err
}

// NextWayPoint makes the next way point of the selected link or loom, or with −1 the one before, that which keys work
// on, round and round; it reports whether there is one.
func (h *Hand) NextWayPoint(by int) bool {
	selection := h.desk.Selection()
	if len(selection) != 1 {
		return false
	}
	c := courseOf(h.desk.Plan(), selection[0])
	if len(c.way) == 0 {
		return false
	}
	at := -1
	if ref, found := h.WayPoint(); found && ref.Key == c.ref.Key && ref.Table == c.ref.Table {
		at = wayOrder(ref) - 1
	} else if by < 0 {
		at = 0
	}
	h.way = wayRef(c.ref, (at+by+len(c.way))%len(c.way)+1)
	return true
}

// SelectLoom selects the loom of the selected link, or the links of the selected loom, and reports whether there are any.
func (h *Hand) SelectLoom() bool {
	selection, p := h.desk.Selection(), h.desk.Plan()
	if len(selection) == 0 {
		return false
	}
	if selection[0].Table == plan.LoomsTable {
		var links []plan.Ref
		for _, link := range p.LoomLinks(plan.LoomID(selection[0].Key)) {
			links = append(links, plan.RefOf(link))
		}
		h.desk.Select(links...)
		return true
	}
	link, _ := p.Link(plan.LinkID(selection[0].Key))
	if selection[0].Table != plan.LinksTable || link.Loom == "" {
		return false
	}
	h.desk.Select(loomRef(link.Loom))
	return true
}
