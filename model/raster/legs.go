package raster

import (
	"image"
	"math"
)

// leg is one straight part of a line, in pixels.
type leg struct {
	a, b   Point
	along  Point   // unit vector from a to b
	length float64 // of this leg
	at     float64 // how far along the dashes it starts
	before int     // the leg that ends in a, or -1
	joined bool    // whether another leg starts in b
}

// end is how far along the dashes the leg ends.
func (l leg) end() float64 { return l.at + l.length }

// place is the point that lies this far from a.
func (l leg) place(distance float64) Point {
	return l.a.plus(l.along.X*distance, l.along.Y*distance)
}

// legsOf cuts a line into its legs. It leaves out points that are no numbers, and parts that are out of reach, where
// the line is broken but its dashes run on. A line of one place is a leg of no length.
func legsOf(points []Point, closed bool, phase float64) []leg {
	legs := make([]leg, 0, len(points)+1)
	last, started := Point{}, false // the last place, and whether there is one
	at, fresh := phase, 0           // fresh is how many legs there were when this unbroken run began
	for _, p := range points {
		switch {
		case !p.finite():
			started = false
			continue
		case !started:
			started, fresh = true, len(legs)
		case p != last:
			legs, at = appendLeg(legs, last, p, at, fresh)
		}
		last = p
	}
	if len(legs) == 0 && started && reach.Contains(last) {
		return append(legs, leg{a: last, b: last, along: Point{X: 1}, at: at, before: -1})
	}
	if closed && len(legs) > 1 && started && points[0].finite() {
		if last != points[0] {
			legs, _ = appendLeg(legs, last, points[0], at, fresh)
		}
		if end := len(legs) - 1; legs[end].b == legs[0].a {
			legs[0].before, legs[end].joined = end, true
		}
	}
	return legs
}

// appendLeg adds what is within reach of the leg from a to b and returns how far along the dashes b is. Legs before
// fresh belong to a part of the line that was broken off.
func appendLeg(legs []leg, a, b Point, at float64, fresh int) ([]leg, float64) {
	dx, dy := b.X-a.X, b.Y-a.Y
	length := math.Hypot(dx, dy)
	if length == 0 || math.IsInf(length, 0) {
		return legs, at
	}
	next := leg{a: a, b: b, along: Point{dx / length, dy / length}, length: length, at: at, before: -1}
	if !reach.Contains(a) || !reach.Contains(b) {
		from, to, some := within(a, b, reach)
		if !some {
			return legs, at + length
		}
		next.a, next.b = a.plus(dx*from, dy*from), a.plus(dx*to, dy*to)
		next.at, next.length = at+from*length, (to-from)*length
	}
	if end := len(legs) - 1; end >= fresh && legs[end].b == next.a {
		next.before, legs[end].joined = end, true
	}
	return append(legs, next), at + length
}

// boundsOf returns the rectangle round the legs, with room on each side.
func boundsOf(legs []leg, room float64) image.Rectangle {
	if len(legs) == 0 {
		return image.Rectangle{}
	}
	box := boxOf([]Point{legs[0].a})
	for _, l := range legs {
		box = Box{
			min(box.Left, l.a.X, l.b.X), min(box.Top, l.a.Y, l.b.Y),
			max(box.Right, l.a.X, l.b.X), max(box.Bottom, l.a.Y, l.b.Y),
		}
	}
	return box.Outset(room).pixels()
}
