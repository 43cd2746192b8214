package raster

import (
	"image"
	"image/color"
	"math"
)

// polygon is a filled shape in pixels, less the one within it that turns the other way round.
type polygon struct {
	outer, inner []Point
	colour       color.NRGBA
}

func (p *polygon) bounds() image.Rectangle { return boxOf(p.outer).pixels() }

func (p *polygon) paint(f *filler) {
	f.polygon(p.outer...)
	f.polygon(p.inner...)
	f.flush(p.colour)
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
		d.add(&polygon{outer: rounded(sides, radius), colour: fill})
	}
	if !stroke.visible() {
		return
	}
	if len(stroke.Dash) > 0 || stroke.Casing > 0 {
		d.stroke(d.units(rounded(sides, radius)), true, stroke)
		return
	}
	ring := polygon{outer: rounded(sides.Outset(width/2), radius+width/2), colour: stroke.Colour}
	if radius <= 0 {
		ring.outer = rounded(sides.Outset(width/2), 0)
	}
	if within := sides.Outset(-width / 2); !within.Empty() {
		ring.inner = rounded(within, radius-width/2)
		for i, j := 0, len(ring.inner)-1; i < j; i, j = i+1, j-1 {
			ring.inner[i], ring.inner[j] = ring.inner[j], ring.inner[i]
		}
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
