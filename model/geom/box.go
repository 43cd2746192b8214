package geom

import "math"

// Box is an upright rectangle, edges included: Min is its lower left corner and
// Max its upper right one. The zero Box is the single point at the origin; a box
// with nothing in it is [EmptyBox].
type Box struct {
	Min, Max Point
}

// EmptyBox returns the box that contains nothing and adds nothing to a union.
func EmptyBox() Box {
	return Box{Min: Pt(math.Inf(1), math.Inf(1)), Max: Pt(math.Inf(-1), math.Inf(-1))}
}

// BoxOf returns the smallest box round the points, [EmptyBox] for none.
func BoxOf(points ...Point) Box {
	box := EmptyBox()
	for _, p := range points {
		box = box.Include(p)
	}
	return box
}

// BoxAround returns the box of the given width and height, in metres, round
// centre.
func BoxAround(centre Point, width, height float64) Box {
	half := Pt(width/2, height/2)
	return Box{Min: centre.Sub(half), Max: centre.Add(half)}
}

// Empty reports whether the box contains no point.
func (b Box) Empty() bool { return b.Min.X > b.Max.X || b.Min.Y > b.Max.Y }

// Width returns the extent of the box along x, in metres, 0 for an empty box.
func (b Box) Width() float64 { return max(0, b.Max.X-b.Min.X) }

// Height returns the extent of the box along y, in metres, 0 for an empty box.
func (b Box) Height() float64 { return max(0, b.Max.Y-b.Min.Y) }

// Centre returns the middle of the box, and the origin for an empty box.
func (b Box) Centre() Point {
	if b.Empty() {
		return Point{}
	}
	return b.Min.Between(b.Max, 0.5)
}

// Corners returns the four corners counter-clockwise from Min.
func (b Box) Corners() [4]Point {
	return [4]Point{b.Min, Pt(b.Max.X, b.Min.Y), b.Max, Pt(b.Min.X, b.Max.Y)}
}

// Include returns the smallest box round b and p.
func (b Box) Include(p Point) Box { return b.Union(Box{Min: p, Max: p}) }

// Union returns the smallest box round b and other.
func (b Box) Union(other Box) Box {
	if b.Empty() {
		return other
	}
	if other.Empty() {
		return b
	}
	return Box{
		Min: Pt(min(b.Min.X, other.Min.X), min(b.Min.Y, other.Min.Y)),
		Max: Pt(max(b.Max.X, other.Max.X), max(b.Max.Y, other.Max.Y)),
	}
}

// Intersection returns what b and other have in common, [EmptyBox] for nothing.
func (b Box) Intersection(other Box) Box {
	common := Box{
		Min: Pt(max(b.Min.X, other.Min.X), max(b.Min.Y, other.Min.Y)),
		Max: Pt(min(b.Max.X, other.Max.X), min(b.Max.Y, other.Max.Y)),
	}
	if common.Empty() {
		return EmptyBox()
	}
	return common
}

// Overlaps reports whether b and other have a point in common; touching edges do.
func (b Box) Overlaps(other Box) bool { return !b.Intersection(other).Empty() }

// Contains reports whether p lies in the box or on its edge.
func (b Box) Contains(p Point) bool {
	return p.X >= b.Min.X && p.X <= b.Max.X && p.Y >= b.Min.Y && p.Y <= b.Max.Y
}

// ContainsBox reports whether every point of other lies in b. An empty box lies
// in every box.
func (b Box) ContainsBox(other Box) bool {
	return other.Empty() || (b.Contains(other.Min) && b.Contains(other.Max))
}

// Inset returns the box with each edge moved inwards by metres (outwards where
// negative), [EmptyBox] when nothing is left. An empty box stays empty.
func (b Box) Inset(metres float64) Box {
	inner := Box{
		Min: Pt(b.Min.X+metres, b.Min.Y+metres),
		Max: Pt(b.Max.X-metres, b.Max.Y-metres),
	}
	if b.Empty() || inner.Empty() {
		return EmptyBox()
	}
	return inner
}

// Shift returns the box moved by offset, in metres.
func (b Box) Shift(offset Point) Box {
	return Box{Min: b.Min.Add(offset), Max: b.Max.Add(offset)}
}
