package strip

import (
	"strings"

	"stageloom/model/quantity"
	"stageloom/model/raster"
	"stageloom/ui/look"
)

// drawHold marks the cable that is chosen, and what a release would do.
func (l *Layout) drawHold(pen raster.Pen, p look.Palette, h Hold) {
	if _, cell, found := l.part(h.Order); found {
		l.halo(pen, p, cell)
	}
	switch h.Change.Doing {
	case Move:
		l.drawPlace(pen, p, l.mark(h.Order, h.Change.Place))
	case Insert:
		l.drawPlace(pen, p, l.mark(0, h.Change.Place))
	case Replace:
		if _, cell, found := l.part(h.Change.Order); found {
			l.halo(pen, p, cell)
		}
	case Join:
		_, first, _ := l.part(h.Change.Order)
		_, second, _ := l.part(h.Change.Order + 1)
		l.halo(pen, p, raster.Box{Left: first.Left, Top: first.Top, Right: second.Right, Bottom: second.Bottom})
	}
	l.drawKnife(pen, p, h)
}

// halo draws a box round cables that are chosen or aimed at.
func (l *Layout) halo(pen raster.Pen, p look.Palette, cell raster.Box) {
	pen.RoundBox(cell.Outset(1.5), 4, p.Panel, raster.Stroke{})
	veiled := p.Selection
	veiled.A = 0x38
	pen.RoundBox(cell.Outset(1.5), 4, veiled, raster.Stroke{Width: 2, Colour: p.Selection})
}

// drawPlace draws the line between two cables where one would go.
func (l *Layout) drawPlace(pen raster.Pen, p look.Palette, x float64) {
	top, bottom := l.bar.Top-8, l.bar.Bottom+8
	pen.Polyline([]raster.Point{{X: x, Y: top}, {X: x, Y: bottom}}, raster.Stroke{Width: 3, Colour: p.Selection})
	pen.Polygon([]raster.Point{{X: x - 6, Y: top - 6}, {X: x + 6, Y: top - 6}, {X: x, Y: top + 3}}, p.Selection, raster.Stroke{})
}

// drawKnife draws the mark where the chosen cable would be cut, and the two lengths while it is moved.
func (l *Layout) drawKnife(pen raster.Pen, p look.Palette, h Hold) {
	mark, found := l.knife(h)
	if !found || h.Dragging && h.Grip != Knife {
		return
	}
	_, cell, _ := l.part(h.Order)
	x, y := mark.Centre().X, cell.Top-6
	if h.Grip == Knife && h.Dragging || h.Cutting {
		pen.Polyline([]raster.Point{{X: x, Y: y}, {X: x, Y: cell.Bottom + 4}}, raster.Stroke{Width: 2, Colour: p.Selection, Dash: []float64{4, 3}})
	}
	pen.Polygon([]raster.Point{{X: x - 5, Y: y - 5}, {X: x + 5, Y: y - 5}, {X: x, Y: y + 5}}, p.Selection, raster.Stroke{})
}

// Told is what a change amounts to before it is made, beside the words about the link: the lengths that a cut makes.
func (l *Layout) Told(c Change) string {
	part, _, found := l.part(c.Order)
	if c.Doing != Cut || !found {
		return ""
	}
	length := func(metres float64) string {
		return strings.Replace(quantity.PrintLength(metres, l.System, 1), ".0 ", " ", 1)
	}
	return "cut into " + length(c.Metres) + " and " + length(part.Length-c.Metres)
}
