package raster

import (
	"image"
	"image/color"
	"math"
)

const (
	flatness    = 0.03 // how far, in pixels, the sides of a drawn arc may lie within the true one
	mitreLimit  = 4.0  // how many half widths a mitred corner may stick out
	leastPeriod = 0.5  // in pixels; finer dashes are drawn plain
)

// stroked is a stroked line in pixels.
type stroked struct {
	legs   []leg
	half   float64 // half the width
	dashes dashes
	cap    Cap
	join   Join
	colour color.NRGBA
}

// room is how far the line may stick out of its legs.
func (l *stroked) room() float64 {
	if l.join == MitreJoin {
		return l.half*mitreLimit + 1
	}
	return l.half*math.Sqrt2 + 1
}

func (l *stroked) bounds() image.Rectangle { return boundsOf(l.legs, l.room()) }

func (l *stroked) paint(f *filler) {
	seen := Box{
		float64(f.clip.Min.X), float64(f.clip.Min.Y), float64(f.clip.Max.X), float64(f.clip.Max.Y),
	}.Outset(l.room())
	for _, leg := range l.legs {
		from, to, some := within(leg.a, leg.b, seen)
		if !some {
			continue
		}
		l.dashes.pieces(leg, from, to, func(a, b float64, startCap, endCap bool) {
			l.piece(f, leg, a, b, startCap, endCap)
		})
		if leg.before >= 0 && l.dashes.through(leg.at) {
			l.corner(f, l.legs[leg.before].along, leg)
		}
	}
	f.flush(l.colour)
}

// piece adds the part of a leg between two distances from its start, as one shape with its caps.
func (l *stroked) piece(f *filler, leg leg, from, to float64, startCap, endCap bool) {
	if l.cap == SquareCap {
		if startCap {
			from -= l.half
		}
		if endCap {
			to += l.half
		}
	}
	a, b := leg.place(from), leg.place(to)
	if to == leg.length {
		b = leg.b
	}
	side := Point{-leg.along.Y * l.half, leg.along.X * l.half}
	var buffer [64]Point
	corners := append(buffer[:0], a.plus(side.X, side.Y), b.plus(side.X, side.Y))
	if l.cap == RoundCap && endCap {
		corners = arc(corners, b, side, -math.Pi)
	}
	corners = append(corners, b.plus(-side.X, -side.Y), a.plus(-side.X, -side.Y))
	if l.cap == RoundCap && startCap {
		corners = arc(corners, a, Point{-side.X, -side.Y}, -math.Pi)
	}
	f.polygon(corners...)
}

// corner adds what the outer side of a corner lacks between the ends of two legs.
func (l *stroked) corner(f *filler, before Point, leg leg) {
	cross := before.X*leg.along.Y - before.Y*leg.along.X
	dot := before.X*leg.along.X + before.Y*leg.along.Y
	if cross == 0 && dot > 0 {
		return
	}
	// The shape runs from first to last on the outer side, the same way round as the pieces do.
	first, last := Point{-before.Y * l.half, before.X * l.half}, Point{-leg.along.Y * l.half, leg.along.X * l.half}
	if cross > 0 {
		first, last = Point{-last.X, -last.Y}, Point{-first.X, -first.Y}
	}
	var buffer [64]Point
	corners := append(buffer[:0], leg.a, leg.a.plus(first.X, first.Y))
	switch {
	case l.join == RoundJoin:
		corners = arc(corners, leg.a, first, -math.Abs(math.Atan2(cross, dot)))
	case l.join == MitreJoin && 1+dot >= 2/(mitreLimit*mitreLimit):
		corners = append(corners, leg.a.plus((first.X+last.X)/(1+dot), (first.Y+last.Y)/(1+dot)))
	}
	f.polygon(append(corners, leg.a.plus(last.X, last.Y))...)
}

// arc adds the points between the ends of an arc that starts at spoke from the centre and turns by an angle, positive
// from x towards y.
func arc(points []Point, centre, spoke Point, angle float64) []Point {
	radius := math.Hypot(spoke.X, spoke.Y)
	step := 2 * math.Acos(max(0, 1-flatness/max(radius, flatness)))
	count := int(math.Ceil(min(math.Abs(angle)/step, 1000)))
	if count < 2 {
		return points
	}
	sin, cos := math.Sincos(angle / float64(count))
	for range count - 1 {
		spoke = Point{spoke.X*cos - spoke.Y*sin, spoke.X*sin + spoke.Y*cos}
		points = append(points, centre.plus(spoke.X, spoke.Y))
	}
	return points
}
