package strip

import (
	"stageloom/model/budget"
	"stageloom/ui/look"
	"stageloom/ui/raster"
)

// CableAt returns the order of the link's own cable under a point, and whether there is one.
func (l *Layout) CableAt(at raster.Point) (order int, some bool) {
	index, some := l.PartAt(at)
	if !some || !l.Parts[index].own() {
		return 0, false
	}
	return l.Parts[index].Order, true
}

// own tells whether the part is one of the link's own cables, which can be taken hold of.
func (p Part) own() bool { return p.What == budget.Cable && !p.Assumed && p.Order > 0 }

// cell is the box of the cable of an order.
func (l *Layout) cell(order int) (raster.Box, bool) {
	for i, part := range l.Parts {
		if part.own() && part.Order == order && i < len(l.Cells) {
			return l.Cells[i], true
		}
	}
	return raster.Box{}, false
}

// Orders are those of the link's own cables, from the near end on.
func (l *Layout) Orders() (orders []int) {
	for _, part := range l.Parts {
		if part.own() {
			orders = append(orders, part.Order)
		}
	}
	return orders
}

// PlaceAt is where a cable dropped at x goes: how many of the other cables have their middle before it. mark is the
// place of the line that shows it.
func (l *Layout) PlaceAt(order int, x float64) (place int, mark float64) {
	mark = l.bar.Left
	for i, part := range l.Parts {
		if !part.own() || part.Order == order || i >= len(l.Cells) {
			continue
		}
		if cell := l.Cells[i]; cell.Centre().X < x {
			place, mark = place+1, cell.Right
		}
	}
	return place, mark
}

// drawHold marks the cable that is held, and where it would go while it is dragged.
func (l *Layout) drawHold(pen raster.Pen, p look.Palette, h hold) {
	cell, found := l.cell(h.order)
	if !found {
		return
	}
	pen.RoundBox(cell.Outset(1.5), 4, p.Panel, raster.Stroke{})
	veiled := p.Selection
	veiled.A = 0x38
	pen.RoundBox(cell.Outset(1.5), 4, veiled, raster.Stroke{Width: 2, Colour: p.Selection})
	if h.dragging {
		line := []raster.Point{{X: h.mark, Y: l.bar.Top - 8}, {X: h.mark, Y: l.bar.Bottom + 8}}
		pen.Polyline(line, raster.Stroke{Width: 3, Colour: p.Selection})
	}
}

// hold is the cable that is chosen, and where it would go while it is dragged.
type hold struct {
	order    int
	dragging bool
	place    int
	mark     float64
}
