package picture

import (
	"math"
	"slices"

	"stageloom/model/geom"
)

// leaderLengths are how far off its line a label may lie when it hangs on a leader, in heights of the label.
var leaderLengths = []float64{0.6, 1.3, 2.2, 3.2}

// urgentLengths are how far off it lies at most where it has to be seen: what stops the show never goes without its label.
var urgentLengths = append(slices.Clone(leaderLengths), 4.5, 6, 8, 10.5)

// hungPlace finds a free box off a path for a label that hangs on a leader, and where on the path the leader ends. The
// leader crosses no label and no device. While nothing has to be seen at any price a screen has no leaders: they cost time.
func (p *Picture) hungPlace(points []geom.Point, width, height float64, blocked *obstacles, urgent bool) (box geom.Box, foot geom.Point, found bool) {
	lengths := leaderLengths
	switch {
	case urgent:
		lengths = urgentLengths
	case !p.options.Thorough:
		return box, foot, false
	}
	way, frame := geom.Polyline(points), p.View.Box()
	places := p.placesAlong(points, frame, width)
	for _, away := range lengths {
		for _, distance := range places {
			at, along := way.At(distance)
			across := along.Perpendicular()
			reach := (abs(across.X)*width+abs(across.Y)*height)/2 + away*height
			for _, side := range []float64{1, -1} {
				box := geom.BoxAround(at.Add(across.Scale(side*reach)), width, height)
				if frame.ContainsBox(box) && frame.Contains(at) && blocked.free(box) && blocked.freeLine(at, edgePoint(box.Centre(), at, box)) {
					return box, at, true
				}
			}
		}
	}
	if urgent {
		return p.anyPlace(way, places, width, height, blocked)
	}
	return box, foot, false
}

// anyPlace finds the nearest free box in any direction, whatever its leader crosses.
func (p *Picture) anyPlace(way geom.Polyline, places []float64, width, height float64, blocked *obstacles) (box geom.Box, foot geom.Point, found bool) {
	const directions, rings = 16, 24
	frame := p.View.Box()
	for ring := 1; ring <= rings; ring++ {
		for _, distance := range places {
			at, _ := way.At(distance)
			for i := range directions {
				sin, cos := math.Sincos(2 * math.Pi * float64(i) / directions)
				away := float64(ring) * height
				box := geom.BoxAround(at.Add(geom.Point{X: cos * (away + width/2), Y: sin * (away + height/2)}), width, height)
				if frame.ContainsBox(box) && frame.Contains(at) && blocked.free(box) {
					return box, at, true
				}
			}
		}
	}
	return box, foot, false
}

// freeLine reports whether a straight line crosses none of the boxes.
func (o *obstacles) freeLine(a, b geom.Point) bool {
	left, top, right, bottom := o.within(geom.BoxOf(a, b))
	for y := top; y <= bottom; y++ {
		for x := left; x <= right; x++ {
			for _, other := range o.cells[y*o.cols+x] {
				if _, _, meets := clipped(a, b, other); meets {
					return false
				}
			}
		}
	}
	return true
}

// hang draws the leader of a label, a thin line with a dot where it stands on the link, and keeps it free of labels.
func (p *Picture) hang(ref Ref, box geom.Box, foot geom.Point, blocked *obstacles) {
	const apart = 4.0
	from := edgePoint(box.Centre(), foot, box)
	p.leaders = append(p.leaders, geom.Polyline{foot, from})
	for along := 0.0; along < foot.Distance(from); along += apart {
		blocked.add(geom.BoxAround(geom.Stretch{A: foot, B: from}.At(along/foot.Distance(from)), 2, 2))
	}
	p.add(Mark{Ref: ref, Shape: Stroke, Role: RoleLeader, Points: []geom.Point{foot, from}})
	p.add(Mark{Ref: ref, Shape: Fill, Role: RoleLeader, Points: ring(foot, 1.6, 8, 0)})
}
