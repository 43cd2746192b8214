package geom

import "math"

// Point is a place, or the difference of two places, in metres.
type Point struct {
	X float64 // metres to the right
	Y float64 // metres towards the top of the page
}

// Pt returns the point (x, y), in metres.
func Pt(x, y float64) Point { return Point{X: x, Y: y} }

// Polar returns the point at length metres from the origin, in the direction
// angle: radians, counter-clockwise from the x axis.
func Polar(length, angle float64) Point {
	sin, cos := math.Sincos(angle)
	return Point{X: length * cos, Y: length * sin}
}

// Add returns p + q.
func (p Point) Add(q Point) Point { return Point{X: p.X + q.X, Y: p.Y + q.Y} }

// Sub returns p − q: the way from q to p.
func (p Point) Sub(q Point) Point { return Point{X: p.X - q.X, Y: p.Y - q.Y} }

// Scale returns p with both coordinates multiplied by factor.
func (p Point) Scale(factor float64) Point { return Point{X: p.X * factor, Y: p.Y * factor} }

// Dot returns the scalar product of p and q, in square metres.
func (p Point) Dot(q Point) float64 { return p.X*q.X + p.Y*q.Y }

// Cross returns the z part of the vector product p × q, in square metres: it is
// positive where q lies counter-clockwise of p.
func (p Point) Cross(q Point) float64 { return p.X*q.Y - p.Y*q.X }

// Length returns the distance of p from the origin, in metres.
func (p Point) Length() float64 { return math.Hypot(p.X, p.Y) }

// Distance returns the straight distance between p and q, in metres.
func (p Point) Distance(q Point) float64 { return math.Hypot(p.X-q.X, p.Y-q.Y) }

// Angle returns the direction of p seen from the origin: radians in (−π, π],
// counter-clockwise from the x axis. The origin itself has the angle 0.
func (p Point) Angle() float64 { return math.Atan2(p.Y, p.X) }

// Unit returns p scaled to the length 1, and the point (0, 0) for the origin,
// which has no direction.
func (p Point) Unit() Point {
	length := p.Length()
	if length == 0 {
		return Point{}
	}
	return Point{X: p.X / length, Y: p.Y / length}
}

// Perpendicular returns p turned by a quarter counter-clockwise.
func (p Point) Perpendicular() Point { return Point{X: -p.Y, Y: p.X} }

// Rotate returns p turned about the origin by angle radians, counter-clockwise.
func (p Point) Rotate(angle float64) Point {
	sin, cos := math.Sincos(angle)
	return Point{X: p.X*cos - p.Y*sin, Y: p.X*sin + p.Y*cos}
}

// Between returns the point that lies the given share of the way from p to q:
// p at 0, q at 1, exactly.
func (p Point) Between(q Point, share float64) Point {
	return Point{X: p.X*(1-share) + q.X*share, Y: p.Y*(1-share) + q.Y*share}
}

// RoundMM returns p with both coordinates rounded to whole millimetres.
func (p Point) RoundMM() Point { return Point{X: RoundMM(p.X), Y: RoundMM(p.Y)} }

// Finite reports whether neither coordinate is NaN or infinite.
func (p Point) Finite() bool { return finite(p.X) && finite(p.Y) }

// RoundMM rounds metres to whole millimetres, halves away from zero, and never
// returns a negative zero: what a plan keeps is what its file can write.
func RoundMM(metres float64) float64 {
	rounded := math.Round(metres*1000) / 1000
	if rounded == 0 {
		return 0
	}
	return rounded
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
