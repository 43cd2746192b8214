package report

import (
	"cmp"
	"math"
	"slices"

	"stageloom/model/geom"
)

// cover lays as few windows of one size as it finds over boxes so that each box lies in one whole. A box larger than a
// window has one to itself. Windows come in the order in which one reads.
func cover(boxes []geom.Box, width, height float64) []geom.Box {
	windows := gathered(boxes, width, height)
	if ruled := ruled(boxes, width, height, len(windows)); ruled != nil {
		return ruled
	}
	return windows
}

// ruled lays windows in even rows and columns, those that no box needs left out. It returns nil where more than most
// would be needed.
func ruled(boxes []geom.Box, width, height float64, most int) []geom.Box {
	bounds := geom.EmptyBox()
	for _, box := range boxes {
		bounds = bounds.Union(box)
	}
	columns, rows := int(math.Ceil(bounds.Width()/width)), int(math.Ceil(bounds.Height()/height))
	for _, more := range []struct{ columns, rows int }{{0, 0}, {1, 0}, {0, 1}, {1, 1}} {
		windows := needed(boxes, grid(bounds, width, height, columns+more.columns, rows+more.rows))
		if windows != nil && len(windows) <= most {
			return windows
		}
	}
	return nil
}

// grid returns windows in rows and columns that share out bounds evenly.
func grid(bounds geom.Box, width, height float64, columns, rows int) []geom.Box {
	centre := func(low, high, size float64, i, n int) float64 {
		if n < 2 {
			return (low + high) / 2
		}
		return low + size/2 + (high-low-size)*float64(i)/float64(n-1)
	}
	var windows []geom.Box
	for row := range rows {
		for column := range columns {
			at := geom.Point{
				X: centre(bounds.Min.X, bounds.Max.X, width, column, columns),
				Y: centre(bounds.Min.Y, bounds.Max.Y, height, row, rows),
			}
			windows = append(windows, geom.BoxAround(at, width, height))
		}
	}
	return windows
}

// needed returns the windows that hold a box whole which none before does, or nil when a box lies whole in none.
func needed(boxes, windows []geom.Box) []geom.Box {
	var taken []geom.Box
	bare := slices.Clone(boxes)
	for _, window := range windows {
		rest := slices.DeleteFunc(slices.Clone(bare), window.Inset(-1e-6).ContainsBox)
		if len(rest) < len(bare) {
			taken = append(taken, window)
		}
		bare = rest
	}
	if len(bare) > 0 {
		return nil
	}
	return taken
}

// gathered lays windows one by one: always the one that takes most of the boxes still bare, the upper left one of several,
// each centred on what it took.
func gathered(boxes []geom.Box, width, height float64) []geom.Box {
	bare := slices.Clone(boxes)
	var windows []geom.Box
	for len(bare) > 0 {
		taken := most(bare, width, height)
		bounds := geom.EmptyBox()
		bare = slices.DeleteFunc(bare, func(box geom.Box) bool {
			if !taken.ContainsBox(box) {
				return false
			}
			bounds = bounds.Union(box)
			return true
		})
		if bounds.Empty() { // larger than a window
			bounds, bare = bare[0], bare[1:]
		}
		windows = append(windows, geom.BoxAround(bounds.Centre(), width, height))
	}
	row := func(box geom.Box) int { return int(box.Centre().Y / (height / 2)) }
	slices.SortStableFunc(windows, func(a, b geom.Box) int {
		return cmp.Or(cmp.Compare(row(a), row(b)), cmp.Compare(a.Min.X, b.Min.X))
	})
	return windows
}

// most returns the window that holds most of the boxes, with its left edge on that of a box and its upper edge too.
func most(boxes []geom.Box, width, height float64) geom.Box {
	byTop := slices.Clone(boxes)
	slices.SortFunc(byTop, func(a, b geom.Box) int {
		return cmp.Or(cmp.Compare(a.Min.Y, b.Min.Y), cmp.Compare(a.Min.X, b.Min.X))
	})
	var best geom.Box
	held := -1
	for _, left := range byTop {
		var column []geom.Box // of those that fit from this left edge on, sorted by their upper edges
		for _, box := range byTop {
			if box.Min.X >= left.Min.X && box.Max.X <= left.Min.X+width {
				column = append(column, box)
			}
		}
		last := 0
		for first, box := range column {
			for last < len(column) && column[last].Max.Y <= box.Min.Y+height {
				last++
			}
			if last-first > held {
				held = last - first
				best = geom.Box{Min: geom.Point{X: left.Min.X, Y: box.Min.Y}, Max: geom.Point{X: left.Min.X + width, Y: box.Min.Y + height}}
			}
		}
	}
	return best
}

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
	best, fewest, nearest := window, cuts(window, boxes), 0.0
	for _, left := range lefts {
		for _, top := range tops {
			at := window.Shift(geom.Point{X: left - window.Min.X, Y: top - window.Min.Y})
			if !at.ContainsBox(held) {
				continue
			}
			n, away := cuts(at, boxes), at.Centre().Distance(window.Centre())
			if n < fewest || n == fewest && away < nearest {
				best, fewest, nearest = at, n, away
			}
		}
	}
	return best
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
