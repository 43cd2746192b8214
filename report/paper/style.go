package paper

// Colour is an opaque ink, or None for no ink.
type Colour struct {
	R, G, B uint8
	inked   bool
}

// RGB returns an ink from its red, green and blue parts.
func RGB(r, g, b uint8) Colour { return Colour{R: r, G: g, B: b, inked: true} }

// Grey returns a grey ink: 0 is black, 255 the white of the paper.
func Grey(level uint8) Colour { return RGB(level, level, level) }

// Pale returns the ink lightened towards white by a part from 0, which leaves it
// as it is, to 1. PDF viewers print it alike, unlike transparency.
func (c Colour) Pale(part float64) Colour {
	part = max(0, min(part, 1))
	mix := func(v uint8) uint8 { return uint8(float64(v) + (255-float64(v))*part + 0.5) }
	return Colour{R: mix(c.R), G: mix(c.G), B: mix(c.B), inked: c.inked}
}

// None is no ink: a line or a fill of it is not drawn. Text of it is black.
var None Colour

// The inks of the book. The hues are the Okabe-Ito palette, safe for
// colour-blind eyes, two of them darkened to stand on white paper.
var (
	Black    = Grey(0)
	White    = Grey(255)
	hairline = Grey(165)
	zebra    = Grey(242)
	band     = Grey(224)
)

// Stroke is how a line is drawn.
type Stroke struct {
	Colour Colour
	Width  float64   // in mm; 0 draws nothing
	Dash   []float64 // lengths of dash and gap in mm; empty for a plain line
	Round  bool      // round ends and corners
	Casing float64   // in mm of white along either side, so that lines which cross stay apart
}

// Role is what a mark on a drawing means. The styles of paper are looked up by
// role, so that the drawing itself names no colour.
type Role string

// The roles: the grades of a link, no grade, and what lies around links. On
// paper a grade must be told without colour: by dash, width and badge shape.
const (
	Ungraded Role = ""
	Ample    Role = "ample"
	Enough   Role = "enough"
	Tight    Role = "tight"
	Over     Role = "over"
	Uncabled Role = "uncabled"
	Device   Role = "device"
	Site     Role = "site"
	Area     Role = "area"
	Route    Role = "route"
	Grid     Role = "grid"
	Measure  Role = "measure"
)

// Style is how marks of one role look on paper.
type Style struct {
	Line Stroke
	Fill Colour
	Text Colour
}

const casing = 0.45

var styles = map[Role]Style{
	Ungraded: {Line: Stroke{Colour: Grey(90), Width: 0.2, Casing: casing}, Text: Black},
	Ample:    {Line: Stroke{Colour: RGB(0, 114, 178), Width: 0.35, Casing: casing}, Text: Black},
	Enough:   {Line: Stroke{Colour: RGB(0, 128, 93), Width: 0.45, Dash: []float64{4.2, 1.2}, Casing: casing}, Text: Black},
	Tight:    {Line: Stroke{Colour: RGB(176, 104, 0), Width: 0.6, Dash: []float64{4, 1.1, 0.7, 1.1}, Casing: casing}, Text: Black},
	Over:     {Line: Stroke{Colour: RGB(200, 72, 0), Width: 0.9, Dash: []float64{1.5, 0.8}, Casing: casing}, Text: Black},
	Uncabled: {Line: Stroke{Colour: Grey(100), Width: 0.5, Dash: []float64{0, 1.2}, Round: true, Casing: casing}, Text: Black},
	Device:   {Line: Stroke{Colour: Black, Width: 0.35}, Fill: White, Text: Black},
	Site:     {Line: Stroke{Colour: Grey(130), Width: 0.2}, Fill: Grey(248), Text: Grey(90)},
	Area:     {Line: Stroke{Colour: Grey(150), Width: 0.2}, Fill: Grey(232), Text: Grey(90)},
	Route:    {Line: Stroke{Colour: Grey(215), Width: 1.6, Round: true}, Text: Grey(90)},
	Grid:     {Line: Stroke{Colour: Grey(222), Width: 0.12}, Text: Grey(110)},
	Measure:  {Line: Stroke{Colour: Black, Width: 0.25}, Fill: Black, Text: Black},
}

// StyleOf returns how a role looks on paper, and whether paper knows the role.
func StyleOf(role Role) (Style, bool) {
	style, ok := styles[role]
	return style, ok
}

// Roles returns every role paper can draw, the grades from best to worst first.
func Roles() []Role {
	return []Role{
		Ample, Enough, Tight, Over, Uncabled, Ungraded,
		Device, Site, Area, Route, Grid, Measure,
	}
}

// Align is on which side of its place a text stands.
type Align int

// The alignments.
const (
	Left Align = iota
	Right
	Centre
)

// Lettering is how a line of text is set.
type Lettering struct {
	Face   Face
	Size   float64 // in points; 0 is the body size; never set under 6.5
	Colour Colour  // None is black
	Align  Align
	Angle  float64 // in degrees, counter-clockwise about the text's place
	Plate  float64 // mm of white laid under and around the text; 0 is none
}
