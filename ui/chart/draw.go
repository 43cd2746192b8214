package chart

import (
	"cmp"
	"fmt"
	"image/color"

	"stageloom/model/raster"
	"stageloom/ui/look"
)

// Sizes of words in units of the screen.
const (
	titleSize = 12.5
	wordSize  = 11.0
)

// Draw draws the curves into a space of that size, its top left corner at the origin. Where hoverMHz is above 0 the
// values there are read out, else those at the worst point.
func (c Curves) Draw(pen raster.Pen, width, height float64, p look.Palette, hoverMHz float64) {
	d := drawer{c, plotOf(c, width, height), pen, p}
	title := look.Lettering(titleSize, true, p.Ink)
	d.words(raster.Point{X: inset, Y: 13}, title, cmp.Or(c.Title, "Loss over frequency"), width-2*inset)
	if c.Hint != "" || len(c.Loss.Points) == 0 {
		d.words(raster.Point{X: inset, Y: 31}, look.Lettering(wordSize, false, p.Muted), c.Hint, width-2*inset)
		return
	}
	if d.box.Width() < 40 || d.box.Height() < 30 {
		return
	}
	d.grid()
	pen.Clip(d.box.Outset(1), d.lines)
	d.points()
	d.readOut(width, hoverMHz)
	d.names(width, height)
}

// drawer draws one chart.
type drawer struct {
	Curves
	plot
	pen     raster.Pen
	palette look.Palette
}

// words sets as much of a text as finds room.
func (d drawer) words(at raster.Point, lettering raster.Lettering, text string, room float64) {
	d.pen.Text(at, lettering.Fit(text, room), lettering)
}

// grid draws the ground, the lines and their figures.
func (d drawer) grid() {
	hair := raster.Stroke{Width: 1, Colour: d.palette.Strong, Crisp: true}
	fine := raster.Stroke{Width: 1, Colour: d.palette.Hairline, Crisp: true}
	d.pen.RoundBox(d.box, 0, d.palette.Ground, raster.Stroke{})
	figures := look.Lettering(wordSize, false, d.palette.Muted)
	for dB := 0.0; dB <= d.deepest; dB += d.step {
		y := d.y(dB)
		if dB > 0 && dB < d.deepest {
			d.pen.Polyline([]raster.Point{{X: d.box.Left, Y: y}, {X: d.box.Right, Y: y}}, fine)
		}
		right := figures
		right.Align = raster.AlignRight
		text := fmt.Sprintf("%.0f", dB)
		if dB == 0 {
			text = "0 dB"
		}
		d.pen.Text(raster.Point{X: d.box.Left - 7, Y: figures.Middle(y)}, text, right)
	}
	d.frequencies(figures, fine)
	d.pen.RoundBox(d.box, 0, color.NRGBA{}, hair)
}

// frequencies draws the upright lines and their figures; the last bears the unit and ends where the chart does.
func (d drawer) frequencies(figures raster.Lettering, fine raster.Stroke) {
	marks := d.marks()
	edge := d.box.Right + roomRight - inset
	free := edge
	for i := len(marks) - 1; i >= 0; i-- {
		x := d.x(marks[i])
		if marks[i] > d.low && marks[i] < d.top {
			d.pen.Polyline([]raster.Point{{X: x, Y: d.box.Top}, {X: x, Y: d.box.Bottom}}, fine)
		}
		text := fmt.Sprintf("%.0f", marks[i])
		if i == len(marks)-1 {
			text += " MHz"
		}
		left := min(x-figures.Width(text)/2, edge-figures.Width(text))
		if left+figures.Width(text) > free {
			continue
		}
		free = left - 6
		d.pen.Text(raster.Point{X: left, Y: d.box.Bottom + 14}, text, figures)
	}
}

// lossStroke is the line of the loss: in the colour of its grade, but plain, so that the limit alone is dashed.
func (d drawer) lossStroke() raster.Stroke {
	return raster.Stroke{Width: 2.2, Colour: d.palette.Grade(d.Grade)}
}

// limitStroke is the line of the limit.
func (d drawer) limitStroke() raster.Stroke {
	return raster.Stroke{Width: 1.4, Colour: d.palette.Ink, Dash: []float64{4, 3}}
}

// thinStroke is the line of one of the further curves, each with dashes of its own.
func (d drawer) thinStroke(i int) raster.Stroke {
	dashes := [][]float64{nil, {2, 2}, {8, 2}, {8, 2, 2, 2}}
	return raster.Stroke{Width: 1.2, Colour: d.palette.Muted, Dash: dashes[i%len(dashes)]}
}

// lines draws the curves and a veil over what lies between the loss and its limit.
func (d drawer) lines() {
	loss, limit := d.line(d.Loss), d.line(d.Limit)
	between := append([]raster.Point(nil), loss...)
	for i := len(limit) - 1; i >= 0; i-- {
		between = append(between, limit[i])
	}
	veil := d.palette.Grade(d.Grade)
	veil.A = 0x20
	if len(limit) > 0 {
		d.pen.Polygon(between, veil, raster.Stroke{})
	}
	for i, more := range d.More {
		d.pen.Polyline(d.line(more), d.thinStroke(i))
	}
	d.pen.Polyline(limit, d.limitStroke())
	d.pen.Polyline(loss, d.lossStroke())
}

// points draws the ring at the worst point and points from beside the plot at the limit that grades.
func (d drawer) points() {
	if d.VerdictName != "" && drawable(d.Verdict) {
		d.pointer(raster.Point{X: d.box.Right + 2, Y: d.y(d.Verdict.DB)})
	}
	if d.Worst.FreqMHz > 0 && drawable(d.Worst) {
		d.ring(d.place(d.Worst))
	}
}

// pointer draws a small triangle whose tip is at a point.
func (d drawer) pointer(tip raster.Point) {
	d.pen.Polygon([]raster.Point{tip, {X: tip.X + 7, Y: tip.Y - 4}, {X: tip.X + 7, Y: tip.Y + 4}}, d.palette.Ink, raster.Stroke{})
}

// ring draws a ring that shows what lies within it.
func (d drawer) ring(at raster.Point) {
	const radius = 4.5
	d.pen.RoundBox(raster.CircleBox(at, radius), radius, color.NRGBA{}, raster.Stroke{Width: 1.6, Colour: d.palette.Ink})
}

// readOut says the values at the pointer, or the summary.
func (d drawer) readOut(width, hoverMHz float64) {
	text := d.Summary()
	if hoverMHz > 0 {
		x := d.x(hoverMHz)
		d.pen.Polyline([]raster.Point{{X: x, Y: d.box.Top}, {X: x, Y: d.box.Bottom}},
			raster.Stroke{Width: 1, Colour: d.palette.Selection, Crisp: true})
		for _, curve := range append([]Curve{d.Loss, d.Limit}, d.More...) {
			if dB, some := curve.At(hoverMHz); some && dB <= d.deepest {
				d.pen.RoundBox(raster.CircleBox(raster.Point{X: x, Y: d.y(dB)}, 2.5), 2.5, d.palette.Selection, raster.Stroke{})
			}
		}
		text = d.ReadOut(hoverMHz)
	}
	d.words(raster.Point{X: inset, Y: 30}, look.Lettering(wordSize, false, d.palette.Muted), text, width-2*inset)
}
