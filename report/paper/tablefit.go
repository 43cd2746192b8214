package paper

// leastPad is the least white above and below the lines of a row, in mm on A4.
const leastPad = 0.1

// Fits reports whether a table stands whole on what is left of the page, drawn as it is.
func (b *Book) Fits(table Table) bool {
	b.need()
	if len(table.Columns) == 0 {
		return true
	}
	t := b.layoutOf(table)
	return t.height(t.blocks())+1.5*b.Scale() <= b.Rest().H
}

// height is that of the whole table with its heads, on one page.
func (t *layout) height(blocks []block) float64 {
	height := t.headHeight(t.table.Title)
	for _, one := range blocks {
		height += one.height
	}
	return height
}

// onOnePage sets the rows as close as it takes to have the table on one page: on what is left of this one, or on a whole one.
// One that does not fit even so stays as it was.
func (t *layout) onOnePage(blocks []block) []block {
	usual, blank := t.padY, t.table.BlankRows
	for _, room := range []float64{t.book.Rest().H, t.box.H} {
		for t.table.BlankRows = blank; t.table.BlankRows >= 0; t.table.BlankRows-- {
			t.padY = usual
			closer := t.blocks()
			rows := 1 // the heads
			for _, one := range closer {
				rows += len(one.rows)
			}
			over := max(0, t.height(closer)-room)
			if t.padY = usual - (over+0.01)/float64(2*rows); t.padY >= leastPad*t.book.Scale() {
				return t.blocks()
			}
		}
	}
	t.padY, t.table.BlankRows = usual, blank
	return blocks
}

// lowestLine is how far down the lines of a row reach, which all begin on the baseline of its tallest.
func (t *layout) lowestLine(row laid) float64 {
	lowest, first := 0.0, t.firstLine(row)
	for i, lines := range row.cells {
		if len(lines) > 0 {
			lowest = max(lowest, first+float64(len(lines)-1)*t.sizes.line(row.sets[i].size))
		}
	}
	return lowest
}

// leastLeft is how many rows a page keeps that gives its last one to a row that would stand alone on the next.
const leastLeft = 3

// wouldLeaveOne reports whether a row fits on the page and the last one behind it does not, which would stand there alone.
func (t *layout) wouldLeaveOne(blocks []block, i int) bool {
	if i != len(blocks)-2 || len(t.rules) < leastLeft {
		return false
	}
	rest := t.book.Rest().H
	return rest >= blocks[i].height && rest < blocks[i].height+blocks[i+1].height
}
