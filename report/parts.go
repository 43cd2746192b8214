package report

import (
	"cmp"
	"slices"

	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/model/plan"
)

// mostParts is how many parts a plan is cut into at most: what can't be read then goes to the key list.
const mostParts = 16

// partBorder is what stays free round the devices of a part, in points: room for labels and for the paper beside it.
const partBorder = 30.0

// part is a window of the plan drawn to a larger scale: its box in metres.
type part struct{ metres geom.Box }

// cut lays parts over the devices that the whole leaves hard to read, at the smallest scale at which every link has its
// label somewhere, or else at the largest scale that mostParts allows. It returns none where no scale is larger.
func (c *cartographer) cut(whole layout) (sheets []sheet, parts []part) {
	needy := c.needy(whole)
	for i := len(scales) - 1; i >= 0; i-- {
		for _, lettering := range letterings[:len(letterings)-1] {
			if scales[i] >= whole.denominator {
				break
			}
			lettering *= typeScale(whole.format)
			l := layout{format: whole.format, denominator: scales[i], lettering: lettering, arrangement: c.arrange(scales[i], lettering)}
			if l.arrangement.Dots {
				continue
			}
			width, height := c.view(l.format)
			boxes := l.arrangement.Boxes()
			windows := cover(picked(boxes, needy), width-2*partBorder, height-2*partBorder)
			if len(windows) > mostParts {
				return sheets, parts
			}
			for j := range windows {
				windows[j] = settled(windows[j], boxes, l.arrangement.Ways())
			}
			sheets, parts = c.letterParts(l, windows)
			if len(c.unlabelled(append(sheets, sheet{picture: whole.picture}))) <= fewOf(len(c.scene.Links)) {
				return sheets, parts
			}
		}
	}
	return sheets, parts
}

// needy returns which devices have to be drawn larger: those pushed off where they stand, those at the ends of links
// without a label, and all where devices are dots.
func (c *cartographer) needy(whole layout) []bool {
	needy, at := make([]bool, len(c.scene.Devices)), make(map[plan.DeviceID]int, len(c.scene.Devices))
	for i, device := range c.scene.Devices {
		at[device.ID] = i
		needy[i] = whole.arrangement.Dots || whole.arrangement.Pushed(device.ID)
	}
	missing := map[plan.LinkID]bool{}
	for _, id := range whole.picture.Unplaced {
		missing[id] = true
	}
	for _, link := range c.scene.Links {
		if missing[link.ID] {
			needy[at[link.From]], needy[at[link.To]] = true, true
		}
	}
	return needy
}

// picked returns the boxes that are picked.
func picked(boxes []geom.Box, which []bool) []geom.Box {
	var some []geom.Box
	for i, box := range boxes {
		if which[i] {
			some = append(some, box)
		}
	}
	return some
}

// settled slides a window, as little as it can, so that it cuts through as few boxes as possible and still holds all the
// boxes and ways that it held whole.
func settled(window geom.Box, boxes, ways []geom.Box) geom.Box {
	held := geom.EmptyBox()
	for _, way := range ways {
		if window.ContainsBox(way) {
			held = held.Union(way)
		}
	}
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

// letterParts draws every window, each with the frames of the others for how they overlap.
func (c *cartographer) letterParts(l layout, windows []geom.Box) ([]sheet, []part) {
	width, height := c.view(l.format)
	views, parts := make([]picture.View, len(windows)), make([]part, len(windows))
	for i, window := range windows {
		views[i] = l.arrangement.Sheet(window.Centre(), width, height)
		parts[i] = part{geom.BoxOf(views[i].Metres(geom.Point{}), views[i].Metres(geom.Point{X: width, Y: height}))}
	}
	sheets := make([]sheet, len(windows))
	for i, view := range views {
		frames := c.frames(l, view, parts, i+1)
		sheets[i] = sheet{part: i + 1, of: len(parts), denominator: l.denominator, frames: frames, picture: c.letter(l, view, frames)}
	}
	return sheets, parts
}

// cover lays windows of one size over boxes so that each box lies in one whole: always the window that takes most of the
// boxes still bare, the upper left one of several. Windows are centred on what they took and sorted as one reads. A box
// larger than a window has one to itself.
func cover(boxes []geom.Box, width, height float64) []geom.Box {
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
