package table

import (
	"image/color"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stageloom/ui/look"
)

const (
	// The toolkit makes every row as high as the headings.
	rowHeight     = 22
	headingHeight = rowHeight
	// beside is the room between a cell's edge and its text.
	beside = 6
	// doubleClick is the time between the presses of a double click.
	doubleClick = 400 * time.Millisecond
)

// cell is one cell in view: a ground, its text, and the field while it is edited. Cells are used again for other rows.
type cell struct {
	widget.BaseWidget
	body   *body
	id     widget.TableCellID
	ground *canvas.Rectangle
	// line is the hairline below the row, edge what marks the cursor.
	line  *canvas.Rectangle
	edge  *canvas.Rectangle
	text  *canvas.Text
	field *cellField
	whole string
	right bool
	// pressed is when it was pressed last, and for which row.
	pressed time.Time
	// held tells that the press was on a cell that can be carried; until it is, or is let go, the selection stays.
	held bool
}

func newCell(b *body) *cell {
	c := &cell{body: b, id: widget.TableCellID{Row: -1, Col: -1}}
	c.ground, c.line, c.edge = canvas.NewRectangle(color.Transparent), canvas.NewRectangle(color.Transparent), canvas.NewRectangle(color.Transparent)
	c.text = canvas.NewText("", color.Black)
	c.ExtendBaseWidget(c)
	return c
}

// pitch is the height of a row with the gap to the next.
func (b *body) pitch() float32 { return rowHeight + theme.Padding() }

// CreateRenderer implements fyne.Widget.
func (c *cell) CreateRenderer() fyne.WidgetRenderer { return &cellRenderer{cell: c} }

// cellRenderer lays a cell out. Cells are many: nothing is made anew while they scroll.
type cellRenderer struct {
	cell    *cell
	objects []fyne.CanvasObject
}

// Destroy implements fyne.WidgetRenderer.
func (r *cellRenderer) Destroy() {}

// MinSize implements fyne.WidgetRenderer.
func (r *cellRenderer) MinSize() fyne.Size { return fyne.NewSize(leastWidth, rowHeight) }

// Objects implements fyne.WidgetRenderer.
func (r *cellRenderer) Objects() []fyne.CanvasObject {
	r.objects = append(r.objects[:0], r.cell.ground, r.cell.line, r.cell.edge, r.cell.text)
	if r.cell.field != nil {
		r.objects = append(r.objects, r.cell.field)
	}
	return r.objects
}

// Layout implements fyne.WidgetRenderer.
func (r *cellRenderer) Layout(size fyne.Size) {
	c := r.cell
	gap := theme.Padding() // what is tinted is one piece over the gaps between cells
	c.ground.Move(fyne.NewPos(0, -1))
	c.ground.Resize(size.AddWidthHeight(gap, gap))
	c.line.Move(fyne.NewPos(0, size.Height+1))
	c.line.Resize(fyne.NewSize(size.Width+gap, 1))
	c.edge.Resize(size.SubtractWidthHeight(gap, 0)) // the toolkit cuts the column that stays by as much
	if c.field != nil {
		c.field.Resize(size)
	}
	c.layText()
}

// Refresh implements fyne.WidgetRenderer.
func (r *cellRenderer) Refresh() {
	r.Layout(r.cell.Size())
	canvas.Refresh(r.cell)
}

// layText sets the text into the cell, cut short with "…" where it is too long.
func (c *cell) layText() {
	size := c.Size()
	room := size.Width - 2*beside
	text := fitted(c.whole, room, c.text.TextSize, c.text.TextStyle)
	if c.text.Text != text {
		c.text.Text = text
	}
	least := c.text.MinSize()
	x := float32(beside)
	if c.right {
		x = max(beside, size.Width-beside-least.Width)
	}
	c.text.Move(fyne.NewPos(x, (size.Height-least.Height)/2))
	c.text.Resize(least)
}

// fitted cuts a text short where it is wider than its room.
func fitted(text string, room, size float32, style fyne.TextStyle) string {
	wide := func(text string) bool { return fyne.MeasureText(text, size, style).Width > room }
	if text == "" || !wide(text) {
		return text
	}
	signs := []rune(text)
	low, high := 0, len(signs)-1
	for low < high {
		middle := (low + high + 1) / 2
		if wide(string(signs[:middle]) + "…") {
			high = middle - 1
		} else {
			low = middle
		}
	}
	return string(signs[:low]) + "…"
}

// show brings the cell to a row and a column. It compares first: nothing is drawn anew that is as it was.
func (c *cell) show(id widget.TableCellID) {
	g := c.body.grid
	if c.body.cells[c.id] == c {
		delete(c.body.cells, c.id)
	}
	c.id = id
	c.body.cells[id] = c
	changed := c.showField()
	if id.Row >= g.sheet.Len() || id.Col >= len(g.sheet.shown) {
		c.blank()
		return
	}
	content := g.sheet.Cell(id.Row, id.Col)
	right := g.sheet.columns[g.sheet.shown[id.Col]].Kind == Number
	palette := look.PaletteOf(fyne.CurrentApp().Settings().Theme())
	ink := inkOf(palette, content.Tone, g.sheet.Editable(id.Col))
	if c.whole != content.Text || c.right != right || c.text.Color != ink || c.text.TextSize != theme.TextSize() {
		c.whole, c.right, c.text.Color, c.text.TextSize = content.Text, right, ink, theme.TextSize()
		c.text.TextStyle.Bold = content.Tone != Usual && content.Tone != Muted
		changed = true
	}
	changed = c.showGround(palette) || changed
	if changed {
		c.Refresh()
	}
}

// showField puts the field into the cell that is edited and takes it out of all others. When that cell scrolls out of
// view, what was typed is kept as on any loss of the focus.
func (c *cell) showField() (changed bool) {
	g := c.body.grid
	var field *cellField
	if g.holdsField(c.id) {
		field = g.editing.field
	}
	if c.field == field {
		return false
	}
	c.field = field
	c.text.Hidden = field != nil
	return true
}

// showGround marks the selected rows, the block of columns and the cursor.
func (c *cell) showGround(palette look.Palette) (changed bool) {
	g := c.body.grid
	row, column := g.sheet.Cursor()
	var fill color.Color = color.Transparent
	switch {
	case g.isTarget(c.id):
		fill = tint(palette, 0x80)
	case g.sheet.Selected(c.id.Row) && g.sheet.Marked(c.id.Row, c.id.Col) && (g.sheet.side != g.sheet.column || g.sheet.whole):
		fill = tint(palette, 0x58)
	case g.sheet.Selected(c.id.Row):
		fill = tint(palette, 0x34)
	}
	var edge color.Color = color.Transparent
	width := float32(0)
	if c.id.Row == row && c.id.Col == column {
		edge, width = palette.Edge, 1
		if c.body.focused {
			edge, width = palette.Selection, 2
		}
	}
	if c.ground.FillColor == fill && c.edge.StrokeColor == edge && c.edge.StrokeWidth == width && c.line.FillColor == palette.Hairline {
		return false
	}
	c.ground.FillColor, c.edge.StrokeColor, c.edge.StrokeWidth, c.line.FillColor = fill, edge, width, palette.Hairline
	return true
}

// IsCursor reports whether it is the cursor's, for tests.
func (c *cell) IsCursor() bool {
	row, column := c.body.grid.sheet.Cursor()
	return row >= 0 && c.id == widget.TableCellID{Row: row, Col: column}
}

// blank makes it a cell of no row.
func (c *cell) blank() {
	c.whole, c.ground.FillColor, c.line.FillColor, c.edge.StrokeColor, c.edge.StrokeWidth = "", color.Transparent, color.Transparent, color.Transparent, 0
	c.Refresh()
}

func tint(palette look.Palette, alpha uint8) color.NRGBA {
	colour := palette.Selection
	colour.A = alpha
	return colour
}

// inkOf is the colour of a cell: reckoned figures are as strong as typed ones, words of a tone have its colour.
func inkOf(palette look.Palette, tone Tone, editable bool) color.NRGBA {
	switch tone {
	case Usual:
		return palette.Ink
	case Muted:
		return palette.Muted
	case Stop:
		return palette.Danger
	case Warn:
		return palette.Tight
	}
	return palette.Grade(string(tone))
}

// MouseDown selects the row; with Shift all from where the stretch began, with Ctrl it goes in or out. The second press
// of a double click edits, the right button has a menu.
func (c *cell) MouseDown(event *desktop.MouseEvent) {
	g := c.body.grid
	if g.holdsField(c.id) {
		return
	}
	if !g.keepEdit() {
		g.focusField()
		return
	}
	if g.Focus(); c.id.Row >= g.sheet.Len() {
		return
	}
	row, column := g.sheet.Cursor()
	c.held = false
	again := row == c.id.Row && column == c.id.Col && time.Since(c.pressed) < doubleClick
	c.pressed = time.Now()
	switch {
	case event.Button == desktop.MouseButtonSecondary:
		if !g.sheet.Selected(c.id.Row) {
			g.sheet.Pick(c.id.Row, c.id.Col)
		}
		g.sheet.Aim(c.id.Row, c.id.Col)
		g.moved()
		g.contextMenu(event.AbsolutePosition)
		return
	case event.Modifier&fyne.KeyModifierShift != 0:
		g.sheet.Go(c.id.Row, c.id.Col, true)
	case event.Modifier&fyne.KeyModifierShortcutDefault != 0:
		g.sheet.Toggle(c.id.Row, c.id.Col)
	case again:
		g.begin(nil)
		return
	case g.carries(c.id.Row, c.id.Col):
		c.held = true
		return
	default:
		g.sheet.Pick(c.id.Row, c.id.Col)
	}
	g.moved()
}

// MouseUp implements desktop.Mouseable: a press that carried nothing was a click.
func (c *cell) MouseUp(*desktop.MouseEvent) {
	g := c.body.grid
	if held := c.held; held && g.carrying == nil && c.id.Row < g.sheet.Len() {
		c.held = false
		g.sheet.Pick(c.id.Row, c.id.Col)
		g.moved()
	}
}

// Dragged carries what can be carried, else it extends the selection over the rows that the pointer goes over.
func (c *cell) Dragged(event *fyne.DragEvent) {
	g := c.body.grid
	if g.editing != nil || c.id.Row >= g.sheet.Len() {
		return
	}
	if c.held {
		c.carry(event)
		return
	}
	g.sheet.Go(c.rowUnder(event.Position.Y), c.id.Col, true)
	g.moved()
}

// DragEnd implements fyne.Draggable.
func (c *cell) DragEnd() {
	if c.held {
		c.held = false
		c.body.grid.drop()
	}
}
