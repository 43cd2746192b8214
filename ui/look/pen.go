package look

import (
	"image/color"

	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/model/raster"
)

// Inks draw the plan in a palette: the style of every role, ready at hand.
type Inks struct {
	styles map[picture.Role]Style
	images Images
}

// Images gives the picture of a source, ready to be painted; nil where there is none, or not yet.
type Images func(source string) *raster.Image

// NewInks returns the inks of a palette.
func NewInks(p Palette) Inks { return Inks{styles: p.Styles()} }

// With returns the inks with the pictures that lie on the ground.
func (l Inks) With(images Images) Inks {
	l.images = images
	return l
}

// Measure implements picture.Measure.
func (Inks) Measure(text string, size float64, bold bool) float64 {
	return Face(bold).Width(text, size)
}

// Pen returns a picture.Pen that draws with these inks.
func (l Inks) Pen(on raster.Pen) picture.Pen { return &pen{inks: l, on: on} }

// pen draws a picture's marks on a raster.
type pen struct {
	inks  Inks
	on    raster.Pen
	faint bool
}

// faintness is the share of its strength that a faded mark keeps, of 255.
const faintness = 60

func (p *pen) colour(role picture.Role) color.NRGBA {
	colour := p.inks.styles[role].Colour
	if p.faint {
		colour.A = uint8(int(colour.A) * faintness / 255)
	}
	return colour
}

func (p *pen) stroke(role picture.Role) raster.Stroke {
	style := p.inks.styles[role]
	stroke := raster.Stroke{Width: style.Width, Colour: p.colour(role), Dash: style.Dash, Crisp: role == picture.RoleGridFine || role == picture.RoleGridCoarse}
	if len(style.Dash) > 0 && style.Dash[0] < style.Width {
		stroke.Cap = raster.RoundCap // dots
	}
	return stroke
}

func corners(points []geom.Point) []raster.Point {
	list := make([]raster.Point, len(points))
	for i, at := range points {
		list[i] = raster.Point(at)
	}
	return list
}

// Fade implements picture.Pen.
func (p *pen) Fade(faint bool) { p.faint = faint }

// Stroke implements picture.Pen.
func (p *pen) Stroke(points []geom.Point, role picture.Role) {
	p.on.Polyline(corners(points), p.stroke(role))
}

// Fill implements picture.Pen.
func (p *pen) Fill(points []geom.Point, role picture.Role) {
	p.on.Polygon(corners(points), p.colour(role), raster.Stroke{})
}

// Panel implements picture.Pen.
func (p *pen) Panel(box geom.Box, radius float64, fill, edge picture.Role) {
	p.on.RoundBox(raster.Box{Left: box.Min.X, Top: box.Min.Y, Right: box.Max.X, Bottom: box.Max.Y}, radius, p.colour(fill), p.stroke(edge))
}

var alignments = map[picture.Anchor]raster.Align{
	picture.Left: raster.AlignLeft, picture.Centre: raster.AlignMiddle, picture.Right: raster.AlignRight,
}

// Words implements picture.Pen.
func (p *pen) Words(at geom.Point, anchor picture.Anchor, text string, size float64, bold bool, role picture.Role) {
	lettering := Lettering(size, bold, p.colour(role))
	lettering.Align = alignments[anchor]
	p.on.Text(raster.Point{X: at.X, Y: lettering.Middle(at.Y)}, text, lettering)
}

// Image implements picture.Pen.
func (p *pen) Image(at [4]geom.Point, source string, opacity float64) {
	if p.inks.images == nil {
		return
	}
	if p.faint {
		opacity = opacity * faintness / 255
	}
	p.on.Image([4]raster.Point(corners(at[:])), p.inks.images(source), opacity)
}
