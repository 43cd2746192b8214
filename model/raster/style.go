package raster

import "image/color"

// Cap is the shape of the ends of a line and of its dashes.
type Cap int

// The caps. A dash of no length is seen with a round or a square cap only.
const (
	ButtCap Cap = iota
	RoundCap
	SquareCap
)

// Join is the shape of a line's corners.
type Join int

// The joins.
const (
	RoundJoin Join = iota
	BevelJoin
	MitreJoin // as BevelJoin where the corner is sharper than 29°
)

// Stroke says how a line is drawn. The zero Stroke draws nothing.
type Stroke struct {
	// Width is in units of the drawing.
	Width float64
	// Colour is not premultiplied.
	Colour color.NRGBA
	// Dash gives lengths on, off, on, off … in units of the drawing; none draws the line plain. It runs on round corners.
	Dash []float64
	// Phase is how far into the dashes the line starts.
	Phase float64
	Cap   Cap
	Join  Join
	// Casing is the width, on each side, of a plain line in CasingColour that lies under this one and parts it from
	// what it crosses.
	Casing       float64
	CasingColour color.NRGBA
	// Crisp moves the line to whole pixels, at least one wide, so that upright and level lines are not blurred.
	Crisp bool
}

// visible reports whether the stroke puts anything on the image.
func (s Stroke) visible() bool { return s.Width > 0 && s.Colour.A > 0 }

// Align is where lettering lies beside its point.
type Align int

// The alignments: the text starts at, is centred on, or ends at the point.
const (
	AlignLeft Align = iota
	AlignMiddle
	AlignRight
)

// Lettering says how text is set, in one line.
type Lettering struct {
	Face *Typeface
	// Size is the size of the em in units of the drawing.
	Size   float64
	Colour color.NRGBA
	Align  Align
}

// Width is the width of the text in units of the drawing.
func (l Lettering) Width(text string) float64 { return l.Face.Width(text, l.Size) }

// Fit is [Typeface.Fit] at this size.
func (l Lettering) Fit(text string, width float64) string { return l.Face.Fit(text, l.Size, width) }

// Box is the room that the text takes when its baseline passes through the point: from the ascent to the descent of
// the face and over the whole advance.
func (l Lettering) Box(at Point, text string) Box {
	width := l.Width(text)
	left := at.X - width*float64(l.Align)/2
	return Box{left, at.Y - l.Face.Ascent(l.Size), left + width, at.Y + l.Face.Descent(l.Size)}
}

// Middle is the y of a baseline that puts the capitals of the face midway about y.
func (l Lettering) Middle(y float64) float64 { return y + l.Face.CapHeight(l.Size)/2 }
