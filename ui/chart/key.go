package chart

import (
	"math"

	"stageloom/model/raster"
	"stageloom/ui/look"
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

// keyLine is how far down the middle of a row of the key lies.
func keyLine(row, rows int, height float64) float64 {
	return height - rowHeight*(float64(rows-row)-0.5)
}

// Explain says what the name in the key at a point of a chart of some size means; blank beside the names, and where a
// name says so itself.
func (c Curves) Explain(at raster.Point, width, height float64) string {
	lettering := look.Lettering(wordSize, false, look.Palette{}.Muted)
	rows := c.key(width)
	for i, row := range rows {
		if math.Abs(at.Y-keyLine(i, len(rows), height)) > rowHeight/2 {
			continue
		}
		for _, e := range row {
			if at.X >= e.left && at.X <= e.left+signWidth+signGap+lettering.Width(e.text) {
				return c.meaning(e.sign)
			}
		}
	}
	return ""
}

// meaning says what a name in the key stands for.
func (c Curves) meaning(s sign) string {
	switch s {
	case lossSign:
		if c.Above {
			return "What the link has at each frequency: the more the better."
		}
		return "What the link loses at each frequency: the less the better."
	case limitSign:
		if c.Above {
			return "The least that is allowed at each frequency."
		}
		return "The most that is allowed at each frequency."
	case pointerSign:
		return "The limit that grades the link: one figure, at 100 MHz."
	case ringSign:
		worst := "The ring: " + c.WorstWords() + "."
		if c.Above {
			return worst
		}
		return worst + " It is advice: the link is graded at 100 MHz."
	}
	return ""
}

// names draws the key at the foot.
func (d drawer) names(width, height float64) {
	lettering := look.Lettering(wordSize, false, d.palette.Muted)
	rows := d.key(width)
	for i, row := range rows {
		y := keyLine(i, len(rows), height)
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
