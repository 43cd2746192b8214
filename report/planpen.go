package report

import (
	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/report/paper"
)

// pointMM is a point of type in millimetres; a point of a picture's view is one.
const pointMM = 25.4 / 72

// planPen draws a picture's marks on paper, from the top left corner of the pen's box. It is a picture.Pen.
type planPen struct {
	pen    *paper.Pen
	grey   bool
	faint  bool
	images func(source string, opacity float64) (paper.Picture, bool)
}

// pale is the part by which what is faint is lightened.
const pale = 0.6

// Fade makes what follows faint, or plain again.
func (p *planPen) Fade(faint bool) { p.faint = faint }

// Stroke draws a line through points.
func (p *planPen) Stroke(points []geom.Point, role picture.Role) {
	p.pen.Polyline(onPaper(points), p.look(role).line())
}

// Fill fills a polygon.
func (p *planPen) Fill(points []geom.Point, role picture.Role) {
	p.pen.Polygon(onPaper(points), p.look(role).ink, paper.Stroke{})
}

// Panel fills and edges a box with rounded corners; a blank role draws none.
func (p *planPen) Panel(box geom.Box, radius float64, fill, edge picture.Role) {
	corner := onPaper([]geom.Point{box.Min})[0]
	on := paper.Box{X: corner.X, Y: corner.Y, W: box.Width() * pointMM, H: box.Height() * pointMM}
	p.pen.RoundBox(on, radius*pointMM, p.look(fill).ink, p.look(edge).line())
}

// Words writes a line of text, centred in height at a point.
func (p *planPen) Words(at geom.Point, anchor picture.Anchor, text string, size float64, bold bool, role picture.Role) {
	l := lettering(size, bold)
	l.Colour = p.look(role).ink
	l.Align = map[picture.Anchor]paper.Align{picture.Left: paper.Left, picture.Right: paper.Right, picture.Centre: paper.Centre}[anchor]
	if (role == picture.RolePositionText || role == picture.RoleAreaText) && !p.faint {
		l.Plate = 0.35 // it may stand across a line
	}
	_, height := p.pen.Measure(text, l)
	place := onPaper([]geom.Point{at})[0]
	place.Y += height / 2
	p.pen.Text(place, text, l)
}

// Image draws the picture of a source, as faint on white as its opacity says.
func (p *planPen) Image(corners [4]geom.Point, source string, opacity float64) {
	if p.images == nil || p.pen.Counts() {
		return
	}
	if p.faint {
		opacity *= 1 - pale
	}
	if shown, found := p.images(source, opacity); found {
		p.pen.Placed([4]paper.Point(onPaper(corners[:])), shown)
	}
}

func (p *planPen) look(role picture.Role) look {
	if role == "" {
		return look{}
	}
	l := lookOf(role, p.grey)
	if p.faint {
		l.ink = l.ink.Pale(pale)
	}
	return l
}

// measuring returns the measure of a picture's text on paper.
func measuring(b *paper.Book) picture.Measure {
	return func(text string, size float64, bold bool) float64 {
		width, _ := b.Measure(text, lettering(size, bold))
		return width / pointMM
	}
}

// lettering is how a picture's text is set.
func lettering(size float64, bold bool) paper.Lettering {
	if bold {
		return paper.Lettering{Face: paper.Bold, Size: size}
	}
	return paper.Lettering{Size: size}
}

// onPaper turns points of a view into millimetres.
func onPaper(points []geom.Point) []paper.Point {
	on := make([]paper.Point, len(points))
	for i, at := range points {
		on[i] = paper.Point{X: at.X * pointMM, Y: at.Y * pointMM}
	}
	return on
}
