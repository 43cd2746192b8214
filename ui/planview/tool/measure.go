package tool

import (
	"math"

	"stageloom/model/geom"
)

// Measured is a length between two points of the site, in metres.
type Measured struct{ From, To geom.Point }

// Measure makes the next press measure between two points of the site until it is released.
func (h *Hand) Measure() { h.measure = true }

// Measuring returns what is measured now, or was measured last until something else happens; nil for nothing.
func (h *Hand) Measuring() *Measured { return h.measured }

// MeasureNext reports whether the next press measures.
func (h *Hand) MeasureNext() bool { return h.measure }

// measuring draws a line between two points and keeps it until the next press.
type measuring struct{}

func (g *measuring) move(h *Hand, at geom.Point) {
	h.measured = &Measured{h.measured.From, h.Snapped(h.board.View().Metres(at))}
}

func (g *measuring) release(h *Hand, at geom.Point) error {
	g.move(h, at)
	return nil
}

func (g *measuring) cancel(h *Hand) { h.measured = nil }

// SetSnap sets the step in metres that places snap to; 0 is none.
func (h *Hand) SetSnap(step float64) { h.snap = step }

// Snapped is the nearest place that places snap to.
func (h *Hand) Snapped(at geom.Point) geom.Point {
	if h.snap <= 0 {
		return at
	}
	return geom.Point{X: math.Round(at.X/h.snap) * h.snap, Y: math.Round(at.Y/h.snap) * h.snap}.RoundMM()
}
