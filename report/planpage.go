package report

import (
	"fmt"

	"stageloom/model/picture"
	"stageloom/model/plan"
	"stageloom/report/paper"
)

// drawPlan draws the plan to a round scale, in parts where one sheet can't be read, and then the links whose label found
// no place.
func (p *printout) drawPlan(b *paper.Book) {
	if p.atlas == nil {
		p.atlas = p.chart(b)
	}
	for _, s := range p.atlas.sheets {
		b.NewPageOf(p.atlas.format)
		if b.Err() != nil {
			return
		}
		p.drawSheet(b, s)
	}
	p.drawKeyList(b)
	p.drawListed(b)
}

// chart lays the plan out for the sheet chosen.
func (p *printout) chart(b *paper.Book) *atlas {
	c := &cartographer{
		scene: picture.Compose(p.Plan, p.Budgets), measure: measuring(b), grey: p.choice.Grey, known: map[arranged]*picture.Arrangement{},
	}
	c.scene.Lay(p.choice.Images...)
	c.view = func(format paper.Format) (width, height float64) {
		room := p.rooms(b, c.scene, format)
		return room.drawing.W / pointMM, room.drawing.H / pointMM
	}
	return c.lay(b.Format().Sheet)
}

// rooms are the boxes of a plan page, in millimetres on the sheet.
type rooms struct{ title, drawing, foot paper.Box }

// rooms shares out a plan page: the title, the drawing in its frame, and a foot as high as the legend is.
func (p *printout) rooms(b *paper.Book, scene *picture.Scene, format paper.Format) rooms {
	area, k := format.Area(), typeScale(format)
	r := rooms{title: area, drawing: area, foot: area}
	r.title.H = 9 * k
	foot := p.footHeight(b, scene, area.W, k)
	r.foot.Y, r.foot.H = area.Bottom()-foot, foot
	r.drawing.Y = area.Y + r.title.H
	r.drawing.H = area.H - r.title.H - foot - 2*k
	return r
}

// drawSheet draws one page of the plan.
func (p *printout) drawSheet(b *paper.Book, s planPage) {
	k := typeScale(p.atlas.format)
	b.Take(b.Area().H)
	r := p.rooms(b, s.picture.Scene(), p.atlas.format)
	b.Pen(r.title).Text(paper.Point{Y: 6 * k}, s.title(), paper.Lettering{Face: paper.Bold, Size: 17 * k})
	pen := b.Pen(r.drawing)
	whole := paper.Box{W: r.drawing.W, H: r.drawing.H}
	plan := &planPen{pen: pen, grey: p.choice.Grey, images: p.image}
	ground, rest := groundOf(s.picture.Marks)
	pen.Clip(whole, func() {
		picture.Draw(ground, plan)
		drawFrames(pen, s)
		picture.Draw(rest, plan)
		drawTags(pen, s)
	})
	pen.Polygon(outline(whole), paper.None, paper.Stroke{Colour: paper.Black, Width: 0.3})
	p.drawFoot(b, s, r.foot, k)
}

// title says what the sheet shows.
func (s planPage) title() string {
	scale := s.scale()
	switch n := s.of; {
	case s.part > 0:
		return fmt.Sprintf("Plan, part %d of %d, %s", s.part, n, scale)
	case n == 1:
		return "Plan, whole, " + scale + "; larger on part 1"
	case n == 2:
		return "Plan, whole, " + scale + "; larger on parts 1 and 2"
	case n > 2:
		return fmt.Sprintf("Plan, whole, %s; larger on parts 1 to %d", scale, n)
	}
	return "Plan, " + scale
}

// scale is the scale of a sheet in words; where nothing has a place on the ground there is none.
func (s planPage) scale() string {
	if !s.picture.Scene().Grounded() {
		return picture.NotToScale
	}
	return fmt.Sprintf("1 : %d", s.denominator)
}

// shown is a picture under the plan as it is printed.
type shown struct {
	source  string
	opacity float64
}

// image is the picture of a source at an opacity, grey in a grey print; each is made once, however many sheets it lies on.
func (p *printout) image(source string, opacity float64) (paper.Picture, bool) {
	if p.choice.Picture == nil {
		return paper.Picture{}, false
	}
	key := shown{source, opacity}
	made, known := p.images[key]
	if !known {
		if whole, found := p.choice.Picture(source); found {
			made = whole.Faded(opacity, p.choice.Grey)
		}
		if p.images == nil {
			p.images = map[shown]paper.Picture{}
		}
		p.images[key] = made
	}
	return made, made != paper.Picture{}
}

// groundOf parts a picture's marks: the ground, on which the frames of other sheets are drawn, and what stands on it.
func groundOf(marks []picture.Mark) (ground, rest []picture.Mark) {
	for i, m := range marks {
		if m.Ref.Table == plan.LinksTable || m.Ref.Table == plan.DevicesTable {
			return marks[:i], marks[i:]
		}
	}
	return marks, nil
}

// outline returns the corners of a box.
func outline(b paper.Box) []paper.Point {
	return []paper.Point{{X: b.X, Y: b.Y}, {X: b.Right(), Y: b.Y}, {X: b.Right(), Y: b.Bottom()}, {X: b.X, Y: b.Bottom()}}
}
