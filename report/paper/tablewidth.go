package paper

import "strings"

// typed is how a cell is set: its clean text, face and size.
type typed struct {
	text string
	face Face
	size float64
}

// typeset returns how cell i of a row is set.
func (t *layout) typeset(row Row, i int) typed {
	cell, face, size := row.cell(i), t.table.Columns[i].Face, t.sizes.body
	if face == Mono {
		size = t.sizes.id
	}
	switch {
	case cell.Id:
		face, size = Mono, t.sizes.id
	case face == Mono:
	case cell.Bold || row.Kind == Total:
		face = Bold
	}
	ready := t.book.clean(cell.Text, face)
	return typed{text: ready.text, face: ready.face, size: size}
}

// span is what a column asks for, in millimetres with its padding.
type span struct{ least, natural float64 }

// widths shares the width of the page among the columns.
func (t *layout) widths() []float64 {
	spans := make([]span, len(t.table.Columns))
	for i, column := range t.table.Columns {
		spans[i] = t.span(i, column)
	}
	widths := make([]float64, len(spans))
	sum, shares := 0.0, 0.0
	for i, column := range t.table.Columns {
		widths[i] = spans[i].natural
		if column.Width.share > 0 {
			widths[i] = spans[i].least
			shares += column.Width.share
		}
		sum += widths[i]
	}
	switch spare := t.box.W - sum; {
	case spare < 0:
		t.shrink(widths, spans, -spare)
	case shares > 0:
		t.spread(widths, spans, spare)
	default:
		for i := range widths {
			widths[i] *= t.box.W / sum
		}
	}
	return widths
}

// span measures a column: at least as wide as its longest head word, at most as
// its widest cell.
func (t *layout) span(i int, column Column) span {
	k, pad := t.book.Scale(), 2*t.padX
	if column.Width.fixed > 0 {
		return span{least: column.Width.fixed * k, natural: column.Width.fixed * k}
	}
	head := t.book.clean(column.Head, Bold)
	var s span
	for _, word := range strings.Fields(head.text) {
		s.least = max(s.least, head.face.width(word, t.sizes.head))
	}
	s.natural = s.least
	for _, row := range t.table.Rows {
		if row.Kind != Group {
			s.natural = max(s.natural, t.cellWidth(row, i))
		}
	}
	if most := column.Width.most * k; most > 0 {
		s.natural = max(s.least, min(s.natural, most))
	}
	// A hair more than measured, so that the widest cell does not wrap.
	return span{least: s.least + pad + 0.01, natural: s.natural + pad + 0.01}
}

// cellWidth returns the width of what stands in a cell, without padding.
func (t *layout) cellWidth(row Row, i int) float64 {
	cell := row.cell(i)
	switch {
	case cell.Badge != nil:
		return t.book.pen(t.box).BadgeWidth(t.badgeHeight(), *cell.Badge)
	case cell.Tick:
		return t.tickSide()
	default:
		set := t.typeset(row, i)
		return set.face.width(set.text, set.size)
	}
}

// shrink takes width away where a column is wider than it must be, and if that
// is not enough from all alike.
func (t *layout) shrink(widths []float64, spans []span, over float64) {
	slack := 0.0
	for i := range widths {
		slack += widths[i] - spans[i].least
	}
	part := 0.0
	if slack > 0 {
		part = min(1, over/slack)
	}
	sum := 0.0
	for i := range widths {
		widths[i] -= part * (widths[i] - spans[i].least)
		sum += widths[i]
	}
	if sum > t.box.W {
		for i := range widths {
			widths[i] *= t.box.W / sum
		}
	}
}

// spread gives spare width to the columns that fill. A column that needs less
// than its share leaves the rest to the others first.
func (t *layout) spread(widths []float64, spans []span, spare float64) {
	open := map[int]bool{}
	for i, column := range t.table.Columns {
		open[i] = column.Width.share > 0
	}
	for {
		shares := 0.0
		for i, column := range t.table.Columns {
			if open[i] {
				shares += column.Width.share
			}
		}
		closed := false
		for i, column := range t.table.Columns {
			need := spans[i].natural - widths[i]
			if open[i] && need < spare*column.Width.share/shares && t.othersOpen(open, i) {
				widths[i], spare, open[i], closed = spans[i].natural, spare-need, false, true
				break
			}
		}
		if !closed {
			for i, column := range t.table.Columns {
				if open[i] {
					widths[i] += spare * column.Width.share / shares
				}
			}
			return
		}
	}
}

// othersOpen reports whether a column besides i still takes width.
func (t *layout) othersOpen(open map[int]bool, i int) bool {
	for other, is := range open {
		if is && other != i {
			return true
		}
	}
	return false
}
