package paper

// headHeight returns the height of a table's title and heads.
func (t *layout) headHeight(title string) float64 {
	height := t.titleHeight(title)
	lines := 1
	for i := range t.table.Columns {
		lines = max(lines, len(t.headLines(i)))
	}
	return height + float64(lines)*t.sizes.line(t.sizes.head) + 2*t.padY
}

// titleHeight returns the height of the title over the heads.
func (t *layout) titleHeight(title string) float64 {
	if title == "" {
		return 0
	}
	return float64(len(t.titleLines(title)))*t.sizes.line(t.sizes.heading) + 1*t.book.Scale()
}

// Most lines of a head over its column and of a title over its table.
const (
	mostHead  = 3
	mostTitle = 8
)

// titleLines wraps a title.
func (t *layout) titleLines(title string) []string {
	ready := t.book.quiet(title, Bold)
	return wrapped(ready, t.sizes.heading, t.box.W, mostTitle)
}

// wrapped breaks a head or a title into lines, the last of which is cut where so many do not do.
func wrapped(ready printable, size, width float64, most int) []string {
	lines := wrap(ready.text, ready.face, size, width)
	if len(lines) > most {
		lines = append(lines[:most-1], truncate(lines[most-1]+" "+lines[most], ready.face, size, width))
	}
	return lines
}

// headLines wraps the head of column i to at most three lines.
func (t *layout) headLines(i int) []string {
	return wrapped(t.book.quiet(t.table.Columns[i].Head, Bold), t.sizes.head, t.columns[i]-2*t.padX, mostHead)
}

// heads draws the title and the heads of the columns, resting on one rule.
func (t *layout) heads(title string) {
	box := t.book.Take(t.headHeight(title))
	pen := t.book.pen(box)
	if title != "" {
		ready := t.book.clean(title, Bold)
		for i, line := range t.titleLines(title) {
			pen.set(Point{0, t.sizes.heading*pointMM + float64(i)*t.sizes.line(t.sizes.heading)}, line, Lettering{Face: ready.face, Size: t.sizes.heading})
		}
	}
	line := t.sizes.line(t.sizes.head)
	x := 0.0
	for i, column := range t.table.Columns {
		face := t.book.clean(column.Head, Bold).face
		lines := t.headLines(i)
		for j, text := range lines {
			y := box.H - t.padY - float64(len(lines)-1-j)*line - line*0.22
			t.put(pen, x, t.columns[i], y, column.Align, text, Lettering{Face: face, Size: t.sizes.head})
		}
		x += t.columns[i]
	}
	pen.Polyline([]Point{{0, box.H}, {box.W, box.H}}, Stroke{Colour: Black, Width: 0.4})
	t.top = box.Bottom()
}

// put sets a text in a column.
func (t *layout) put(pen *Pen, x, width, baseline float64, align Align, text string, l Lettering) {
	l.Align = align
	at := Point{X: x + t.padX, Y: baseline}
	switch align {
	case Right:
		at.X = x + width - t.padX
	case Centre:
		at.X = x + width/2
	}
	pen.set(at, text, l)
}

// drawRow draws one row.
func (t *layout) drawRow(row laid) {
	box := t.book.Take(row.height)
	pen := t.book.pen(box)
	switch {
	case row.blank:
		t.drawBlank(pen, box)
	case row.empty:
		t.across(pen, box, t.table.Empty, Oblique)
	case row.row.Kind == Group:
		t.drawGroup(pen, box, row)
	default:
		t.drawCells(pen, box, row)
	}
	t.rules = append(t.rules, box.Bottom())
}

// drawGroup draws a heading across the table.
func (t *layout) drawGroup(pen *Pen, box Box, row laid) {
	pen.Polygon(corners(Box{W: box.W, H: box.H}), band, Stroke{})
	t.group, t.stripe = row.row.cell(0).Text, false
	t.across(pen, box, t.group, Bold)
}

// across sets one line of text across the table.
func (t *layout) across(pen *Pen, box Box, text string, face Face) {
	ready := t.book.clean(text, face)
	rise := capHeight * t.sizes.body * pointMM
	pen.set(Point{t.padX, (box.H + rise) / 2}, ready.cut(t.sizes.body, box.W-2*t.padX), Lettering{Face: ready.face})
}

// drawBlank draws a row for the pen, with the columns marked.
func (t *layout) drawBlank(pen *Pen, box Box) {
	x := 0.0
	for _, width := range t.columns[:len(t.columns)-1] {
		x += width
		pen.Polyline([]Point{{x, box.H * 0.55}, {x, box.H}}, Stroke{Colour: hairline, Width: 0.12})
	}
}

// drawCells draws an ordinary row or a total.
func (t *layout) drawCells(pen *Pen, box Box, row laid) {
	total := row.row.Kind == Total
	if t.stripe && !total {
		pen.Polygon(corners(Box{W: box.W, H: box.H}), zebra, Stroke{})
	}
	t.stripe = !t.stripe
	if total {
		pen.Polyline([]Point{{0, 0}, {box.W, 0}}, Stroke{Colour: Black, Width: 0.3})
	}
	first := t.firstLine(row)
	baseline := t.padY + (first+capHeight*first/t.sizes.leading)/2
	// What is drawn is centred on the body text, not on the larger ids beside it.
	centre := baseline - capHeight*t.sizes.body*pointMM/2
	x := 0.0
	for i, width := range t.columns {
		t.drawCell(pen, row, i, Box{X: x, W: width}, baseline, centre)
		x += width
	}
}

// drawCell draws cell i of a row in a column: a text from its baseline, a badge
// or a tick box about its centre.
func (t *layout) drawCell(pen *Pen, row laid, i int, column Box, baseline, centre float64) {
	cell, align := row.row.cell(i), t.table.Columns[i].Align
	switch {
	case cell.Badge != nil:
		half := pen.BadgeWidth(t.badgeHeight(), *cell.Badge) / 2
		pen.Badge(Point{t.middle(column.X, column.W, half, align), centre}, t.badgeHeight(), *cell.Badge)
	case cell.Tick:
		half := t.tickSide() / 2
		pen.TickBox(Point{t.middle(column.X, column.W, half, align) - half, centre - half}, 2*half)
	default:
		set := row.sets[i]
		t.book.clean(cell.Text, set.asked)
		if row.cut[i] {
			t.book.notice(set.text, "too long for its cell, cut off")
		}
		for j, text := range row.cells[i] {
			t.put(pen, column.X, column.W, baseline+float64(j)*t.sizes.line(set.size), align, text, Lettering{Face: set.face, Size: set.size})
		}
	}
}

// firstLine returns the height of the first line of a row: all its cells stand
// on one baseline, whatever their size.
func (t *layout) firstLine(row laid) float64 {
	height := t.sizes.line(t.sizes.body)
	for i := range t.columns {
		if cell := row.row.cell(i); cell.Badge != nil || cell.Tick {
			height = max(height, t.badgeHeight()*1.05)
		}
		if len(row.cells[i]) > 0 {
			height = max(height, t.sizes.line(row.sets[i].size))
		}
	}
	return height
}

// middle returns where the centre of something drawn stands in a column.
func (t *layout) middle(x, width, half float64, align Align) float64 {
	switch align {
	case Right:
		return x + width - t.padX - half
	case Centre:
		return x + width/2
	default:
		return x + t.padX + half
	}
}
