package geom

import "slices"

// Polyline is a way along straight lines from point to point, in order. Fewer
// than two points make a way of no length.
type Polyline []Point

// Length returns the length of the way, in metres.
func (way Polyline) Length() float64 {
	total := 0.0
	for i := 1; i < len(way); i++ {
		total += way[i-1].Distance(way[i])
	}
	return total
}

// Lines returns the straight lines of the way in order, those of no length
// included.
func (way Polyline) Lines() []Stretch {
	if len(way) < 2 {
		return nil
	}
	lines := make([]Stretch, 0, len(way)-1)
	for i := 1; i < len(way); i++ {
		lines = append(lines, Stretch{A: way[i-1], B: way[i]})
	}
	return lines
}

// At returns the point that lies distance metres along the way and the unit
// vector of the way there. A distance before the start or past the end gives
// that end. At a corner the direction is that of the line that ends there; a
// way of no length has the direction (0, 0), and a way of no points lies at the
// origin.
func (way Polyline) At(distance float64) (Point, Point) {
	if len(way) == 0 {
		return Point{}, Point{}
	}
	direction, left := Point{}, max(0, distance)
	for i := 1; i < len(way); i++ {
		line := Stretch{A: way[i-1], B: way[i]}
		length := line.Length()
		if length == 0 {
			continue
		}
		direction = line.Direction()
		if left <= length {
			return line.At(left / length), direction
		}
		left -= length
	}
	return way[len(way)-1], direction
}

// Nearest returns the point of the way that is nearest to p, its distance along
// the way from the start, and its distance from p, both in metres. A way of no
// points lies at the origin.
func (way Polyline) Nearest(p Point) (nearest Point, along, away float64) {
	if len(way) == 0 {
		return Point{}, 0, p.Length()
	}
	nearest, away = way[0], p.Distance(way[0])
	passed := 0.0
	for _, line := range way.Lines() {
		candidate, share := line.Nearest(p)
		length := line.Length()
		if distance := p.Distance(candidate); distance < away {
			nearest, along, away = candidate, passed+share*length, distance
		}
		passed += length
	}
	return nearest, along, away
}

// Distance returns the distance of p from the nearest point of the way, in
// metres.
func (way Polyline) Distance(p Point) float64 {
	_, _, away := way.Nearest(p)
	return away
}

// Cut returns the part of the way from one distance along it to another, in
// metres, with the corners that lie between. Distances outside the way are
// brought to its ends; to < from gives the part that both would enclose.
func (way Polyline) Cut(from, to float64) Polyline {
	if len(way) == 0 {
		return nil
	}
	if to < from {
		from, to = to, from
	}
	start, _ := way.At(from)
	end, _ := way.At(to)
	part, passed := Polyline{start}, 0.0
	for i := 1; i < len(way); i++ {
		passed += way[i-1].Distance(way[i])
		if passed > from && passed < to {
			part = append(part, way[i])
		}
	}
	return append(part, end)
}

// Reversed returns the same way walked from its end.
func (way Polyline) Reversed() Polyline {
	turned := slices.Clone(way)
	slices.Reverse(turned)
	return turned
}

// Box returns the smallest box round the way, [EmptyBox] for no points.
func (way Polyline) Box() Box { return BoxOf(way...) }

// Meets reports whether any part of the way lies in the box.
func (way Polyline) Meets(box Box) bool {
	for i, p := range way {
		if box.Contains(p) {
			return true
		}
		if i > 0 && crossesBox(Stretch{A: way[i-1], B: p}, box) {
			return true
		}
	}
	return false
}

// crossesBox reports whether a line between two points outside a box crosses it: then it crosses one of its
// diagonals, or both if it does not go through a corner.
func crossesBox(line Stretch, box Box) bool {
	if !BoxOf(line.A, line.B).Overlaps(box) {
		return false
	}
	corners := box.Corners()
	for i := range 2 {
		if _, found := line.Crossing(Stretch{A: corners[i], B: corners[i+2]}); found {
			return true
		}
	}
	return false
}
