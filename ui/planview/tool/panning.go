package tool

import (
	"math"

	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/model/plan"
)

// panning shifts the view with the pointer.
type panning struct {
	from geom.Point
	view picture.View
}

func (g *panning) move(h *Hand, at geom.Point) { h.board.SetView(g.view.Panned(at.Sub(g.from))) }

func (g *panning) release(h *Hand, at geom.Point) error {
	g.move(h, at)
	return nil
}

func (g *panning) cancel(h *Hand) { h.board.SetView(g.view) }

// zoomBase is the factor of one unit of scrolling; a notch of a wheel is 25 units, which zooms by an eighth.
const zoomBase = 1.00472

// mostScroll bounds one event: fast wheels send them multiplied.
const mostScroll = 200.0

// Scroll zooms about a point of the view.
func (h *Hand) Scroll(amount float64, at geom.Point) {
	amount = max(-mostScroll, min(mostScroll, amount))
	h.board.SetView(h.board.View().Zoomed(math.Pow(zoomBase, amount), at))
}

// Zoom scales the view about its middle.
func (h *Hand) Zoom(factor float64) {
	view := h.board.View()
	h.board.SetView(view.Zoomed(factor, geom.Point{X: view.Width / 2, Y: view.Height / 2}))
}

// banding draws a box and selects what lies wholly inside; a press without a drag clears the selection.
type banding struct {
	from    geom.Point
	extend  bool
	before  []plan.Ref
	started bool
}

func (g *banding) move(h *Hand, at geom.Point) {
	g.started = g.started || at.Distance(g.from) > threshold
	if !g.started {
		return
	}
	h.band, h.banding = geom.BoxOf(g.from, at), true
}

func (g *banding) release(h *Hand, at geom.Point) error {
	g.move(h, at)
	h.banding = false
	var refs []plan.Ref
	if g.extend {
		refs = g.before
	}
	if g.started {
		refs = append(refs, h.board.Within(h.band)...)
	}
	h.desk.Select(refs...)
	return nil
}

func (g *banding) cancel(h *Hand) { h.banding = false }
