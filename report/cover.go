package report

import (
	"cmp"
	"math"
	"slices"
	"sort"

	"stageloom/model/geom"
)

// cover lays as few windows of one size as it finds over boxes so that each box lies in one whole. A box larger than a
// window has one to itself. Windows come in the order in which one reads. Where more than so many are needed it gives up
// and returns that many and one.
func cover(boxes []geom.Box, width, height float64, most int) []geom.Box {
	windows := gathered(boxes, width, height, most)
	if ruled := ruled(boxes, width, height, min(len(windows), most)); ruled != nil {
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
		g := grid{bounds: bounds, width: width, height: height, columns: columns + more.columns, rows: rows + more.rows}
		if windows := g.needed(boxes); windows != nil && len(windows) <= most {
			return windows
		}
	}
	return nil
}

// grid is windows in rows and columns that share out bounds evenly.
type grid struct {
	bounds        geom.Box
	width, height float64
	columns, rows int
}

// window is the one in a column and a row.
func (g *grid) window(column, row int) geom.Box {
	at := geom.Point{
		X: centre(g.bounds.Min.X, g.bounds.Max.X, g.width, column, g.columns),
		Y: centre(g.bounds.Min.Y, g.bounds.Max.Y, g.height, row, g.rows),
	}
	return geom.BoxAround(at, g.width, g.height)
}

// centre is the middle of window i of n that share out a stretch.
func centre(low, high, size float64, i, n int) float64 {
	if n < 2 {
		return (low + high) / 2
	}
	return low + size/2 + (high-low-size)*float64(i)/float64(n-1)
}

// needed returns the windows that hold a box whole which none before does, or nil when a box lies whole in none.
func (g *grid) needed(boxes []geom.Box) []geom.Box {
	var taken [][2]int
	seen := map[[2]int]bool{}
	for _, box := range boxes {
		column := firstOf(g.columns, func(i int) bool { return g.window(i, 0).Max.X+1e-6 >= box.Max.X })
		row := firstOf(g.rows, func(i int) bool { return g.window(0, i).Max.Y+1e-6 >= box.Max.Y })
		if column == g.columns || row == g.rows || !g.window(column, row).Inset(-1e-6).ContainsBox(box) {
			return nil
		}
		if at := [2]int{row, column}; !seen[at] {
			seen[at], taken = true, append(taken, at)
		}
	}
	slices.SortFunc(taken, func(a, b [2]int) int { return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1])) })
	var windows []geom.Box
	for _, at := range taken {
		windows = append(windows, g.window(at[1], at[0]))
	}
	return windows
}

// firstOf is the first of n windows along a stretch that reaches far enough; two may overlap so far that the second reaches
// less.
func firstOf(n int, reaches func(i int) bool) int {
	if n > 0 && reaches(0) {
		return 0
	}
	return sort.Search(n, reaches)
}

// gathered lays windows one by one: always the one that takes most of the boxes still bare, the upper left one of several,
// each centred on what it took. It gives up at more than so many.
func gathered(boxes []geom.Box, width, height float64, atMost int) []geom.Box {
	bare := slices.Clone(boxes)
	var windows []geom.Box
	for len(bare) > 0 && len(windows) <= atMost {
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
	fullest := fullestLefts(byTop, width, height)
	left := byTop[slices.IndexFunc(byTop, func(box geom.Box) bool { return fullest[box.Min.X] })].Min.X
	var column []geom.Box // of those that fit from this left edge on, sorted by their upper edges
	for _, box := range byTop {
		if box.Min.X >= left && box.Max.X <= left+width && box.Height() <= height {
			column = append(column, box)
		}
	}
	best, held, last := geom.Box{}, -1, 0
	for first, box := range column {
		for last < len(column) && column[last].Max.Y <= box.Min.Y+height {
			last++
		}
		if last-first > held {
			held = last - first
			best = geom.Box{Min: geom.Point{X: left, Y: box.Min.Y}, Max: geom.Point{X: left + width, Y: box.Min.Y + height}}
		}
	}
	return best
}
