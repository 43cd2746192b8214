package chart

import (
	"stageloom/ui/look"
	"stageloom/ui/raster"
)

// sign says which sign stands before a name in the key.
type sign int

const (
	lossSign sign = iota
	limitSign
	ringSign
	pointerSign
	moreSign // and those after it, for the further curves
)

// entry is one name in the key.
type entry struct {
	sign sign
	text string
	left float64
}

// Widths in the key.
const (
	signWidth = 18.0
	signGap   = 5.0
	entryGap  = 12.0
)

// key lists what the chart shows, row by row as far as a row goes; a name longer than a row is cut.
func (c Curves) key(width float64) [][]entry {
	if len(c.Loss.Points) == 0 {
		return nil
	}
	all := []entry{{sign: lossSign, text: c.Loss.Name}}
	if len(c.Limit.Points) > 0 {
		all = append(all, entry{sign: limitSign, text: c.Limit.Name})
	}
	if c.VerdictName != "" {
		all = append(all, entry{sign: pointerSign, text: c.VerdictName})
	}
	if c.Worst.FreqMHz > 0 {
		all = append(all, entry{sign: ringSign, text: c.worst()})
	}
	for i, more := range c.More {
		all = append(all, entry{sign: moreSign + sign(i), text: more.Name})
	}
	lettering := look.Lettering(wordSize, false, look.Palette{}.Muted)
	var rows [][]entry
	x := width
	for _, e := range all {
		e.text = lettering.Fit(e.text, width-inset-roomLeft-signWidth-signGap)
		room := signWidth + signGap + lettering.Width(e.text)
		if x+room > width-inset {
			rows, x = append(rows, nil), roomLeft
		}
		e.left = x
		rows[len(rows)-1] = append(rows[len(rows)-1], e)
		x += room + entryGap
	}
	return rows
}

// names draws the key at the foot.
func (d drawer) names(width, height float64) {
	lettering := look.Lettering(wordSize, false, d.palette.Muted)
	rows := d.key(width)
	for i, row := range rows {
		y := height - rowHeight*(float64(len(rows)-i)-0.5)
		for _, e := range row {
			d.sign(e, y)
			d.pen.Text(raster.Point{X: e.left + signWidth + signGap, Y: lettering.Middle(y)}, e.text, lettering)
		}
	}
}

// sign draws what a name stands for.
func (d drawer) sign(e entry, y float64) {
	line := []raster.Point{{X: e.left, Y: y}, {X: e.left + signWidth, Y: y}}
	middle := e.left + signWidth/2
	switch e.sign {
	case lossSign:
		d.pen.Polyline(line, d.lossStroke())
	case limitSign:
		d.pen.Polyline(line, d.limitStroke())
	case ringSign:
		d.ring(raster.Point{X: middle, Y: y})
	case pointerSign:
		d.pointer(raster.Point{X: middle - 3.5, Y: y})
	default:
		d.pen.Polyline(line, d.thinStroke(int(e.sign-moreSign)))
	}
}
