package report

import (
	"slices"

	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/model/plan"
)

// mostParts is how many parts a plan is cut into at most: what can't be read then goes to the key list.
const mostParts = 40

// partBorder is what stays free round the devices of a part, in points: room for labels and for the paper beside it.
const partBorder = 30.0

// part is a window of the plan drawn to a larger scale: its box in metres.
type part struct{ metres geom.Box }

// cut lays parts over the devices that the whole leaves hard to read, at the scale that leaves the fewest links
// without a label and takes the fewest sheets, looked for up to the first at which all but a few have theirs. It returns
// none where parts are no help.
func (c *cartographer) cut(whole layout) (sheets []planPage, parts []part) {
	needy, first := c.needy(whole), planPage{picture: c.withParts(whole, nil)}
	cheapest := len(c.unlabelled([]planPage{first})) // links without a label, and sheets to leaf through
	possible := true
	for i := slices.Index(scales, whole.denominator) - 1; i >= 0 && possible; i-- {
		possible = false
		for _, lettering := range letterings[:len(letterings)-1] {
			lettering *= typeScale(whole.format)
			l := layout{format: whole.format, denominator: scales[i], lettering: lettering, arrangement: c.arrange(scales[i], lettering)}
			windows := c.windows(l, needy)
			if len(windows) > mostParts {
				continue
			}
			possible = true
			if l.arrangement.Dots {
				continue
			}
			drawn, cut := c.letterParts(l, windows)
			missing := len(c.unlabelled(append(drawn, first)))
			if cost := missing + len(windows); cost < cheapest || parts == nil {
				sheets, parts, cheapest = drawn, cut, cost
			}
			if missing <= fewOf(len(c.scene.Links)) {
				return sheets, parts
			}
		}
	}
	return sheets, parts
}

// windows covers the devices that have to be drawn larger.
func (c *cartographer) windows(l layout, needy []bool) []geom.Box {
	width, height := c.view(l.format)
	boxes := l.arrangement.Boxes()
	windows := cover(picked(boxes, needy), width-2*partBorder, height-2*partBorder, mostParts)
	if len(windows) > mostParts {
		return windows // too many, wherever they lie
	}
	ways := l.arrangement.Ways()
	for i := range windows {
		windows[i] = settled(windows[i], append(boxes[:len(boxes):len(boxes)], c.waysWithin(ways, windows[i], boxes)...))
	}
	return windows
}

// waysWithin returns the boxes of the ways of links whose devices both lie in a window.
func (c *cartographer) waysWithin(all []geom.Box, window geom.Box, boxes []geom.Box) []geom.Box {
	inside := make([]bool, len(boxes))
	for i := range boxes {
		inside[i] = window.ContainsBox(boxes[i])
	}
	var ways []geom.Box
	for i, ends := range c.linkEnds() {
		if inside[ends[0]] && inside[ends[1]] {
			ways = append(ways, all[i])
		}
	}
	return ways
}

// linkEnds are the places of the devices at the ends of each link of the scene, found once.
func (c *cartographer) linkEnds() [][2]int {
	if c.ends == nil {
		at := make(map[plan.DeviceID]int, len(c.scene.Devices))
		for i, device := range c.scene.Devices {
			at[device.ID] = i
		}
		c.ends = make([][2]int, len(c.scene.Links))
		for i, link := range c.scene.Links {
			c.ends[i] = [2]int{at[link.From], at[link.To]}
		}
	}
	return c.ends
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

// letterParts draws every window, each with the frames of the others for how they overlap.
func (c *cartographer) letterParts(l layout, windows []geom.Box) ([]planPage, []part) {
	width, height := c.view(l.format)
	views, parts := make([]picture.View, len(windows)), make([]part, len(windows))
	for i, window := range windows {
		views[i] = l.arrangement.Sheet(window.Centre(), width, height)
		parts[i] = part{geom.BoxOf(views[i].Metres(geom.Point{}), views[i].Metres(geom.Point{X: width, Y: height}))}
	}
	sheets := make([]planPage, len(windows))
	for i, view := range views {
		frames := c.frames(l, view, parts, i+1)
		sheets[i] = planPage{part: i + 1, of: len(parts), denominator: l.denominator, frames: frames, picture: c.letter(l, view, frames)}
	}
	return sheets, parts
}
