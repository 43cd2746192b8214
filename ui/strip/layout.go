package strip

import (
	"math"

	"stageloom/model/budget"
	"stageloom/model/quantity"
	"stageloom/model/raster"
	"stageloom/ui/look"
)

// Heights and widths of the strip, in units of the screen.
const (
	inset      = 10.0 // free at both sides
	headHeight = 30.0 // title and note
	labelRoom  = 16.0 // above the loss, so that its first label finds room
	barGap     = 16.0 // between loss and cables
	barHeight  = 24.0
	axisHeight = 30.0
	leastZone  = 34.0 // a lower one shows no loss at all
	leastSide  = 58.0
	mostSide   = 150.0
	// leastMargin is the room for the margin at the far end.
	leastMargin = 96.0
)

// Sizes of words.
const (
	titleSize  = 13.0
	nameSize   = 12.5
	labelSize  = 12.0
	smallSize  = 11.0
	marginSize = 15.0
)

// Beyond these nothing is shown: a figure that large, or none at all, is a slip.
const (
	mostMetres = 1e6
	mostDB     = 1e4
)

// Layout says where everything of a strip goes.
type Layout struct {
	Run
	width, height float64
	zone          raster.Box // the loss; empty where none is shown
	bar           raster.Box // the cables
	deepest       float64    // dB at the foot of the zone
	all           float64    // metres between the sides of the bar

	// Cells are the boxes of the parts, index by index.
	Cells []raster.Box
	// Labels are all words but those of head and hint.
	Labels []Label
	ticks  []float64 // places of the axis that bear a label
}

// LayOut lays a run out in a space of that size.
func LayOut(r Run, width, height float64) *Layout {
	l := &Layout{Run: r, width: width, height: height, all: r.metres()}
	if len(r.Parts) == 0 || !(l.all > 0 && l.all < mostMetres) {
		return l
	}
	left, right := l.sides()
	l.bar = raster.Box{Left: left, Right: width - right}
	if l.bar.Width() < 40 {
		return l
	}
	l.rows()
	l.cells()
	l.cableLabels()
	l.endLabels()
	l.axisLabels()
	if !l.zone.Empty() {
		l.limitLabel()
		l.marginLabel()
		l.lossLabels()
	}
	return l
}

// sides is the room for the names of the ends and for the margin, at the left and at the right.
func (l *Layout) sides() (left, right float64) {
	most := min(mostSide, l.width/5)
	side := func(end End) float64 {
		return max(lettering(nameSize, true).Width(end.Name), lettering(smallSize, false).Width(end.Port)) + 22
	}
	left, right = min(most, max(leastSide, side(l.Near))), min(most, max(leastSide, side(l.Far)))
	if l.HasMargin {
		right = max(right, min(leastMargin, l.width/4))
	}
	return left + inset, right + inset
}

// rows shares out the height: the cables stand at the foot, the loss has what is left.
func (l *Layout) rows() {
	l.bar.Bottom = l.height - axisHeight
	l.bar.Top = l.bar.Bottom - barHeight
	zone := raster.Box{Left: l.bar.Left, Top: headHeight + labelRoom, Right: l.bar.Right, Bottom: l.bar.Top - barGap}
	l.deepest = max(l.LimitDB, l.loss())
	if l.Graded && l.LimitDB > 0 && l.loss() > 0 && l.deepest < mostDB && zone.Height() >= leastZone {
		l.zone = zone
		return
	}
	if spare := l.bar.Top - headHeight; spare > 0 {
		l.bar.Top, l.bar.Bottom = l.bar.Top-spare/2, l.bar.Bottom-spare/2
	}
}

// x is the place of a distance along the cable, in metres.
func (l *Layout) x(metres float64) float64 { return l.bar.Left + l.bar.Width()*metres/l.all }

// y is the place of a loss in dB.
func (l *Layout) y(dB float64) float64 { return l.zone.Top + l.zone.Height()*dB/l.deepest }

// widthOf is how wide a joint is drawn: narrower where the cables between are short.
func (l *Layout) widthOf(what budget.What) float64 {
	shortest := math.Inf(1)
	for _, part := range l.Parts {
		if !part.joint() {
			shortest = min(shortest, l.x(part.end())-l.x(part.Start))
		}
	}
	width := map[budget.What]float64{budget.Coupler: 7, budget.Panel: 8, budget.Connection: 4, budget.Inner: 3}[what]
	return max(2, math.Round(width*min(1, shortest/16)))
}

// cells places the parts: cables to scale, joints between them, those of one place side by side. At the ends of the
// run they stand outside it.
func (l *Layout) cells() {
	l.Cells = make([]raster.Box, len(l.Parts))
	for i := 0; i < len(l.Parts); i++ {
		part := l.Parts[i]
		if !part.joint() {
			l.Cells[i] = raster.Box{Left: l.x(part.Start), Top: l.bar.Top, Right: l.x(part.end()), Bottom: l.bar.Bottom}
			continue
		}
		last, wide := i, 0.0
		for ; last < len(l.Parts) && l.Parts[last].joint(); last++ {
			wide += l.widthOf(l.Parts[last].What) + 1
		}
		at := l.x(part.Start) - wide/2
		switch {
		case i == 0:
			at = l.x(part.Start) - wide
		case last == len(l.Parts):
			at = l.x(part.Start) + 1
		}
		for ; i < last; i++ {
			tall := 4.0
			if l.Parts[i].What == budget.Inner {
				tall = 0
			}
			width := l.widthOf(l.Parts[i].What)
			l.Cells[i] = raster.Box{Left: at, Top: l.bar.Top - tall, Right: at + width, Bottom: l.bar.Bottom + tall}
			at += width + 1
		}
		i--
	}
}

// PartAt returns the part under a point, joints before the cables that they lie on, and whether there is one.
func (l *Layout) PartAt(at raster.Point) (index int, some bool) {
	best := -1
	for i, cell := range l.Cells {
		if l.Parts[i].joint() {
			cell = cell.Outset(2)
		}
		if cell.Contains(at) && (best < 0 || l.Parts[i].joint()) {
			best = i
		}
	}
	return best, best >= 0
}

// unit is the unit of the axis: its sign and its length in metres.
func (l *Layout) unit() (sign string, metres float64) {
	if l.System == quantity.Imperial {
		return " ft", 0.3048
	}
	return " m", 1
}

// stepFor returns the smallest of 1, 2, 5, 10, 20 … units that are at least so wide.
func (l *Layout) stepFor(least float64) float64 {
	_, metres := l.unit()
	for decade := 0.1; ; decade *= 10 {
		for _, step := range []float64{1, 2, 5} {
			if l.x(step*decade*metres)-l.x(0) >= least {
				return step * decade
			}
		}
	}
}

// lossAt is the loss at a place between the sides, in dB: the least and the most of those at one place.
func (l *Layout) lossAt(x float64) (least, most float64) {
	metres := min(max((x-l.bar.Left)/l.bar.Width(), 0), 1) * l.all
	least, most = math.Inf(1), 0
	for _, part := range l.Parts {
		if metres < part.Start-1e-9 || metres > part.end()+1e-9 {
			continue
		}
		low, high := part.BeforeDB, part.BeforeDB+part.LossDB
		if part.Length > 0 {
			low = part.BeforeDB + part.LossDB*min(1, max(0, metres-part.Start)/part.Length)
			high = low
		}
		least, most = min(least, low), max(most, high)
	}
	return min(least, most), most
}

// LossY is where the line of the loss runs at a place, and whether one is drawn there.
func (l *Layout) LossY(x float64) (y float64, drawn bool) {
	if l.zone.Empty() {
		return 0, false
	}
	least, _ := l.lossAt(x)
	return l.y(least), x >= l.zone.Left && x <= l.zone.Right
}

// lettering is a face for measuring; what draws it gives it a colour.
func lettering(size float64, bold bool) raster.Lettering {
	return raster.Lettering{Face: look.Face(bold), Size: size}
}
