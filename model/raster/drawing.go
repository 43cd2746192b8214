package raster

import (
	"image"
	"image/color"
	"math"
)

// Pen is what one draws with. Colours are not premultiplied; see [Drawing] for the one that paints.
type Pen interface {
	// Polyline draws a line through the points.
	Polyline(points []Point, stroke Stroke)
	// Polygon fills the shape within the corners and draws its outline.
	Polygon(corners []Point, fill color.NRGBA, stroke Stroke)
	// RoundBox fills a box with rounded corners and draws its outline, the middle of which lies on its sides.
	RoundBox(box Box, radius float64, fill color.NRGBA, stroke Stroke)
	// Text sets one line of text with its baseline through the point.
	Text(at Point, text string, lettering Lettering)
	// Image draws a picture with its corners at these points, from its own top left one clockwise: those of a rectangle,
	// turned or not, of which the third is not looked at. Opacity is from 0 to 1.
	Image(corners [4]Point, picture *Image, opacity float64)
	// Clip keeps what is drawn meanwhile within the box, and within the boxes of clips around it.
	Clip(box Box, draw func())
}

// shape is something to paint, in pixels.
type shape interface {
	bounds() image.Rectangle
	paint(f *filler)
}

// mark is a shape and the pixels that it may touch.
type mark struct {
	shape shape
	box   image.Rectangle
}

// everywhere is the clip of a drawing that has none.
var everywhere = reach.pixels()

// Drawing is a [Pen] whose calls are kept until they are painted. It serves one goroutine at a time.
type Drawing struct {
	scale float64
	clip  image.Rectangle
	marks []mark
}

var _ Pen = (*Drawing)(nil)

// NewDrawing returns an empty drawing whose unit is that many pixels; a scale that is no number above 0 counts as 1.
func NewDrawing(scale float64) *Drawing {
	if !(scale > 0) || math.IsInf(scale, 0) {
		scale = 1
	}
	return &Drawing{scale: scale, clip: everywhere}
}

// add keeps a shape that the clip lets be seen.
func (d *Drawing) add(s shape) {
	if box := s.bounds().Intersect(d.clip); !box.Empty() {
		d.marks = append(d.marks, mark{s, box})
	}
}

// pixel returns a point in pixels, moved to whole ones for a crisp line of that width in pixels.
func (d *Drawing) pixel(p Point, crisp bool, width float64) Point {
	p = Point{p.X * d.scale, p.Y * d.scale}
	if !crisp {
		return p
	}
	if int(width)%2 == 1 {
		return Point{math.Floor(p.X) + 0.5, math.Floor(p.Y) + 0.5}
	}
	return Point{math.Floor(p.X + 0.5), math.Floor(p.Y + 0.5)}
}

// width returns the width of a stroke in pixels.
func (d *Drawing) width(stroke Stroke) float64 {
	width := stroke.Width * d.scale
	if stroke.Crisp && stroke.Width > 0 {
		return min(max(1, math.Floor(width+0.5)), farthest)
	}
	return min(width, farthest)
}

// Polyline implements [Pen]. A line through one place is seen with a round or a square cap only.
func (d *Drawing) Polyline(points []Point, stroke Stroke) { d.stroke(points, false, stroke) }

// stroke draws a line, closed or not, and its casing.
func (d *Drawing) stroke(points []Point, closed bool, stroke Stroke) {
	if !(stroke.Width > 0) {
		return
	}
	width := d.width(stroke)
	places := make([]Point, len(points))
	for i, p := range points {
		places[i] = d.pixel(p, stroke.Crisp, width)
	}
	phase := clamp(stroke.Phase * d.scale)
	cased := stroked{legs: legsOf(places, closed, phase), half: width / 2, cap: stroke.Cap, join: stroke.Join}
	if stroke.Casing > 0 && stroke.CasingColour.A > 0 {
		casing := cased
		casing.half, casing.colour = min(casing.half+stroke.Casing*d.scale, farthest), stroke.CasingColour
		d.add(&casing)
	}
	if stroke.Colour.A > 0 {
		cased.dashes, cased.colour = dashesOf(stroke.Dash, d.scale), stroke.Colour
		d.add(&cased)
	}
}

// Polygon implements [Pen]. Corners that are no numbers are left out; where sides cross, all that they go round is
// filled.
func (d *Drawing) Polygon(corners []Point, fill color.NRGBA, stroke Stroke) {
	kept := finite(corners)
	if fill.A > 0 && len(kept) > 2 {
		d.add(&polygon{rings: [][]Point{d.corners(kept, stroke)}, colour: fill})
	}
	if stroke.visible() {
		d.stroke(kept, true, stroke)
	}
}

// corners returns the corners of a shape in pixels, as a stroke round it moves them.
func (d *Drawing) corners(points []Point, stroke Stroke) []Point {
	places, width := make([]Point, len(points)), d.width(stroke)
	for i, p := range points {
		place := d.pixel(p, stroke.Crisp, width)
		places[i] = Point{clamp(place.X), clamp(place.Y)}
	}
	return places
}

// Clip implements [Pen]. The box is rounded to whole pixels.
func (d *Drawing) Clip(box Box, draw func()) {
	before := d.clip
	defer func() { d.clip = before }()
	a, b := box.corners()
	a, b = d.pixel(a, true, 0), d.pixel(b, true, 0)
	// Not image.Rect, which would swap the sides of an empty box.
	d.clip = before.Intersect(image.Rectangle{
		Min: image.Pt(int(clamp(a.X)), int(clamp(a.Y))), Max: image.Pt(int(clamp(b.X)), int(clamp(b.Y))),
	})
	draw()
}
