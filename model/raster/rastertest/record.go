// Package rastertest writes down what is drawn, for tests alone.
package rastertest

import (
	"fmt"
	"image/color"
	"strings"

	"stageloom/model/raster"
)

// Record is a [raster.Pen] that writes its calls down, a line each, instead of painting: what a test reads.
type Record struct {
	// Calls has a line a call, coordinates rounded to whole units.
	Calls []string
	// Words are the texts in their order.
	Words []Word

	depth int
}

// Word is a text that was set: the room it takes, the left or right end or the middle of its baseline that it was set
// by, and its size, all in units of the drawing.
type Word struct {
	Text string
	Box  raster.Box
	At   raster.Point
	Size float64 // of the em
}

var _ raster.Pen = (*Record)(nil)

// String returns the calls, a line each.
func (r *Record) String() string { return strings.Join(r.Calls, "\n") + "\n" }

// note writes a call down, indented within clips.
func (r *Record) note(format string, values ...any) {
	r.Calls = append(r.Calls, strings.Repeat("  ", r.depth)+strings.TrimSpace(fmt.Sprintf(format, values...)))
}

// inWords describes a colour, a stroke and points; nothing where there is nothing to see.
func inWords(c color.NRGBA) string {
	if c.A == 0 {
		return "none"
	}
	return fmt.Sprintf("#%02X%02X%02X%02X", c.R, c.G, c.B, c.A)
}

func strokeInWords(s raster.Stroke) string {
	if s.Width <= 0 || s.Colour.A == 0 {
		return ""
	}
	text := fmt.Sprintf(" line %g %s", s.Width, inWords(s.Colour))
	if len(s.Dash) > 0 {
		text += fmt.Sprintf(" dash %v", s.Dash)
	}
	return text
}

func pointsInWords(points []raster.Point) string {
	var text strings.Builder
	for _, p := range points {
		fmt.Fprintf(&text, " %.0f,%.0f", p.X, p.Y)
	}
	return text.String()
}

func cornersInWords(box raster.Box) string {
	return pointsInWords([]raster.Point{{X: box.Left, Y: box.Top}, {X: box.Right, Y: box.Bottom}})
}

// Polyline implements [raster.Pen].
func (r *Record) Polyline(points []raster.Point, stroke raster.Stroke) {
	r.note("polyline%s through%s", strokeInWords(stroke), pointsInWords(points))
}

// Polygon implements [raster.Pen].
func (r *Record) Polygon(corners []raster.Point, fill color.NRGBA, stroke raster.Stroke) {
	r.note("polygon fill %s%s corners%s", inWords(fill), strokeInWords(stroke), pointsInWords(corners))
}

// RoundBox implements [raster.Pen].
func (r *Record) RoundBox(box raster.Box, radius float64, fill color.NRGBA, stroke raster.Stroke) {
	r.note("box%s radius %.0f fill %s%s", cornersInWords(box), radius, inWords(fill), strokeInWords(stroke))
}

// Text implements [raster.Pen].
func (r *Record) Text(at raster.Point, text string, lettering raster.Lettering) {
	if text == "" {
		return
	}
	box := lettering.Box(at, text)
	r.Words = append(r.Words, Word{text, box, at, lettering.Size})
	r.note("text%s %q size %g %s", pointsInWords([]raster.Point{{X: box.Left, Y: at.Y}}), text, lettering.Size, inWords(lettering.Colour))
}

// Image implements [raster.Pen].
func (r *Record) Image(corners [4]raster.Point, picture *raster.Image, opacity float64) {
	if picture == nil {
		return
	}
	wide, tall := picture.Size()
	r.note("image %d×%d corners%s opacity %.2f", wide, tall, pointsInWords(corners[:]), opacity)
}

// Clip implements [raster.Pen].
func (r *Record) Clip(box raster.Box, draw func()) {
	r.note("clip%s", cornersInWords(box))
	r.depth++
	draw()
	r.depth--
}
