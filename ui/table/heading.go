package table

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// grip is how far from its right edge a heading is taken to make its column wider.
const grip = 6

// heading is the head of a column: a click sorts, its right edge makes the column wider, dragging it moves the column.
type heading struct {
	widget.BaseWidget
	body   *body
	column int
	text   *canvas.Text
	rule   *canvas.Rectangle
	hover  bool
	// gesture is what a press began: blank, "size" or "move"; x is where, width the column's then.
	gesture string
	x, to   float32
	width   float32
	dragged bool
}

func newHeading(b *body) *heading {
	h := &heading{body: b, text: canvas.NewText("", color.Black), rule: canvas.NewRectangle(color.Transparent)}
	h.ExtendBaseWidget(h)
	return h
}

// CreateRenderer implements fyne.Widget.
func (h *heading) CreateRenderer() fyne.WidgetRenderer { return &headingRenderer{h} }

type headingRenderer struct{ heading *heading }

// Destroy implements fyne.WidgetRenderer.
func (r *headingRenderer) Destroy() {}

// MinSize implements fyne.WidgetRenderer.
func (r *headingRenderer) MinSize() fyne.Size { return fyne.NewSize(leastWidth, headingHeight) }

// Objects implements fyne.WidgetRenderer.
func (r *headingRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.heading.text, r.heading.rule}
}

// Layout implements fyne.WidgetRenderer.
func (r *headingRenderer) Layout(size fyne.Size) {
	h := r.heading
	least := h.text.MinSize()
	x := float32(beside)
	if h.column >= 0 && h.column < len(h.body.grid.sheet.shown) && h.body.grid.sheet.Columns()[h.column].Kind == Number {
		x = max(beside, size.Width-beside-least.Width)
	}
	h.text.Move(fyne.NewPos(x, (size.Height-least.Height)/2))
	h.text.Resize(least)
	h.rule.Move(fyne.NewPos(0, size.Height-1))
	h.rule.Resize(fyne.NewSize(size.Width+theme.Padding(), 1))
}

// Refresh implements fyne.WidgetRenderer.
func (r *headingRenderer) Refresh() {
	r.Layout(r.heading.Size())
	canvas.Refresh(r.heading)
}

// show brings the heading to a column.
func (h *heading) show(column int) {
	sheet := h.body.grid.sheet
	if column < 0 || column >= len(sheet.shown) {
		return
	}
	title := sheet.Columns()[column].Title
	sorted, down := sheet.Sorted()
	mark := ""
	if sorted == column && down {
		mark = " ↓"
	} else if sorted == column {
		mark = " ↑"
	}
	size, bold := theme.TextSize(), fyne.TextStyle{Bold: true}
	room := h.body.width(column) - 2*beside - fyne.MeasureText(mark, size, bold).Width
	text := fitted(title, room, size, bold) + mark
	ink, rule := theme.Color(theme.ColorNamePlaceHolder), theme.Color(theme.ColorNameSeparator)
	if sorted == column || h.hover {
		ink = theme.Color(theme.ColorNameForeground)
	}
	if h.column == column && h.text.Text == text && h.text.Color == ink && h.rule.FillColor == rule && h.text.TextSize == size {
		return
	}
	h.column, h.text.Text, h.text.Color, h.text.TextSize, h.text.TextStyle = column, text, ink, size, bold
	h.rule.FillColor = rule
	h.Refresh()
}

// MouseDown implements desktop.Mouseable.
func (h *heading) MouseDown(event *desktop.MouseEvent) {
	g := h.body.grid
	if event.Button == desktop.MouseButtonSecondary {
		items := append(g.headingItems(h.column), fyne.NewMenuItemSeparator())
		choose := fyne.NewMenuItem("Columns", nil)
		choose.ChildMenu = fyne.NewMenu("", g.columnItems()...)
		g.popUp(append(items, choose), event.AbsolutePosition)
		return
	}
	h.gesture, h.dragged = "move", false
	if event.Position.X > h.Size().Width-grip {
		h.gesture = "size"
	}
	h.x, h.to, h.width = event.Position.X, event.Position.X, h.body.width(h.column)
}

// MouseUp sorts where nothing was dragged.
func (h *heading) MouseUp(*desktop.MouseEvent) {
	if h.gesture == "move" && !h.dragged {
		h.body.grid.SortBy(h.column)
	}
	if !h.dragged {
		h.gesture = ""
	}
}

// Dragged makes the column wider, or remembers where it is to go.
func (h *heading) Dragged(event *fyne.DragEvent) {
	h.dragged, h.to = true, event.Position.X
	if h.gesture == "size" {
		h.body.grid.sheet.SetWidth(h.column, h.width+h.to-h.x)
		h.body.layColumns()
	}
}

// DragEnd moves the column by as many as the pointer went over, or keeps its width.
func (h *heading) DragEnd() {
	if h.gesture == "move" && h.dragged {
		h.body.grid.sheet.ShiftColumn(h.column, h.columnsOver())
	}
	if h.gesture != "" {
		h.gesture = ""
		h.body.grid.laid()
	}
}

// columnsOver is over how many columns to the right the pointer went, negative to the left.
func (h *heading) columnsOver() (by int) {
	sheet := h.body.grid.sheet
	for x, column := h.to-h.Size().Width, h.column+1; x > 0 && column < len(sheet.shown); column++ {
		by++
		x -= h.body.width(column)
	}
	for x, column := h.to, h.column-1; x < 0 && column >= 0; column-- {
		by--
		x += h.body.width(column)
	}
	return by
}

// MouseIn implements desktop.Hoverable.
func (h *heading) MouseIn(*desktop.MouseEvent) {
	h.hover = true
	h.show(h.column)
}

// MouseMoved implements desktop.Hoverable.
func (h *heading) MouseMoved(event *desktop.MouseEvent) {
	h.to = event.Position.X
}

// MouseOut implements desktop.Hoverable.
func (h *heading) MouseOut() {
	h.hover = false
	h.show(h.column)
}

// Cursor implements desktop.Cursorable.
func (h *heading) Cursor() desktop.Cursor {
	if h.to > h.Size().Width-grip {
		return desktop.HResizeCursor
	}
	return desktop.PointerCursor
}
