package geom

// Stretch is the straight stretch from A to B, ends included.
type Stretch struct {
	A, B Point
}

// Length returns the distance from A to B, in metres.
func (l Stretch) Length() float64 { return l.A.Distance(l.B) }

// Direction returns the unit vector from A to B, and (0, 0) for a line of no
// length.
func (l Stretch) Direction() Point { return l.B.Sub(l.A).Unit() }

// At returns the point that lies the given share of the way from A to B.
func (l Stretch) At(share float64) Point { return l.A.Between(l.B, share) }

// Nearest returns the point of the line that is nearest to p, and its share of
// the way from A (0) to B (1).
func (l Stretch) Nearest(p Point) (Point, float64) {
	along := l.B.Sub(l.A)
	square := along.Dot(along)
	if square == 0 {
		return l.A, 0
	}
	share := min(1, max(0, p.Sub(l.A).Dot(along)/square))
	return l.At(share), share
}

// Distance returns the distance of p from the nearest point of the line, in
// metres.
func (l Stretch) Distance(p Point) float64 {
	nearest, _ := l.Nearest(p)
	return p.Distance(nearest)
}

// Crossing returns the point where l and other meet and true, or false where
// they do not. Touching ends count. Parallel lines never cross, not even where
// one lies on the other: they have no single point in common.
func (l Stretch) Crossing(other Stretch) (Point, bool) {
	mine, others := l.B.Sub(l.A), other.B.Sub(other.A)
	denominator := mine.Cross(others)
	if denominator == 0 {
		return Point{}, false
	}
	gap := other.A.Sub(l.A)
	onMine, onOther := gap.Cross(others)/denominator, gap.Cross(mine)/denominator
	if onMine < 0 || onMine > 1 || onOther < 0 || onOther > 1 {
		return Point{}, false
	}
	return l.At(onMine), true
}
