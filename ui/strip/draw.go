package strip

import (
	"image/color"

	"stageloom/model/budget"
	"stageloom/model/raster"
	"stageloom/ui/look"
)

// missingDash is the line of what is not there.
var missingDash = []float64{0.5, 4}

// Draw draws the strip; the part of that index is pointed at, -1 is none.
func (l *Layout) Draw(pen raster.Pen, p look.Palette, pointed int) {
	l.drawHeld(pen, p, pointed, Hold{}, "")
}

// drawHeld draws the strip with what a hand holds, and in its head what that would come to.
func (l *Layout) drawHeld(pen raster.Pen, p look.Palette, pointed int, h Hold, told string) {
	l.head(pen, p, pointed, told)
	if len(l.Cells) == 0 {
		l.hint(pen, p)
		return
	}
	if !l.zone.Empty() {
		l.drawLoss(pen, p)
	}
	l.drawCables(pen, p, pointed)
	l.drawAxis(pen, p)
	l.drawHold(pen, p, h)
	for _, word := range l.Labels {
		pen.Text(word.At, word.Text, look.Lettering(word.Size, word.Bold, toneOf(p, word.Tone)))
	}
}

func toneOf(p look.Palette, tone Tone) color.NRGBA {
	if tone == Muted {
		return p.Muted
	}
	return p.Ink
}

// head sets the title, and beside it the note, the hint, all about the part that is pointed at, or what is told.
func (l *Layout) head(pen raster.Pen, p look.Palette, pointed int, told string) {
	title, note := look.Lettering(titleSize, true, p.Ink), look.Lettering(labelSize, false, p.Muted)
	text := l.Note
	if l.Hint != "" && len(l.Cells) > 0 {
		text = joined(l.Note, l.Hint)
	}
	if pointed >= 0 && pointed < len(l.Parts) {
		text, note.Colour = l.Parts[pointed].Detail, p.Ink
	}
	if told != "" {
		text, note = told, look.Lettering(titleSize, true, p.Selection)
	}
	name := title.Fit(l.Title, l.width-2*inset)
	pen.Text(raster.Point{X: inset, Y: 20}, name, title)
	x := inset + title.Width(name) + 8
	pen.Text(raster.Point{X: x, Y: 20}, note.Fit(text, l.width-inset-x), note)
}

// hint says in the middle what to do where nothing can be shown.
func (l *Layout) hint(pen raster.Pen, p look.Palette) {
	face := look.Lettering(nameSize, false, p.Muted)
	face.Align = raster.AlignMiddle
	pen.Text(raster.Point{X: l.width / 2, Y: face.Middle(max(headHeight+10, l.height/2))}, face.Fit(l.Hint, l.width-2*inset), face)
}

// lossLines gives the places of the loss along the run: up to what is assumed or not known, and from there on as far as
// anything is known.
func (l *Layout) lossLines() (sure, assumed []raster.Point) {
	parts := l.Parts
	for len(parts) > 0 && parts[len(parts)-1].Unknown {
		parts = parts[:len(parts)-1]
	}
	sure = append(sure, raster.Point{X: l.x(0), Y: l.y(0)})
	for _, part := range parts {
		end := raster.Point{X: l.x(part.end()), Y: l.y(part.BeforeDB + part.LossDB)}
		if !part.Assumed && !part.Unknown && len(assumed) == 0 {
			sure = append(sure, end)
			continue
		}
		if len(assumed) == 0 {
			assumed = append(assumed, sure[len(sure)-1])
		}
		assumed = append(assumed, end)
	}
	return sure, assumed
}

// drawLoss draws the loss mounting, the limit, and what is left between them at the far end.
func (l *Layout) drawLoss(pen raster.Pen, p look.Palette) {
	grade := p.Grade(l.Grade)
	sure, assumed := l.lossLines()
	veil := grade
	veil.A = 0x1E
	eaten := append(append([]raster.Point(nil), sure...), assumed...)
	end := eaten[len(eaten)-1]
	eaten = append(eaten, raster.Point{X: end.X, Y: l.y(0)})
	pen.Polygon(eaten, veil, raster.Stroke{})
	limit := l.y(l.LimitDB)
	pen.Clip(raster.Box{Left: l.zone.Left, Top: limit, Right: l.zone.Right, Bottom: l.bar.Top}, func() {
		veil.A = 0x40 // what lies over the limit is seen at once
		pen.Polygon(eaten, veil, raster.Stroke{})
	})
	pen.Polyline([]raster.Point{{X: l.zone.Left, Y: l.y(0)}, {X: l.zone.Right, Y: l.y(0)}},
		raster.Stroke{Width: 1, Colour: p.Strong, Crisp: true})
	pen.Polyline([]raster.Point{{X: l.zone.Left, Y: limit}, {X: l.zone.Right + 15, Y: limit}},
		raster.Stroke{Width: 1.4, Colour: p.Ink, Dash: []float64{5, 4}, Crisp: true})
	if len(assumed) > 0 {
		pen.Polyline(assumed, raster.Stroke{Width: 2.2, Colour: grade, Dash: missingDash, Cap: raster.RoundCap})
	}
	pen.Polyline(sure, raster.Stroke{Width: 2.4, Colour: grade})
	if l.HasMargin {
		l.drawMargin(pen, grade, end, limit)
	}
}

// drawMargin draws what is left, from the end of the loss to the limit.
func (l *Layout) drawMargin(pen raster.Pen, grade color.NRGBA, end raster.Point, limit float64) {
	x, stroke := l.zone.Right+10, raster.Stroke{Width: 2, Colour: grade, Crisp: true}
	pen.Polyline([]raster.Point{{X: x, Y: end.Y}, {X: x, Y: limit}}, stroke)
	for _, y := range []float64{end.Y, limit} {
		pen.Polyline([]raster.Point{{X: x - 3, Y: y}, {X: x + 4, Y: y}}, stroke)
	}
}

// drawCables draws the cables and, over them, what joins them.
func (l *Layout) drawCables(pen raster.Pen, p look.Palette, pointed int) {
	edge := raster.Stroke{Width: 1.2, Colour: p.Ink, Crisp: true}
	chosen := raster.Stroke{Width: 2.5, Colour: p.Selection, Crisp: true}
	for i, part := range l.Parts {
		if part.joint() {
			continue
		}
		stroke, fill := edge, p.Stage
		if part.Assumed {
			fill.A = 0
			stroke = raster.Stroke{Width: 1.6, Colour: p.Uncabled, Dash: missingDash, Cap: raster.RoundCap}
		}
		if i == pointed {
			stroke = chosen
		}
		pen.RoundBox(l.Cells[i], 3, fill, stroke)
	}
	for i, part := range l.Parts {
		if !part.joint() {
			continue
		}
		fill, stroke := p.Ink, raster.Stroke{}
		switch {
		case part.Assumed:
			fill, stroke = p.Panel, raster.Stroke{Width: 1, Colour: p.Uncabled, Crisp: true}
		case part.What == budget.Panel:
			fill, stroke = p.Panel, edge
		case part.What == budget.Inner:
			fill = p.Muted
		}
		if i == pointed {
			fill = p.Selection
		}
		pen.RoundBox(l.Cells[i], 1.5, fill, stroke)
	}
}

// drawAxis draws ticks below the cables, and marks above and below them where the run ends.
func (l *Layout) drawAxis(pen raster.Pen, p look.Palette) {
	tick := raster.Stroke{Width: 1, Colour: p.Muted, Crisp: true}
	for _, x := range l.ticks {
		pen.Polyline([]raster.Point{{X: x, Y: l.bar.Bottom + 5}, {X: x, Y: l.bar.Bottom + 9}}, tick)
	}
	if l.Length > 0 {
		x := l.x(l.Length)
		pen.Polyline([]raster.Point{{X: x, Y: l.bar.Bottom + 2}, {X: x, Y: l.bar.Bottom + 10}},
			raster.Stroke{Width: 1.5, Colour: p.Ink, Crisp: true})
		pen.Polygon([]raster.Point{{X: x - 4, Y: l.bar.Top - 7}, {X: x + 4, Y: l.bar.Top - 7}, {X: x, Y: l.bar.Top - 1}}, p.Ink, raster.Stroke{})
	}
}
