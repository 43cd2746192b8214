package planview

import (
	"image/color"

	"fyne.io/fyne/v2"

	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/ui/look"
	"stageloom/ui/raster"
)

// Look is how the plan looks: styles of the roles and the faces of its words.
type Look struct {
	styles  map[picture.Role]look.Style
	regular *raster.Typeface
	bold    *raster.Typeface
}

// NewLook returns the looks of a palette with the faces that the widgets have too.
func NewLook(p look.Palette) (Look, error) {
	l := Look{styles: p.Styles()}
	var err error
	if l.regular, err = typeface(look.Regular()); err != nil {
		return Look{}, err
	}
	l.bold, err = typeface(look.Bold())
	return l, err
}

func typeface(font fyne.Resource) (*raster.Typeface, error) {
	return raster.ParseTypeface(font.Content())
}

// Measure implements picture.Measure.
func (l Look) Measure(text string, size float64, bold bool) float64 {
	return l.face(bold).Width(text, size)
}

func (l Look) face(bold bool) *raster.Typeface {
	if bold {
		return l.bold
	}
	return l.regular
}

// Pen returns a picture.Pen that draws with this look.
func (l Look) Pen(on raster.Pen) picture.Pen { return &pen{look: l, on: on} }

// pen draws a picture's marks on a raster.
type pen struct {
	look  Look
	on    raster.Pen
	faint bool
}

// faintness is the share of its strength that a faded mark keeps, of 255.
const faintness = 60

func (p *pen) colour(role picture.Role) color.NRGBA {
	colour := p.look.styles[role].Colour
	if p.faint {
		colour.A = uint8(int(colour.A) * faintness / 255)
	}
	return colour
}

func (p *pen) stroke(role picture.Role) raster.Stroke {
	style := p.look.styles[role]
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
	lettering := raster.Lettering{Face: p.look.face(bold), Size: size, Colour: p.colour(role), Align: alignments[anchor]}
	p.on.Text(raster.Point{X: at.X, Y: lettering.Middle(at.Y)}, text, lettering)
}
