package picture

import (
	"cmp"
	"math"
	"slices"

	"stageloom/model/geom"
	"stageloom/model/plan"
)

// elbow is how far in points the innermost line goes out of a row before it turns, trackGap what parts it from the next.
const (
	elbow    = 8.0
	trackGap = 4.0
	// besideRoom is what must part two blocks for the lines between them to turn there.
	besideRoom = 64.0
)

// linkEnd is an end of a link: its first or its last.
type linkEnd struct {
	link plan.LinkID
	last bool
}

// tracks says at which side of its block each end of a link leaves, and how far out it turns, so that lines beside a block
// do not lie on each other.
func (a *Arrangement) tracks() {
	type leaving struct {
		linkEnd
		y float64
	}
	type side struct {
		block int
		left  bool
	}
	a.track = map[linkEnd]float64{}
	sides := map[side][]leaving{}
	for i := range a.Scene.Links {
		link := &a.Scene.Links[i]
		for _, last := range []bool{false, true} {
			id, other := link.From, link.To
			if last {
				id, other = other, id
			}
			n := a.blockOf[id]
			if n == 0 || n == a.blockOf[other] {
				continue
			}
			left := a.leavesLeft(link, last, &a.blocks[n-1])
			key := side{n, left}
			sides[key] = append(sides[key], leaving{linkEnd{link.ID, last}, a.boxes[id].Centre().Y})
		}
	}
	for key, ends := range sides {
		slices.SortFunc(ends, func(x, y leaving) int { return cmp.Or(cmp.Compare(x.y, y.y), cmp.Compare(x.link, y.link)) })
		for n, end := range ends {
			out := elbow + trackGap*float64(n)
			if key.left {
				out = -out
			}
			a.track[end.linkEnd] = out
		}
	}
}

// leavesLeft reports at which side an end of a link leaves its block: that of where it goes next, but where it goes straight to
// a block above or below, both leave at the side where these stand out least against each other.
func (a *Arrangement) leavesLeft(link *LinkFigure, last bool, b *block) bool {
	n := a.blockOf[link.From] + a.blockOf[link.To] - a.blockOf[end(link, last)]
	if n > 0 && len(a.uncovered(link, a.boxes)) == 0 {
		other := &a.blocks[n-1]
		apart := b.box.Max.Y < other.box.Min.Y || other.box.Max.Y < b.box.Min.Y
		if apart && b.box.Min.X < other.box.Max.X+besideRoom && other.box.Min.X < b.box.Max.X+besideRoom {
			return math.Abs(b.box.Min.X-other.box.Min.X) < math.Abs(b.box.Max.X-other.box.Max.X)
		}
	}
	return a.towards(link, last).X < b.box.Centre().X
}

// end is the device at the first end of a link, or at its last.
func end(link *LinkFigure, last bool) plan.DeviceID {
	if last {
		return link.To
	}
	return link.From
}

// towards is where a link goes next from one of its ends.
func (a *Arrangement) towards(link *LinkFigure, last bool) geom.Point {
	way := a.uncovered(link, a.boxes)
	switch {
	case len(way) > 0 && last:
		return way[len(way)-1]
	case len(way) > 0:
		return way[0]
	case last:
		return a.boxes[link.From].Centre()
	}
	return a.boxes[link.To].Centre()
}

// leg is how a line leaves the row of a block: from the row's edge out to where it turns. A device that is no row has none.
func (a *Arrangement) leg(id plan.DeviceID, end linkEnd, box geom.Box) (edge, turn geom.Point, rowed bool) {
	b, found := a.rowed(id)
	if !found || b.heads || b.loose > 0.5 {
		return edge, turn, false
	}
	out, known := a.track[end]
	if !known {
		out = elbow
	}
	whole := b.box.Shift(box.Min.Sub(a.boxes[id].Min))
	edge = geom.Point{X: whole.Max.X, Y: box.Centre().Y}
	if out < 0 {
		edge.X = whole.Min.X
	}
	return edge, geom.Point{X: edge.X + out, Y: edge.Y}, true
}

// blockPath is the path of a link of which an end is in a block: straight out of its row, along the block's side, and then
// along its way.
func (a *Arrangement) blockPath(link *LinkFigure, offset float64, boxes map[plan.DeviceID]geom.Box) path {
	from, to := boxes[link.From], boxes[link.To]
	way := shifted(a.uncovered(link, boxes), offset)
	startEdge, startTurn, startRowed := a.leg(link.From, linkEnd{link.ID, false}, from)
	endEdge, endTurn, endRowed := a.leg(link.To, linkEnd{link.ID, true}, to)
	first, last := to.Centre(), from.Centre()
	switch {
	case len(way) > 0:
		first, last = way[0], way[len(way)-1]
	case startRowed && endRowed:
		startTurn.X, endTurn.X = turns(startEdge.X, startTurn.X, endEdge.X, endTurn.X)
		first, last = endTurn, geom.Point{X: startTurn.X, Y: endTurn.Y}
	}
	points := []geom.Point{from.Centre()}
	if startRowed {
		points = []geom.Point{startEdge, startTurn, {X: startTurn.X, Y: first.Y}}
	}
	points = append(points, way...)
	if endRowed {
		points = append(points, geom.Point{X: endTurn.X, Y: last.Y}, endTurn, endEdge)
	} else {
		points = append(points, to.Centre())
	}
	if !startRowed {
		points = leaving(points, from, false)
	}
	if !endRowed {
		points = leaving(points, to, true)
	}
	points = slices.Compact(points)
	return path{points: points, whole: points}
}

// turns says how far across a line from block to block turns at its two ends, from where each edge is and where it would turn:
// at one side as far out as the farther, and between two blocks that stand too close for both in the middle of their gap.
func turns(startEdge, start, endEdge, end float64) (float64, float64) {
	if left := start < startEdge; left == (end < endEdge) {
		out := outer(start, end, left)
		return out, out
	}
	gap := endEdge - startEdge
	if (start > startEdge) == (gap > 0) && math.Abs(start-startEdge)+math.Abs(end-endEdge) > math.Abs(gap) {
		return startEdge + gap/2, startEdge + gap/2
	}
	return start, end
}

// outer is the one of two places across that is further out, to the left or to the right.
func outer(x, y float64, left bool) float64 {
	if left {
		return min(x, y)
	}
	return max(x, y)
}

// insidePath leads from row to row of one block beside it: it is drawn of what is selected alone.
func (a *Arrangement) insidePath(link *LinkFigure, boxes map[plan.DeviceID]geom.Box) []geom.Point {
	from, to := boxes[link.From], boxes[link.To]
	right := max(from.Max.X, to.Max.X)
	return []geom.Point{
		{X: from.Max.X, Y: from.Centre().Y},
		{X: right + elbow, Y: from.Centre().Y},
		{X: right + elbow, Y: to.Centre().Y},
		{X: to.Max.X, Y: to.Centre().Y},
	}
}

// within reports whether both ends of a link are in one block.
func (a *Arrangement) within(link *LinkFigure) bool {
	n := a.blockOf[link.From]
	return n > 0 && n == a.blockOf[link.To] && !a.Dots && a.blocks[n-1].loose < 1
}

// uncovered is the way of a link in points without what lies under the boxes at its ends.
func (a *Arrangement) uncovered(link *LinkFigure, boxes map[plan.DeviceID]geom.Box) []geom.Point {
	way := make([]geom.Point, 0, len(link.Way))
	for _, at := range link.Way {
		way = append(way, a.world(at))
	}
	for _, end := range []struct {
		id   plan.DeviceID
		last bool
	}{{link.From, false}, {link.To, true}} {
		b, found := a.rowed(end.id)
		if !found {
			continue
		}
		whole := b.box.Shift(boxes[end.id].Min.Sub(a.boxes[end.id].Min)).Inset(-elbow / 2)
		for len(way) > 0 {
			if end.last && whole.Contains(way[len(way)-1]) {
				way = way[:len(way)-1]
			} else if !end.last && whole.Contains(way[0]) {
				way = way[1:]
			} else {
				break
			}
		}
	}
	return way
}
