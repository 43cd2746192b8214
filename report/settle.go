package report

import (
	"slices"

	"stageloom/model/geom"
)

// settled slides a window, as little as it can, so that it cuts through as few boxes as possible and still holds all that
// it held whole.
func settled(window geom.Box, boxes []geom.Box) geom.Box {
	held := geom.EmptyBox()
	lefts, tops := []float64{window.Min.X}, []float64{window.Min.Y}
	for _, box := range boxes {
		if window.ContainsBox(box) {
			held = held.Union(box)
		} else if window.Inset(-2 * partBorder).Overlaps(box) {
			lefts = append(lefts, box.Min.X, box.Max.X-window.Width(), box.Max.X+2*partBorder, box.Min.X-2*partBorder-window.Width())
			tops = append(tops, box.Min.Y, box.Max.Y-window.Height(), box.Max.Y+2*partBorder, box.Min.Y-2*partBorder-window.Height())
		}
	}
	lefts = holding(lefts, func(left float64) bool {
		at := window.Shift(geom.Point{X: left - window.Min.X})
		return held.Empty() || at.Min.X <= held.Min.X && at.Max.X >= held.Max.X
	})
	tops = holding(tops, func(top float64) bool {
		at := window.Shift(geom.Point{Y: top - window.Min.Y})
		return held.Empty() || at.Min.Y <= held.Min.Y && at.Max.Y >= held.Max.Y
	})
	boxes = reached(boxes, window, lefts, tops, held)
	best, fewest, nearest := window, cuts(window, boxes), 0.0
	for _, left := range lefts {
		for _, top := range tops {
			at := window.Shift(geom.Point{X: left - window.Min.X, Y: top - window.Min.Y})
			n, away := cuts(at, boxes), at.Centre().Distance(window.Centre())
			if n < fewest || n == fewest && away < nearest {
				best, fewest, nearest = at, n, away
			}
		}
	}
	return best
}

// holding keeps the edges, each once, at which a window holds what it has to hold.
func holding(edges []float64, holds func(float64) bool) (kept []float64) {
	seen := map[float64]bool{}
	for _, edge := range edges {
		if !seen[edge] && holds(edge) {
			kept = append(kept, edge)
		}
		seen[edge] = true
	}
	return kept
}

// reached keeps the boxes that the sheet of a window may cut at one of these edges: none that it always holds whole, none
// that it never comes to.
func reached(boxes []geom.Box, window geom.Box, lefts, tops []float64, held geom.Box) (near []geom.Box) {
	ground := geom.Box{
		Min: geom.Point{X: slices.Min(lefts), Y: slices.Min(tops)},
		Max: geom.Point{X: slices.Max(lefts) + window.Width(), Y: slices.Max(tops) + window.Height()},
	}.Inset(-partBorder - 1)
	for _, box := range boxes {
		if ground.Overlaps(box) && !(!held.Empty() && held.ContainsBox(box)) {
			near = append(near, box)
		}
	}
	return near
}

// cuts counts the boxes that the sheet of a window shows in part.
func cuts(window geom.Box, boxes []geom.Box) int {
	n, sheet := 0, window.Inset(-partBorder)
	for _, box := range boxes {
		if sheet.Overlaps(box) && !sheet.ContainsBox(box) {
			n++
		}
	}
	return n
}
