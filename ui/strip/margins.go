package strip

import (
	"fmt"
	"math"

	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/raster"
	"stageloom/ui/look"
)

// Bar is a graded link with its margin.
type Bar struct {
	Link     plan.LinkID
	Name     string
	Standing budget.Grade
	// MarginDB counts where Known is set; else the link has no cable yet, or not enough.
	MarginDB, WantedDB float64
	Known              bool
}

// Sizes of the margins, in units of the screen.
const (
	scaleRoom  = 46.0 // for the figures of the scale, at the left
	wantedRoom = 84.0 // for what is wanted, at the right
	wantedFrom = 640.0
	nameRoom   = 18.0 // for the names, below
	figureRoom = 16.0 // over the highest bar
	mostPitch  = 54.0
	leastPitch = 13.0
	namedPitch = 31.0 // narrower bars bear no figure, and no name unless they are few
	mostShown  = 20.0 // dB: more margin is drawn as much
)

// MarginsLayout says where each bar goes.
type MarginsLayout struct {
	Bars []Bar
	// More counts the links with more margin for which there is no room.
	More          int
	width, height float64
	zone          raster.Box
	pitch         float64
	top, bottom   float64 // dB
	// Boxes are the bars with the ground below and above them, which a press hits.
	Boxes []raster.Box
}

// LayOutMargins lays bars out in a space of that size.
func LayOutMargins(bars []Bar, width, height float64) *MarginsLayout {
	l := &MarginsLayout{Bars: bars, width: width, height: height}
	right := width - inset - 12
	if width >= wantedFrom {
		right = width - inset - wantedRoom
	}
	l.zone = raster.Box{Left: inset + scaleRoom, Top: headHeight + figureRoom, Right: right, Bottom: height - nameRoom - 4}
	if len(bars) == 0 || l.zone.Width() < 60 || l.zone.Height() < 24 {
		l.Bars = nil
		return l
	}
	if room := int(l.zone.Width() / leastPitch); room < len(bars) {
		l.Bars, l.More = bars[:room], len(bars)-room
	}
	l.pitch = min(mostPitch, l.zone.Width()/float64(len(l.Bars)))
	l.top, l.bottom = 5, 0
	for _, bar := range l.Bars {
		if bar.Known {
			l.top, l.bottom = max(l.top, min(mostShown, bar.MarginDB)), min(l.bottom, max(-mostShown, bar.MarginDB))
		}
		l.top = max(l.top, bar.WantedDB)
	}
	if l.bottom < 0 && l.pitch >= namedPitch { // for the figures below them
		l.zone.Bottom -= figureRoom
	}
	l.Boxes = make([]raster.Box, len(l.Bars))
	for i := range l.Bars {
		left := l.zone.Left + l.pitch*float64(i)
		l.Boxes[i] = raster.Box{Left: left, Top: headHeight, Right: left + l.pitch, Bottom: height}
	}
	return l
}

func (l *MarginsLayout) y(dB float64) float64 {
	dB = max(l.bottom, min(l.top, dB))
	return l.zone.Top + l.zone.Height()*(l.top-dB)/(l.top-l.bottom)
}

// BarAt is the bar at a place; some is false where there is none.
func (l *MarginsLayout) BarAt(at raster.Point) (index int, some bool) {
	for i, box := range l.Boxes {
		if at.X >= box.Left && at.X < box.Right && at.Y >= box.Top {
			return i, true
		}
	}
	return 0, false
}

// Draw draws the bars; the one of that index is pointed at, -1 is none.
func (l *MarginsLayout) Draw(pen raster.Pen, p look.Palette, pointed int) {
	title, note := look.Lettering(titleSize, true, p.Ink), look.Lettering(labelSize, false, p.Muted)
	pen.Text(raster.Point{X: inset, Y: 20}, "Margins", title)
	x := inset + title.Width("Margins") + 8
	pen.Text(raster.Point{X: x, Y: 20}, note.Fit(l.note(pointed), l.width-inset-x), note)
	if len(l.Bars) == 0 {
		return
	}
	l.scale(pen, p)
	for i := range l.Bars {
		l.bar(pen, p, i, i == pointed)
	}
	y := l.y(0)
	pen.Polyline([]raster.Point{{X: l.zone.Left, Y: y}, {X: l.zone.Right, Y: y}}, raster.Stroke{Width: 1.4, Colour: p.Ink, Crisp: true})
	l.wanted(pen, p)
}

// note says what the bars are, or what the one that is pointed at says.
func (l *MarginsLayout) note(pointed int) string {
	switch {
	case len(l.Bars) == 0:
		return "Links that carry a loss limit stand here by their margin once the plan has some."
	case pointed >= 0 && pointed < len(l.Bars):
		bar := l.Bars[pointed]
		if !bar.Known {
			return bar.Name + " has no margin yet: " + string(bar.Standing)
		}
		return fmt.Sprintf("%s %s dB, %s; %s dB are wanted", bar.Name, budget.TenthDB(bar.MarginDB), bar.Standing, budget.TenthDB(bar.WantedDB))
	case l.More > 0:
		return fmt.Sprintf("the %d graded links with the least, in dB; %d have more; a click selects one", len(l.Bars), l.More)
	}
	return "every graded link in dB, least first; a click selects it"
}

// scale draws lines every 5 dB, each with its figure.
func (l *MarginsLayout) scale(pen raster.Pen, p look.Palette) {
	face := look.Lettering(smallSize, false, p.Muted)
	face.Align = raster.AlignRight
	step := 5.0
	for (l.top-l.bottom)/step*15 > l.zone.Height() {
		step *= 2
	}
	for dB := math.Ceil(l.bottom/step) * step; dB <= l.top; dB += step {
		y, words := l.y(dB), fmt.Sprintf("%.0f dB", dB)
		if dB == 0 {
			words = "limit"
		}
		pen.Polyline([]raster.Point{{X: l.zone.Left, Y: y}, {X: l.zone.Right, Y: y}}, raster.Stroke{Width: 1, Colour: p.Hairline, Crisp: true})
		pen.Text(raster.Point{X: l.zone.Left - 6, Y: face.Middle(y)}, words, face)
	}
}

// bar draws a bar with its margin and its name, as far as it is wide enough; what has no margin is hollow.
func (l *MarginsLayout) bar(pen raster.Pen, p look.Palette, at int, pointed bool) {
	bar, cell := l.Bars[at], l.Boxes[at]
	colour := p.Grade(string(bar.Standing))
	gap := min(5, l.pitch/6)
	box := raster.Box{Left: cell.Left + gap, Right: cell.Right - gap}
	middle := (cell.Left + cell.Right) / 2
	figure, name := look.Lettering(smallSize, false, p.Ink), look.Lettering(smallSize, true, p.Ink)
	figure.Align, name.Align = raster.AlignMiddle, raster.AlignMiddle
	if pointed {
		veil := p.Selection
		veil.A = 0x22
		pen.RoundBox(cell, 3, veil, raster.Stroke{})
	}
	if bar.Known {
		y := l.y(bar.MarginDB)
		box.Top, box.Bottom = min(y, l.y(0)), max(y, l.y(0)+1)
		pen.RoundBox(box, 1, colour, raster.Stroke{})
	} else {
		box.Top, box.Bottom = l.y(min(l.top, 5)), l.y(0)
		pen.RoundBox(box, 1, p.Panel, raster.Stroke{Width: 1, Colour: p.Muted})
	}
	if l.pitch >= namedPitch {
		words := "?"
		if bar.Known {
			words = budget.TenthDB(bar.MarginDB)
		}
		pen.Text(raster.Point{X: middle, Y: l.figureAt(&bar, box)}, words, figure)
	}
	if every := int(math.Ceil(namedPitch / l.pitch)); at%every == 0 {
		pen.Text(raster.Point{X: middle, Y: l.height - 7}, name.Fit(bar.Name, l.pitch*float64(every)-2), name)
	}
}

// figureAt is where the foot of a bar's figure stands: above the bar, and above the line of what is wanted where that would
// cross it, or below a bar below the limit.
func (l *MarginsLayout) figureAt(bar *Bar, box raster.Box) float64 {
	if bar.Known && bar.MarginDB < 0 {
		return box.Bottom + 13
	}
	foot, line := box.Top-4, l.y(bar.WantedDB)
	if line < foot+3 && line > foot-12 {
		foot = line - 4
	}
	return foot
}

// wanted draws the margin that each link should have as a broken line over the bars.
func (l *MarginsLayout) wanted(pen raster.Pen, p look.Palette) {
	for i := 0; i < len(l.Bars); {
		j := i
		for j < len(l.Bars) && l.Bars[j].WantedDB == l.Bars[i].WantedDB {
			j++
		}
		y := l.y(l.Bars[i].WantedDB)
		pen.Polyline([]raster.Point{{X: l.Boxes[i].Left, Y: y}, {X: l.Boxes[j-1].Right, Y: y}},
			raster.Stroke{Width: 1, Colour: p.Ink, Dash: []float64{4, 3}, Crisp: true})
		i = j
	}
	if l.width >= wantedFrom {
		note, last := look.Lettering(smallSize, false, p.Muted), len(l.Bars)-1
		words := fmt.Sprintf("wanted %.1f dB", l.Bars[last].WantedDB)
		pen.Text(raster.Point{X: l.Boxes[last].Right + 5, Y: note.Middle(l.y(l.Bars[last].WantedDB))}, words, note)
	}
}
