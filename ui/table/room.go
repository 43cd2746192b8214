package table

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// layColumns gives the toolkit's table the widths of the columns shown, in the room that there is.
func (b *body) layColumns() {
	widths := b.grid.sheet.Widths(b.Size().Width-theme.Size(theme.SizeNameScrollBar), theme.Padding())
	if slices.Equal(widths, b.laid) {
		return
	}
	b.laid = widths
	for i, width := range widths {
		b.SetColumnWidth(i, width)
	}
	if b.rows != nil {
		b.rows.Refresh() // else the bar stands for what the widths were
	}
}

// width is how wide a shown column is drawn.
func (b *body) width(column int) float32 {
	if column < len(b.laid) {
		return b.laid[column]
	}
	return b.grid.sheet.Width(column)
}

// Rows are the toolkit's, for tests.
func (b *body) Rows() *widget.Table { return &b.Table }

// layTail puts a low line behind the last row, so that the bar to scroll sideways covers no row.
func (b *body) layTail() {
	if last := b.grid.sheet.Len(); last != b.tail {
		if b.tail >= 0 {
			b.SetRowHeight(b.tail, rowHeight)
		}
		b.tail = last
		b.SetRowHeight(last, max(1, theme.Size(theme.SizeNameScrollBar)-theme.Padding()))
	}
}

// Resize implements fyne.CanvasObject.
func (b *body) Resize(size fyne.Size) {
	b.Table.Resize(size)
	b.layColumns()
}

// CreateRenderer implements fyne.Widget.
func (b *body) CreateRenderer() fyne.WidgetRenderer {
	renderer := b.Table.CreateRenderer()
	for _, object := range renderer.Objects() {
		if rows, is := object.(*container.Scroll); is {
			b.rows = rows
		}
	}
	return renderer
}

// scrollTo brings a cell into view, clear of the headings above and the bar below: the toolkit's own way leaves a row that is
// gone up to behind the headings.
func (b *body) scrollTo(row, column int) {
	if b.rows == nil {
		return
	}
	to, size, bar := b.rows.Offset, b.rows.Size(), theme.Size(theme.SizeNameScrollBar)
	top := float32(row) * b.pitch()
	to.Y = max(min(to.Y, top), top+rowHeight+bar-size.Height)
	if column > 0 { // the first stays where it is
		left := float32(0)
		for i := 1; i < column; i++ {
			left += b.width(i) + theme.Padding()
		}
		to.X = min(max(to.X, left+b.width(column)-size.Width), left)
	}
	if to.Y = max(0, to.Y); to != b.rows.Offset {
		b.ScrollToOffset(to)
	}
}
