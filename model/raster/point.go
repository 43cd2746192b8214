package raster

import (
	"image"
	"math"
)

// Point is a place in units of the drawing, y downwards.
type Point struct{ X, Y float64 }

// finite reports whether both coordinates are numbers that one can reckon with.
func (p Point) finite() bool {
	return !math.IsNaN(p.X+p.Y) && !math.IsInf(p.X, 0) && !math.IsInf(p.Y, 0)
}

// finite returns those of the points that one can reckon with.
func finite(points []Point) []Point {
	kept := make([]Point, 0, len(points))
	for _, p := range points {
		if p.finite() {
			kept = append(kept, p)
		}
	}
	return kept
}

// plus returns the point moved by dx and dy.
func (p Point) plus(dx, dy float64) Point { return Point{p.X + dx, p.Y + dy} }

// Box is an upright rectangle in units of the drawing. It is empty unless Left < Right and Top < Bottom.
type Box struct{ Left, Top, Right, Bottom float64 }

// Width is the width of the box, negative when its sides are swapped.
func (b Box) Width() float64 { return b.Right - b.Left }

// Height is the height of the box, negative when its sides are swapped.
func (b Box) Height() float64 { return b.Bottom - b.Top }

// Centre is the point in the middle of the box.
func (b Box) Centre() Point { return Point{(b.Left + b.Right) / 2, (b.Top + b.Bottom) / 2} }

// Outset returns the box with each side moved outwards by as much, inwards if that is negative.
func (b Box) Outset(by float64) Box {
	return Box{b.Left - by, b.Top - by, b.Right + by, b.Bottom + by}
}

// Empty reports whether nothing lies in the box.
func (b Box) Empty() bool { return !(b.Left < b.Right && b.Top < b.Bottom) }

// Overlaps reports whether the two boxes have an area in common; touching sides have none.
func (b Box) Overlaps(other Box) bool {
	return !b.Empty() && !other.Empty() &&
		b.Left < other.Right && other.Left < b.Right && b.Top < other.Bottom && other.Top < b.Bottom
}

// Contains reports whether the point lies in the box, its left and top sides included.
func (b Box) Contains(p Point) bool {
	return p.X >= b.Left && p.X < b.Right && p.Y >= b.Top && p.Y < b.Bottom
}

// CircleBox returns the box round a circle.
func CircleBox(centre Point, radius float64) Box {
	return Box{centre.X - radius, centre.Y - radius, centre.X + radius, centre.Y + radius}
}

// corners returns the top left and the bottom right corner.
func (b Box) corners() (Point, Point) { return Point{b.Left, b.Top}, Point{b.Right, b.Bottom} }

// pixels returns the smallest rectangle of whole pixels round a box in pixels.
func (b Box) pixels() image.Rectangle {
	return image.Rect(
		int(math.Floor(clamp(b.Left))), int(math.Floor(clamp(b.Top))),
		int(math.Ceil(clamp(b.Right))), int(math.Ceil(clamp(b.Bottom))))
}

// around returns the smallest box round both.
func (b Box) around(other Box) Box {
	return Box{min(b.Left, other.Left), min(b.Top, other.Top), max(b.Right, other.Right), max(b.Bottom, other.Bottom)}
}

// boxOf returns the smallest box round the points.
func boxOf(points []Point) Box {
	box := Box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, p := range points {
		box.Left, box.Right = min(box.Left, p.X), max(box.Right, p.X)
		box.Top, box.Bottom = min(box.Top, p.Y), max(box.Bottom, p.Y)
	}
	return box
}

// farthest bounds coordinates in pixels: 1/256 of it still fits whole numbers, and their products, with room to spare.
const farthest = 1e9

// clamp brings a coordinate within reach; what is not a number becomes 0.
func clamp(v float64) float64 {
	if math.IsNaN(v) {
		return 0
	}
	return min(max(v, -farthest), farthest)
}
