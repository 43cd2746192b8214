package paper

import (
	"slices"
	"strings"
)

// typed is how a cell is set.
type typed struct {
	printable
	asked Face // before a fallback
	size  float64
}

// typeset returns how cell i of a row is set.
func (t *layout) typeset(row Row, i int) typed {
	cell, face, size := row.cell(i), t.table.Columns[i].Face, t.sizes.body
	if face == Mono {
		size = t.sizes.id
	}
	switch {
	case cell.ID:
		face, size = Mono, t.sizes.id
	case face == Mono:
	case cell.Bold || row.Kind == Total:
		face = Bold
	}
	return typed{printable: t.book.quiet(cell.Text, face), asked: face, size: size}
}

// shortHead is how wide a head may be to stand on one line, in mm on A4.
const shortHead = 17.0

// span is what a column asks for, in millimetres with its padding.
type span struct{ least, natural float64 }

// widths shares the width of the page among the columns. When all contents fit
// side by side, what is left loosens the columns and then goes to those that
// fill; otherwise the columns that fill share what the others leave.
func (t *layout) widths() []float64 {
	spans := make([]span, len(t.table.Columns))
	natural, tight := make([]float64, len(spans)), make([]float64, len(spans))
	for i, column := range t.table.Columns {
		spans[i] = t.span(i, column)
		natural[i], tight[i] = spans[i].natural, spans[i].natural
		if column.Width.share > 0 {
			tight[i] = spans[i].least
		}
	}
	if spare := t.box.W - sum(natural); spare >= 0 {
		t.loosen(natural, spare)
		return natural
	}
	if spare := t.box.W - sum(tight); spare >= 0 {
		t.spread(tight, spans, spare)
	} else {
		t.shrink(tight, spans, -spare)
	}
	return tight
}

// sum adds up widths.
func sum(widths []float64) float64 {
	total := 0.0
	for _, width := range widths {
		total += width
	}
	return total
}

// loosen gives every column some air, as far as half the spare width goes, and
// the rest to the columns that fill; without any, to all in proportion.
func (t *layout) loosen(widths []float64, spare float64) {
	const air = 3.2 // mm on A4
	flexible, shares := 0, 0.0
	for _, column := range t.table.Columns {
		if column.Width.fixed == 0 {
			flexible++
		}
		shares += column.Width.share
	}
	if flexible == 0 {
		return
	}
	each := min(air*t.book.Scale(), spare/2/float64(flexible))
	rest, whole := spare-each*float64(flexible), t.box.W-spare
	for i, column := range t.table.Columns {
		part := widths[i] / whole
		if shares > 0 {
			part = column.Width.share / shares
		}
		if column.Width.fixed == 0 {
			widths[i] += each
		}
		widths[i] += rest * part
	}
}

// span measures a column: at least as wide as the longest word of its head, at
// most as its widest cell.
func (t *layout) span(i int, column Column) span {
	k, pad := t.book.Scale(), 2*t.padX
	if column.Width.fixed > 0 {
		return span{least: column.Width.fixed * k, natural: column.Width.fixed * k}
	}
	head := t.book.quiet(column.Head, Bold)
	var s span
	for _, word := range strings.Fields(head.text) {
		s.least = max(s.least, head.face.width(word, t.sizes.head))
	}
	s.natural = s.least
	if whole := head.face.width(head.text, t.sizes.head); whole <= shortHead*k {
		s.natural = whole
	}
	for _, row := range t.table.Rows {
		if row.Kind != Group {
			s.natural = max(s.natural, t.cellWidth(row, i))
		}
	}
	if most := column.Width.most * k; most > 0 {
		s.natural = max(s.least, min(s.natural, most))
	}
	// No word is so long that it takes the room of the other columns.
	s.least = min(s.least, t.box.W/float64(len(t.table.Columns))-pad)
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
	for i := range widths {
		widths[i] -= part * (widths[i] - spans[i].least)
	}
	if whole := sum(widths); whole > t.box.W {
		for i := range widths {
			widths[i] *= t.box.W / whole
		}
	}
}

// spread gives spare width to the columns that fill, by their shares. One that
// needs less than its share takes what it needs and leaves the rest to the
// others.
func (t *layout) spread(widths []float64, spans []span, spare float64) {
	var open []int
	for i, column := range t.table.Columns {
		if column.Width.share > 0 {
			open = append(open, i)
		}
	}
	for {
		shares := 0.0
		for _, i := range open {
			shares += t.table.Columns[i].Width.share
		}
		content := slices.IndexFunc(open, func(i int) bool {
			return spans[i].natural-widths[i] < spare*t.table.Columns[i].Width.share/shares
		})
		if content < 0 || len(open) == 1 {
			for _, i := range open {
				widths[i] += spare * t.table.Columns[i].Width.share / shares
			}
			return
		}
		i := open[content]
		spare -= spans[i].natural - widths[i]
		widths[i] = spans[i].natural
		open = slices.Delete(open, content, content+1)
	}
}
