package raster

import (
	"fmt"
	"image/color"
	"strings"
)

// Record is a [Pen] that writes its calls down, a line each, instead of painting: what a test reads.
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
	Box  Box
	At   Point
	Size float64 // of the em
}

var _ Pen = (*Record)(nil)

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

func strokeInWords(s Stroke) string {
	if !s.visible() {
		return ""
	}
	text := fmt.Sprintf(" line %g %s", s.Width, inWords(s.Colour))
	if len(s.Dash) > 0 {
		text += fmt.Sprintf(" dash %v", s.Dash)
	}
	return text
}

func pointsInWords(points []Point) string {
	var text strings.Builder
	for _, p := range points {
		fmt.Fprintf(&text, " %.0f,%.0f", p.X, p.Y)
	}
	return text.String()
}

// Polyline implements [Pen].
func (r *Record) Polyline(points []Point, stroke Stroke) {
	r.note("polyline%s through%s", strokeInWords(stroke), pointsInWords(points))
}

// Polygon implements [Pen].
func (r *Record) Polygon(corners []Point, fill color.NRGBA, stroke Stroke) {
	r.note("polygon fill %s%s corners%s", inWords(fill), strokeInWords(stroke), pointsInWords(corners))
}

// RoundBox implements [Pen].
func (r *Record) RoundBox(box Box, radius float64, fill color.NRGBA, stroke Stroke) {
	a, b := box.corners()
	r.note("box%s radius %.0f fill %s%s", pointsInWords([]Point{a, b}), radius, inWords(fill), strokeInWords(stroke))
}

// Text implements [Pen].
func (r *Record) Text(at Point, text string, lettering Lettering) {
	if text == "" {
		return
	}
	box := lettering.Box(at, text)
	r.Words = append(r.Words, Word{text, box, at, lettering.Size})
	r.note("text%s %q size %g %s", pointsInWords([]Point{{box.Left, at.Y}}), text, lettering.Size, inWords(lettering.Colour))
}

// Image implements [Pen].
func (r *Record) Image(corners [4]Point, picture *Image, opacity float64) {
	if picture == nil {
		return
	}
	wide, tall := picture.Size()
	r.note("image %d×%d corners%s opacity %.2f", wide, tall, pointsInWords(corners[:]), opacity)
}

// Clip implements [Pen].
func (r *Record) Clip(box Box, draw func()) {
	a, b := box.corners()
	r.note("clip%s", pointsInWords([]Point{a, b}))
	r.depth++
	draw()
	r.depth--
}
