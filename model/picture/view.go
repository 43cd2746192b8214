package picture

import (
	"math"

	"stageloom/model/geom"
)

// View is the window on the site: points of the view per metre, the metres at its top left corner, and its size
// in points.
type View struct {
	Scale  float64
	Origin geom.Point
	Width  float64
	Height float64
}

// Point returns where metres lie in the view.
func (v View) Point(metres geom.Point) geom.Point {
	return geom.Point{X: (metres.X - v.Origin.X) * v.Scale, Y: (v.Origin.Y - metres.Y) * v.Scale}
}

// Metres returns what lies at a point of the view.
func (v View) Metres(at geom.Point) geom.Point {
	return geom.Point{X: v.Origin.X + at.X/v.Scale, Y: v.Origin.Y - at.Y/v.Scale}
}

// Box is the view's own box in points.
func (v View) Box() geom.Box {
	return geom.BoxOf(geom.Point{}, geom.Point{X: v.Width, Y: v.Height})
}

// Zoomed scales the view by a factor about a point that stays where it is.
func (v View) Zoomed(factor float64, about geom.Point) View {
	fixed := v.Metres(about)
	v.Scale = min(MaxScale, max(MinScale, v.Scale*factor))
	v.Origin = geom.Point{X: fixed.X - about.X/v.Scale, Y: fixed.Y + about.Y/v.Scale}
	return v
}

// Panned shifts the picture by points of the view.
func (v View) Panned(by geom.Point) View {
	v.Origin = geom.Point{X: v.Origin.X - by.X/v.Scale, Y: v.Origin.Y + by.Y/v.Scale}
	return v
}

// MinScale and MaxScale bound the zoom: 20 km on a screen, or a metre.
const (
	MinScale = 0.02
	MaxScale = 1000
)

// mostFit keeps a plan of one device from filling the view.
const mostFit = 60

// Fit returns the view of this size that shows the box of metres whole, with a border in points around it.
func Fit(box geom.Box, width, height, border float64) View {
	v := View{Width: width, Height: height}
	w, h := max(box.Width(), 1), max(box.Height(), 1)
	v.Scale = min((width-2*border)/w, (height-2*border)/h)
	v.Scale = min(mostFit, max(MinScale, v.Scale))
	centre := box.Centre()
	v.Origin = geom.Point{X: centre.X - width/2/v.Scale, Y: centre.Y + height/2/v.Scale}
	return v
}

// RoundStep returns the smallest of 1, 2, 5, 10, 20, … that is at least x.
func RoundStep(x float64) float64 {
	if x <= 0 || math.IsInf(x, 0) || math.IsNaN(x) {
		return 1
	}
	power := math.Pow(10, math.Floor(math.Log10(x)))
	for _, step := range []float64{1, 2, 5, 10} {
		if step*power >= x*(1-1e-9) {
			return step * power
		}
	}
	return 10 * power
}
