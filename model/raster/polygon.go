package raster

import (
	"image"
	"image/color"
	"math"
	"slices"
)

// polygon is a filled shape in pixels, less those within it that turn the other way round.
type polygon struct {
	rings  [][]Point
	colour color.NRGBA
}

func (p *polygon) bounds() image.Rectangle {
	box := boxOf(p.rings[0])
	for _, ring := range p.rings[1:] {
		box = box.around(boxOf(ring))
	}
	return box.pixels()
}

func (p *polygon) paint(f *filler) {
	for _, ring := range p.rings {
		f.polygon(ring...)
	}
	f.flush(p.colour)
}

// Rings fills the shape within several closed lines, less those of them that lie within it and turn the other way round,
// without a seam where they touch. Corners that are no numbers are left out.
func (d *Drawing) Rings(rings [][]Point, fill color.NRGBA) {
	shape := polygon{colour: fill}
	for _, ring := range rings {
		if kept := finite(ring); len(kept) > 2 {
			shape.rings = append(shape.rings, d.corners(kept, Stroke{}))
		}
	}
	if fill.A > 0 && len(shape.rings) > 0 {
		d.add(&shape)
	}
}

// RoundBox implements [Pen]. The radius is held to half the smaller side; a circle is a round box too.
func (d *Drawing) RoundBox(box Box, radius float64, fill color.NRGBA, stroke Stroke) {
	width := d.width(stroke)
	a, b := box.corners()
	a, b = d.pixel(a, stroke.Crisp, width), d.pixel(b, stroke.Crisp, width)
	sides := Box{clamp(a.X), clamp(a.Y), clamp(b.X), clamp(b.Y)}
	if box.Empty() || sides.Empty() {
		return
	}
	radius = clamp(radius * d.scale)
	if fill.A > 0 {
		d.add(&polygon{rings: [][]Point{rounded(sides, radius)}, colour: fill})
	}
	if !stroke.visible() {
		return
	}
	if len(stroke.Dash) > 0 || stroke.Casing > 0 {
		d.stroke(d.units(rounded(sides, radius)), true, stroke)
		return
	}
	outer := rounded(sides.Outset(width/2), 0)
	if radius > 0 {
		outer = rounded(sides.Outset(width/2), radius+width/2)
	}
	ring := polygon{rings: [][]Point{outer}, colour: stroke.Colour}
	if within := sides.Outset(-width / 2); !within.Empty() {
		inner := rounded(within, radius-width/2)
		slices.Reverse(inner)
		ring.rings = append(ring.rings, inner)
	}
	d.add(&ring)
}

// units returns points in pixels as units of the drawing.
func (d *Drawing) units(pixels []Point) []Point {
	for i, p := range pixels {
		pixels[i] = Point{p.X / d.scale, p.Y / d.scale}
	}
	return pixels
}

// rounded returns the corners of a box with rounded corners, clockwise as one sees it.
func rounded(box Box, radius float64) []Point {
	radius = max(0, min(radius, box.Width()/2, box.Height()/2))
	points := make([]Point, 0, 32)
	for _, corner := range [4]struct {
		centre Point
		spoke  Point
	}{
		{Point{box.Left + radius, box.Top + radius}, Point{X: -radius}},
		{Point{box.Right - radius, box.Top + radius}, Point{Y: -radius}},
		{Point{box.Right - radius, box.Bottom - radius}, Point{X: radius}},
		{Point{box.Left + radius, box.Bottom - radius}, Point{Y: radius}},
	} {
		points = append(points, corner.centre.plus(corner.spoke.X, corner.spoke.Y))
		if radius > 0 {
			points = arc(points, corner.centre, corner.spoke, math.Pi/2)
			points = append(points, corner.centre.plus(-corner.spoke.Y, corner.spoke.X))
		}
	}
	return points
}
