package strip

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/quantity"
	"stageloom/model/raster"
)

// Tone says in what colour a label is set.
type Tone uint8

// The tones of labels.
const (
	Ink Tone = iota
	Muted
)

// Label is a text and where it stands.
type Label struct {
	Text string
	// At is the left end of its baseline.
	At   raster.Point
	Size float64
	Bold bool
	Tone Tone
	// Box is the room it takes.
	Box raster.Box
}

// label makes a label with its left end at x, its capitals midway about y.
func label(text string, x, y, size float64, bold bool, tone Tone) Label {
	face := lettering(size, bold)
	at := raster.Point{X: x, Y: face.Middle(y)}
	return Label{text, at, size, bold, tone, face.Box(at, text)}
}

// put keeps a label.
func (l *Layout) put(label Label) { l.Labels = append(l.Labels, label) }

// free reports whether a box lies on no label that is there already, with a little room about it.
func (l *Layout) free(box raster.Box) bool {
	for _, other := range l.Labels {
		if box.Outset(1.5).Overlaps(other.Box) {
			return false
		}
	}
	return true
}

// cableLabels names each cable within its box, as fully as there is room for.
func (l *Layout) cableLabels() {
	for i, part := range l.Parts {
		if part.joint() {
			continue
		}
		room := l.inside(i)
		face := lettering(labelSize, false)
		for _, text := range part.Labels {
			if width := face.Width(text); text != "" && width <= room.Width()-10 {
				tone := Ink
				if part.Assumed {
					tone = Muted
				}
				l.put(label(text, room.Centre().X-width/2, room.Centre().Y, labelSize, false, tone))
				break
			}
		}
	}
}

// inside is what joints leave free of a cable's box.
func (l *Layout) inside(index int) raster.Box {
	room := l.Cells[index]
	for i, cell := range l.Cells {
		switch {
		case !l.Parts[i].joint():
		case i < index:
			room.Left = max(room.Left, cell.Right)
		case i > index:
			room.Right = min(room.Right, max(room.Left, cell.Left))
		}
	}
	return room
}

// endLabels names the two ends beside the cables.
func (l *Layout) endLabels() {
	name, port := lettering(nameSize, true), lettering(smallSize, false)
	middle := l.bar.Centre().Y
	left, right := l.bar.Left, l.bar.Right
	for i, cell := range l.Cells {
		if l.Parts[i].joint() {
			left, right = min(left, cell.Left), max(right, cell.Right)
		}
	}
	left, right = left-9, right+9
	for _, end := range []struct {
		End
		room float64
		x    func(width float64) float64
	}{
		{l.Near, left - inset, func(width float64) float64 { return left - width }},
		{l.Far, l.width - right - inset, func(float64) float64 { return right }},
	} {
		text := name.Fit(end.Name, end.room)
		l.put(label(text, end.x(name.Width(text)), middle-7, nameSize, true, Ink))
		text = port.Fit(end.Port, end.room)
		l.put(label(text, end.x(port.Width(text)), middle+8, smallSize, false, Muted))
	}
}

// axisLabels names distances below the cables; where the run ends goes before them.
func (l *Layout) axisLabels() {
	face := lettering(smallSize, false)
	if l.Length > 0 {
		l.axisLabel("run "+l.length(roundedUp(l.Length, l.System)), l.x(l.Length), Ink)
	}
	if l.axisLabel(l.length(l.all), l.x(l.all), Muted) {
		l.ticks = append(l.ticks, l.x(l.all))
	}
	sign, metres := l.unit()
	step := l.stepFor(face.Width("0000"+sign) + 22)
	for n := 0.0; n*step*metres <= l.all*(1+1e-9); n++ {
		x := l.x(n * step * metres)
		if l.axisLabel(strings.TrimSuffix(fmt.Sprintf("%.1f", n*step), ".0")+sign, x, Muted) {
			l.ticks = append(l.ticks, x)
		}
	}
}

// axisLabel names a place on the axis unless another name lies there.
func (l *Layout) axisLabel(text string, x float64, tone Tone) bool {
	width := lettering(smallSize, false).Width(text)
	left := min(max(x-width/2, inset), l.width-inset-width)
	made := label(text, left, l.bar.Bottom+17, smallSize, false, tone)
	if !l.free(made.Box.Outset(5)) {
		return false
	}
	l.put(made)
	return true
}

// length prints metres in tenths, whole ones without.
func (l *Layout) length(metres float64) string {
	return strings.Replace(quantity.PrintLength(metres, l.System, 1), ".0 ", " ", 1)
}

// limitLabel names the limit at the left, clear of the loss.
func (l *Layout) limitLabel() {
	text := fmt.Sprintf("limit %.1f dB", l.LimitDB)
	width := lettering(smallSize, false).Width(text)
	limit := l.y(l.LimitDB)
	for _, x := range []float64{l.zone.Left + 4, l.zone.Right - width - 4} {
		for _, y := range []float64{limit - 8, limit + 9} {
			made := label(text, x, y, smallSize, false, Muted)
			if l.clear(made.Box) && l.free(made.Box) {
				l.put(made)
				return
			}
		}
	}
}

// marginLabel says at the far end what is left of the limit.
func (l *Layout) marginLabel() {
	if !l.HasMargin {
		return
	}
	text, words := budget.TenthDB(l.MarginDB)+" dB", "in hand"
	if l.MarginDB < 0 {
		words = "over the limit"
	}
	x := l.bar.Right + 20
	y := (l.y(l.loss()) + l.y(l.LimitDB)) / 2
	y = min(max(y-7, l.zone.Top), l.zone.Bottom-16)
	size := marginSize
	for size > labelSize && lettering(size, true).Width(text) > l.width-inset-x {
		size--
	}
	l.put(label(lettering(size, true).Fit(text, l.width-inset-x), x, y, size, true, Ink))
	l.put(label(lettering(smallSize, false).Fit(words, l.width-inset-x), x, y+16, smallSize, false, Muted))
}

// clear reports whether a box is off the line of the loss, in the zone or just beside it.
func (l *Layout) clear(box raster.Box) bool {
	least, _ := l.lossAt(box.Left - 2)
	_, most := l.lossAt(box.Right + 2)
	above, below := box.Bottom <= l.y(least)-2, box.Top >= l.y(most)+2
	return (above || below) && box.Top >= headHeight-2 && box.Bottom <= l.bar.Top-5
}

// mostJoints is how many joints are told one by one.
const mostJoints = 4

// lossLabels says what each part loses, the greatest losses first; those that find no place are left out. Many joints
// are told together.
func (l *Layout) lossLabels() {
	joints, jointsDB := 0, 0.0
	for _, part := range l.Parts {
		if part.joint() {
			joints, jointsDB = joints+1, jointsDB+part.LossDB
		}
	}
	if joints > mostJoints {
		l.jointsTogether(joints, jointsDB)
	}
	order := make([]int, len(l.Parts))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool { return l.Parts[order[a]].LossDB > l.Parts[order[b]].LossDB })
	for _, i := range order {
		part := l.Parts[i]
		switch {
		case part.joint():
			if joints <= mostJoints {
				l.jointLoss(part)
			}
		case part.Unknown && !part.Assumed:
			l.cableLoss(i, "loss not known")
		case !part.Unknown:
			l.cableLoss(i, "−"+budget.LossTenths(part.LossDB)+" dB")
		}
	}
}

// crosses reports whether a level line runs through a box.
func crosses(box raster.Box, y float64) bool { return box.Top < y+1 && box.Bottom > y-1 }

// try keeps a label if nothing lies there.
func (l *Layout) try(made Label) bool {
	limit := l.y(l.LimitDB)
	onLine := crosses(made.Box, limit) || crosses(made.Box, l.y(0))
	if onLine || !l.clear(made.Box) || !l.free(made.Box) || made.Box.Left < l.zone.Left-20 || made.Box.Right > l.zone.Right+6 {
		return false
	}
	l.put(made)
	return true
}

// jointsTogether says what all joints lose, in the free corner below the loss or above it.
func (l *Layout) jointsTogether(count int, lossDB float64) {
	text := fmt.Sprintf("%d joints lose %s dB", count, budget.LossTenths(lossDB))
	width, limit := lettering(smallSize, false).Width(text), l.y(l.LimitDB)
	for _, at := range []raster.Point{
		{X: l.zone.Left + 4, Y: limit - 22},
		{X: l.zone.Left + 4, Y: limit - 8},
		{X: l.zone.Right - width - 4, Y: l.y(0) + 10},
		{X: l.zone.Left + 4, Y: limit + 22},
	} {
		if l.try(label(text, at.X, at.Y, smallSize, false, Muted)) {
			return
		}
	}
}

// cableLoss says what a cable loses, above its line or below it.
func (l *Layout) cableLoss(index int, text string) {
	part := l.Parts[index]
	width := lettering(labelSize, false).Width(text)
	from, to := l.x(part.Start), l.x(part.end())
	if width > to-from {
		return
	}
	tone := Ink
	if part.Assumed || part.Unknown {
		tone = Muted
	}
	for _, share := range []float64{0.5, 0.35, 0.65} {
		x := min(max(from+(to-from)*share-width/2, from), to-width)
		least, _ := l.lossAt(x)
		_, most := l.lossAt(x + width)
		if l.try(label(text, x, l.y(least)-11, labelSize, false, tone)) || l.try(label(text, x, l.y(most)+11, labelSize, false, tone)) {
			return
		}
	}
}

// jointLoss says what a joint loses, beside its step.
func (l *Layout) jointLoss(part Part) {
	if len(part.Labels) == 0 || !(part.LossDB > 0) {
		return
	}
	text := part.Labels[0] + " −" + budget.LossTenths(part.LossDB)
	width := lettering(smallSize, false).Width(text)
	x := l.x(part.Start)
	above, below := l.y(part.BeforeDB), l.y(part.BeforeDB+part.LossDB)
	for _, place := range []raster.Point{
		{X: x + 7, Y: math.Min(below-9, above+2)},
		{X: x - 7 - width, Y: below + 8},
		{X: x + 7, Y: above - 10},
	} {
		if l.try(label(text, place.X, place.Y, smallSize, false, Muted)) {
			return
		}
	}
}
