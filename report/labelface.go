package report

import (
	"math"
	"strings"

	"stageloom/report/paper"
)

// flagWidth is from which width on a label is a flag: folded round the cable, readable from both sides.
const flagWidth = 2 * leastLabelWidth

func drawLabel(pen *paper.Pen, one label, plain bool) {
	width, height := pen.Size()
	edge := paper.Stroke{Colour: paper.Grey(170), Width: 0.1}
	if plain {
		pen.Polygon(outline(paper.Box{W: width, H: height}), paper.None, edge)
	}
	if width < flagWidth {
		drawFace(pen, paper.Box{W: width, H: height}, one)
		return
	}
	fold := paper.Stroke{Colour: paper.Grey(120), Width: 0.15, Dash: []float64{1, 1}}
	pen.Polyline([]paper.Point{{X: width / 2}, {X: width / 2, Y: height}}, fold)
	drawFace(pen, paper.Box{W: width / 2, H: height}, one)
	drawFace(pen, paper.Box{X: width / 2, W: width / 2, H: height}, one)
}

// Sizes on a label in millimetres.
const (
	codeSize   = 12.0
	quietZone  = codeSize / 21 * 4 // ISO/IEC 18004: four modules
	labelInset = 2.2
)

// drawFace prints one face of a label: the id large, which end, where from and to, what to mind, and the code.
func drawFace(pen *paper.Pen, box paper.Box, one label) {
	in := box.Inset(labelInset)
	code := codeSize + quietZone
	end := paper.Lettering{Face: paper.Bold, Size: 12, Align: paper.Right}
	endWidth, _ := pen.Measure(one.end, end)
	pen.Text(paper.Point{X: in.Right(), Y: in.Y + 4.2}, one.end, end)
	id := paper.Lettering{Face: paper.Mono, Size: 15}
	shrink(pen, one.id, &id, in.W-endWidth-2)
	pen.Text(paper.Point{X: in.X, Y: in.Y + 4.2}, one.id, id)
	y := in.Y + 9
	room := in.W - code - 1
	for _, line := range one.lines {
		for _, words := range wrapped(pen, line, paper.Lettering{Size: 8.5}, room, 2) {
			pen.Text(paper.Point{X: in.X, Y: y}, words, paper.Lettering{Size: 8.5})
			y += 3.4
		}
	}
	markFace(pen, in, one.unissued)
	foot := in.Bottom()
	if one.warning != "" {
		warning := paper.Lettering{Face: paper.Bold, Size: 8.5, Colour: paper.White}
		width, _ := pen.Measure(one.warning, warning)
		pen.Polygon(outline(paper.Box{X: in.X, Y: foot - 4, W: width + 2, H: 4}), paper.Black, paper.Stroke{})
		pen.Text(paper.Point{X: in.X + 1, Y: foot - 1}, one.warning, warning)
		foot -= 5
	}
	if one.marks != "" && foot-1 > y-2.4 {
		marks := paper.Lettering{Face: paper.Bold, Size: 10}
		shrink(pen, one.marks, &marks, room)
		pen.Text(paper.Point{X: in.X, Y: foot - 0.4}, one.marks, marks)
	}
	drawCode(pen, paper.Point{X: in.Right() - codeSize, Y: in.Bottom() - codeSize}, one.code, codeSize)
}

// shrink makes a lettering smaller until a text has room, and no smaller than paper sets.
func shrink(pen *paper.Pen, text string, l *paper.Lettering, room float64) {
	for l.Size > 6.5 {
		if width, _ := pen.Measure(text, *l); width <= room {
			return
		}
		l.Size = math.Max(6.5, l.Size-0.5)
	}
}

// wrapped breaks a text at blanks, not at no-break ones, into at most so many lines; what is left over is cut.
func wrapped(pen *paper.Pen, text string, l paper.Lettering, room float64, most int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Split(text, " ") {
		longer := strings.Trim(line+" "+word, " ")
		if width, _ := pen.Measure(longer, l); width > room && line != "" {
			lines, line = append(lines, line), word
			continue
		}
		line = longer
	}
	lines = append(lines, line)
	if len(lines) > most {
		lines[most-1] = strings.Join(lines[most-1:], " ")
		lines = lines[:most]
	}
	for i := range lines {
		lines[i] = fitted(pen, lines[i], l, room)
	}
	return lines
}

// fitted cuts a text to its room with an ellipsis.
func fitted(pen *paper.Pen, text string, l paper.Lettering, room float64) string {
	if width, _ := pen.Measure(text, l); width <= room {
		return text
	}
	runes := []rune(text)
	for n := len(runes) - 1; n > 0; n-- {
		cut := strings.TrimRight(string(runes[:n]), " ,") + "…"
		if width, _ := pen.Measure(cut, l); width <= room {
			return cut
		}
	}
	return ""
}
