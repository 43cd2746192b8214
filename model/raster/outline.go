package raster

import (
	"math"
	"slices"

	"golang.org/x/image/font/sfnt"
)

// Outline sets one line of text as a page is printed: by the outlines of its letters, each as far from the one before as
// that is wide, turned counter-clockwise about the point by an angle in degrees and moved to no whole pixels. It sets
// letters of any size, where [Drawing.Text] sets those that are read upright on a screen, and faster.
func (d *Drawing) Outline(at Point, text string, lettering Lettering, degrees float64) {
	size := lettering.Size * d.scale
	if lettering.Face == nil || lettering.Colour.A == 0 || !at.finite() || !(size > 0 && size < farthest) {
		return
	}
	if math.IsNaN(degrees) || math.IsInf(degrees, 0) {
		return
	}
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	t := lettering.Face
	unit := size / t.units
	origin := Point{at.X * d.scale, at.Y * d.scale}
	t.mu.Lock()
	defer t.mu.Unlock()
	along := 0.0
	if lettering.Align != AlignLeft {
		along = -t.apart(text) * float64(lettering.Align) / 2
	}
	shape := polygon{colour: lettering.Colour}
	for _, r := range text {
		l := t.letter(r)
		shape.rings = t.rings(shape.rings, l.index, func(x, y float64) Point {
			x, y = (along+x)*unit, y*unit
			return Point{clamp(origin.X + x*cos + y*sin), clamp(origin.Y - x*sin + y*cos)}
		})
		along += l.advance
	}
	if len(shape.rings) > 0 {
		d.add(&shape)
	}
}

// apart is how far the text goes in font units with no letter moved nearer to another. The caller holds the lock.
func (t *Typeface) apart(text string) (width float64) {
	for _, r := range text {
		width += t.letter(r).advance
	}
	return width
}

// rings adds the closed lines of a letter to others, as flat pieces at the places that a place in font units has; none of
// a letter that can't be drawn. The caller holds the lock.
func (t *Typeface) rings(rings [][]Point, index sfnt.GlyphIndex, place func(x, y float64) Point) [][]Point {
	var ring []Point
	for _, segment := range t.shape(index) {
		var to [3]Point
		for i, arg := range segment.Args {
			to[i] = place(float64(arg.X)/64, float64(arg.Y)/64)
		}
		switch segment.Op {
		case sfnt.SegmentOpMoveTo:
			if len(ring) > 2 {
				rings = append(rings, ring)
			}
			ring = append(make([]Point, 0, 32), to[0])
		case sfnt.SegmentOpLineTo:
			ring = append(ring, to[0])
		case sfnt.SegmentOpQuadTo:
			// The same curve with the two middle points of a cubic.
			from := ring[len(ring)-1]
			ring = curve(ring, from, towards(from, to[0], 2./3), towards(to[1], to[0], 2./3), to[1])
		case sfnt.SegmentOpCubeTo:
			ring = curve(ring, ring[len(ring)-1], to[0], to[1], to[2])
		}
	}
	if len(ring) > 2 {
		rings = append(rings, ring)
	}
	return rings
}

// shape is the outline of a letter in 1/64 of font units, y downwards.
func (t *Typeface) shape(index sfnt.GlyphIndex) sfnt.Segments {
	if known, is := t.shapes[index]; is {
		return known
	}
	loaded, err := t.font.LoadGlyph(&t.buffer, index, t.em(), nil)
	if err != nil {
		loaded = nil
	}
	t.shapes[index] = slices.Clone(loaded) // the library uses its own again
	return t.shapes[index]
}

// curve adds a cubic curve from a to d, without a, in pieces that lie within the flatness of it.
func curve(points []Point, a, b, c, d Point) []Point {
	bend := max(math.Hypot(a.X-2*b.X+c.X, a.Y-2*b.Y+c.Y), math.Hypot(b.X-2*c.X+d.X, b.Y-2*c.Y+d.Y))
	// A piece of 1/n of the curve lies within 6/8·bend/n² of its chord.
	count := max(1, math.Ceil(math.Sqrt(min(0.75*bend/flatness, 1e4))))
	for i := 1.0; i < count; i++ {
		s := i / count
		r := 1 - s
		points = append(points, Point{
			r*r*r*a.X + 3*r*r*s*b.X + 3*r*s*s*c.X + s*s*s*d.X,
			r*r*r*a.Y + 3*r*r*s*b.Y + 3*r*s*s*c.Y + s*s*s*d.Y,
		})
	}
	return append(points, d)
}

// towards is the place at a share of the way from a to b.
func towards(a, b Point, share float64) Point {
	return Point{a.X + (b.X-a.X)*share, a.Y + (b.Y-a.Y)*share}
}
