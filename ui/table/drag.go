package table

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/plan"
)

// carrying is a drag of selected cells of a column whose cells are carried: from a row, over another.
type carrying struct {
	column string
	from   plan.Ref
	over   int
	at     fyne.Position
}

// carries reports whether a press on a cell, with its row selected already, may begin to carry it.
func (g *Grid) carries(row, column int) bool {
	return g.Moved != nil && g.editing == nil && g.sheet.Columns()[column].Draggable && g.sheet.Selected(row) && g.sheet.Cell(row, column).Text != ""
}

// carry follows the pointer with what is carried.
func (c *cell) carry(event *fyne.DragEvent) {
	g := c.body.grid
	if g.carrying == nil {
		g.sheet.Aim(c.id.Row, c.id.Col)
		g.carrying = &carrying{column: g.sheet.Columns()[c.id.Col].Name, from: g.sheet.Ref(c.id.Row), over: -1}
	}
	over := -1
	if within(g.body, event.AbsolutePosition) {
		over = c.rowUnder(event.Position.Y)
	}
	g.carrying.over, g.carrying.at = over, event.AbsolutePosition
	g.trouble = ""
	g.explain()
	g.refreshCells()
	if g.Dragging != nil {
		g.Dragging(g.sheet.source, g.sheet.Refs(), event.AbsolutePosition, over < 0)
	}
}

// rowUnder is the row at a height below the top of the cell, brought into the table.
func (c *cell) rowUnder(y float32) int {
	rows := int(y / c.body.pitch())
	if y < 0 {
		rows--
	}
	return max(0, min(c.id.Row+rows, c.body.grid.sheet.Len()-1))
}

func within(object fyne.CanvasObject, at fyne.Position) bool {
	corner, size := fyne.CurrentApp().Driver().AbsolutePositionForObject(object), object.Size()
	return at.X >= corner.X && at.Y >= corner.Y && at.X < corner.X+size.Width && at.Y < corner.Y+size.Height
}

// drop ends a drag: on a row of the table, or at a place of the window beside it.
func (g *Grid) drop() {
	carried := g.carrying
	if carried == nil {
		return
	}
	g.carrying = nil
	g.refreshCells()
	g.explain()
	switch {
	case carried.over >= g.sheet.Len():
	case carried.over < 0 && g.DroppedBeside != nil:
		g.DroppedBeside(g.sheet.source, g.sheet.Refs(), carried.at)
	case carried.over >= 0 && g.sheet.Ref(carried.over) != carried.from:
		g.Moved(g.sheet.source, carried.column, carried.from, g.sheet.Ref(carried.over))
	}
}

// carryWords say at the foot what a drop here would do.
func (g *Grid) carryWords() string {
	if g.carrying.over < 0 {
		return "Drop it on a device of the plan, or on a row here."
	}
	for row := range g.sheet.Len() {
		if g.sheet.Ref(row) == g.carrying.from {
			return fmt.Sprintf("%s to %s", g.sheet.RowName(row), g.sheet.RowName(g.carrying.over))
		}
	}
	return ""
}

// isTarget reports whether what is carried lies over a cell.
func (g *Grid) isTarget(id widget.TableCellID) bool {
	return g.carrying != nil && g.carrying.over == id.Row && g.sheet.Columns()[id.Col].Name == g.carrying.column
}
