package paper

// layout is a table being drawn.
type layout struct {
	book    *Book
	table   Table
	sizes   sizes
	box     Box // the page's area when the table began: its x and width hold throughout
	padX    float64
	padY    float64
	columns []float64
	group   string    // the group row above, for the next page
	stripe  bool      // the next row is grey
	rules   []float64 // hairlines to draw once all fills of the page are down
	top     float64   // of the first row on this page
}

// block is rows that must stand on one page.
type block struct {
	rows   []laid
	height float64
}

// laid is a row with its lines broken.
type laid struct {
	row    Row
	cells  [][]string // the lines of each cell
	sets   []typed
	cut    []bool // cells that are too long
	height float64
	blank  bool // for the pen
	empty  bool // carries the table's Empty
}

// Table draws a table from the last thing drawn downwards.
func (b *Book) Table(table Table) {
	b.need()
	k := b.Scale()
	if len(table.Columns) == 0 {
		return
	}
	t := b.layoutOf(table)
	blocks := t.blocks()
	b.Skip(1.5 * k)
	if table.OnePage {
		blocks = t.onOnePage(blocks)
	}
	first := 0.0
	if len(blocks) > 0 {
		first = blocks[0].height
	}
	if b.Rest().H < t.headHeight(table.Title)+first {
		b.NewPage()
	}
	t.heads(table.Title)
	for i, block := range blocks {
		if b.Err() != nil {
			return
		}
		if t.wouldLeaveOne(blocks, i) {
			t.turnPage(block)
		}
		t.place(block)
	}
	t.finishPage()
	b.Skip(3 * k)
}

// layoutOf makes a table ready to be drawn on the page as it is.
func (b *Book) layoutOf(table Table) *layout {
	k := b.Scale()
	t := &layout{book: b, table: table, sizes: b.sizes(), box: b.Area(), padX: 1.1 * k, padY: 0.85 * k}
	if b.chap.Reader == Crew {
		t.padX, t.padY = 1.3*k, 1.1*k
	}
	if table.OnePage {
		t.padX = 0.9 * k
	}
	t.columns = t.widths()
	return t
}

// blocks breaks the lines of every row and ties rows that must stay together.
func (t *layout) blocks() []block {
	var rows []laid
	for _, row := range t.table.Rows {
		rows = append(rows, t.lay(row))
	}
	if len(rows) == 0 && t.table.Empty != "" {
		rows = append(rows, laid{empty: true, height: t.groupHeight()})
	}
	for range t.table.BlankRows {
		height := t.sizes.line(t.sizes.body)*1.35 + 2*t.padY
		rows = append(rows, laid{blank: true, height: height})
	}
	var blocks []block
	for i, row := range rows {
		tied := i > 0 && (rows[i-1].row.Kind == Group || row.row.Kind == Total || row.blank)
		if !tied || len(blocks) == 0 {
			blocks = append(blocks, block{})
		}
		last := &blocks[len(blocks)-1]
		last.rows, last.height = append(last.rows, row), last.height+row.height
	}
	return blocks
}

// lay breaks the lines of a row.
func (t *layout) lay(row Row) laid {
	n := len(t.columns)
	out := laid{row: row, cells: make([][]string, n), sets: make([]typed, n), cut: make([]bool, n)}
	if row.Kind == Group {
		out.height = t.groupHeight()
		return out
	}
	lowest := t.sizes.line(t.sizes.body)
	for i, column := range t.table.Columns {
		cell := row.cell(i)
		if cell.Badge != nil || cell.Tick {
			lowest = max(lowest, t.badgeHeight()*1.05)
			continue
		}
		set := t.typeset(row, i)
		out.sets[i] = set
		out.cells[i], out.cut[i] = t.cellLines(set, column, t.columns[i]-2*t.padX)
		lowest = max(lowest, float64(len(out.cells[i]))*t.sizes.line(set.size))
	}
	if t.table.OnePage {
		lowest = max(lowest, t.lowestLine(out))
	}
	out.height = lowest + 2*t.padY
	return out
}

// groupHeight returns the height of a heading across the table.
func (t *layout) groupHeight() float64 {
	return t.sizes.line(t.sizes.body) + 2*t.padY + 0.4*t.book.Scale()
}

// cellLines wraps or cuts the text of a cell, and says whether it was cut.
func (t *layout) cellLines(set typed, column Column, width float64) (lines []string, cut bool) {
	if set.text == "" {
		return nil, false
	}
	most := min(column.lines(), max(1, int(t.box.H*0.7/t.sizes.line(set.size))))
	if most == 1 {
		line := set.printable.cut(set.size, width)
		return []string{line}, line != set.text
	}
	lines = wrap(set.text, set.face, set.size, width)
	if len(lines) <= most {
		return lines, false
	}
	rest := lines[most-1] + " " + lines[most]
	return append(lines[:most-1], truncate(rest, set.face, set.size, width)), true
}

// badgeHeight returns the height of badges in the table.
func (t *layout) badgeHeight() float64 { return t.sizes.body * pointMM * 1.32 }

// tickSide returns the side of tick boxes in the table.
func (t *layout) tickSide() float64 { return t.sizes.body * pointMM * 1.05 }

// place draws the rows of a block, on the next page when they do not fit.
func (t *layout) place(block block) {
	whole := t.box.H - t.headHeight(t.table.Title) - t.groupHeight()
	if t.book.Rest().H < block.height && block.height <= whole {
		t.turnPage(block)
	}
	for _, row := range block.rows {
		if t.book.Rest().H < row.height {
			t.turnPage(block)
		}
		t.drawRow(row)
	}
}

// turnPage goes on with the table on a new page.
func (t *layout) turnPage(next block) {
	t.finishPage()
	t.book.NewPage()
	t.box = t.book.Area()
	t.heads(continued(t.table.Title))
	if t.group != "" && next.rows[0].row.Kind != Group {
		t.stripe = false
		t.drawRow(t.lay(GroupRow(continued(t.group))))
	}
}

// continued adds the word to a title.
func continued(title string) string {
	const word = ", continued"
	if title == "" || len(title) > len(word) && title[len(title)-len(word):] == word {
		return title
	}
	return title + word
}

// finishPage draws the hairlines of the page, which would be half covered by
// the fill of the row below if drawn with their row.
func (t *layout) finishPage() {
	pen := t.book.pen(Box{X: t.box.X, W: t.box.W})
	for i, y := range t.rules {
		line := Stroke{Colour: hairline, Width: 0.12}
		if i == len(t.rules)-1 {
			line = Stroke{Colour: Black, Width: 0.25}
		}
		pen.Polyline([]Point{{0, y}, {t.box.W, y}}, line)
	}
	t.rules, t.stripe = nil, false
}
