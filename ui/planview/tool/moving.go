package tool

import (
	"fmt"

	"stageloom/model/budget"
	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/model/plan"
)

// moving drags the selection; links are reckoned for each place on the way, the plan is not touched before the
// release.
type moving struct {
	from    geom.Point
	ref     plan.Ref
	moving  plan.Moving
	narrow  bool // a press without a drag narrows the selection to ref
	preview *budget.Preview
}

func (g *moving) move(h *Hand, at geom.Point) {
	if g.preview == nil {
		if at.Distance(g.from) <= threshold {
			return
		}
		g.preview = h.desk.Assessment().Reckoner().Preview(g.moving)
	}
	// Always from the press on, never summed up, so that a place is exactly where the pointer is.
	away := at.Sub(g.from).Scale(1 / h.board.View().Scale)
	by := h.insideBy(g, at, h.snappedBy(g.ref, geom.Point{X: away.X, Y: -away.Y})).RoundMM()
	h.drag = &Drag{Moving: g.moving, By: by, Budgets: g.preview.At(by)}
}

func (g *moving) release(h *Hand, at geom.Point) error {
	g.move(h, at)
	if h.drag == nil {
		if g.narrow {
			h.desk.Select(g.ref)
		}
		return nil
	}
	drag := h.drag
	h.drag = nil
	return h.desk.Do("Move "+h.nameOf(drag.Moving)+" by "+h.length(drag.By.Length()), func(e *plan.Edit) error {
		e.Move(drag.Moving, drag.By)
		return nil
	})
}

func (g *moving) cancel(h *Hand) { h.drag = nil }

// nameOf says what moves, for the history.
func (h *Hand) nameOf(m plan.Moving) string {
	p := h.desk.Plan()
	switch {
	case len(m.Positions) == 1:
		for id := range m.Positions {
			position, _ := p.Positions.Get(plan.Key(id))
			return position.Name
		}
	case len(m.Positions) == 0 && len(m.Devices) == 1:
		for id := range m.Devices {
			device, _ := p.Device(id)
			return device.Name
		}
	case len(m.Positions) > 1:
		return fmt.Sprintf("%d positions", len(m.Positions))
	}
	return fmt.Sprintf("%d devices", len(m.Devices))
}

// insideBy bends a vector so that a device held over a position's box of rows lands within the outline of that position, which
// lies under the box and may be smaller. One that stood outside its own by hand is not drawn in by it.
func (h *Hand) insideBy(g *moving, at, by geom.Point) geom.Point {
	if len(g.moving.Devices) != 1 || len(g.moving.Positions) > 0 || g.ref.Table != plan.DevicesTable {
		return by
	}
	device, _ := h.desk.Plan().Device(plan.DeviceID(g.ref.Key))
	position, outline, found := h.board.PositionAt(at)
	if !found || !g.moving.Devices[device.ID] || position == device.Position && !outline.Contains(device.At()) {
		return by
	}
	return picture.Within(device.At().Add(by), outline).Sub(device.At())
}

// snappedBy bends a vector so that what the pointer holds lands where places snap to.
func (h *Hand) snappedBy(ref plan.Ref, by geom.Point) geom.Point {
	at := geom.Point{}
	switch ref.Table {
	case plan.DevicesTable:
		device, _ := h.desk.Plan().Device(plan.DeviceID(ref.Key))
		at = device.At()
	case plan.PositionsTable:
		position, _ := h.desk.Plan().Positions.Get(ref.Key)
		at = position.At()
	}
	return h.Snapped(at.Add(by)).Sub(at)
}

// Nudge moves the selection by metres; presses in a row are one step of the history.
func (h *Hand) Nudge(by geom.Point) error {
	if h.gesture != nil {
		return nil
	}
	if ref, found := h.WayPoint(); found {
		at := wayOrder(ref) - 1
		return h.changeWay(ref, "Nudge way", func(way []geom.Point) []geom.Point {
			way[at] = way[at].Add(by)
			return way
		})
	}
	m := h.desk.SelectedMoving()
	switch {
	case m.Empty():
		return nil
	case len(m.Positions) == 0 && allListed(h.desk.Plan(), m):
		return fmt.Errorf("%w: what has no place on the ground is not nudged; drag it to its place, or type how far right and up it stands", plan.ErrRefused)
	}
	return h.desk.DoAgain("Nudge "+h.nameOf(m), func(e *plan.Edit) error {
		e.Move(m, by)
		return nil
	})
}

// allListed reports whether nothing that moves has a place yet.
func allListed(p *plan.Plan, m plan.Moving) bool {
	for id := range m.Devices {
		if device, _ := p.Device(id); !device.Unplaced {
			return false
		}
	}
	return true
}
