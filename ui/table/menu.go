package table

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// popUp shows a menu that arrows, Enter and Escape work too.
func (g *Grid) popUp(items []*fyne.MenuItem, at fyne.Position) {
	if c := g.canvas(); c != nil {
		widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", items...), c, at)
	}
}

// Offer shows a menu at the cursor's cell.
func (g *Grid) Offer(items []*fyne.MenuItem) { g.popUp(items, g.atCursor()) }

// atCursor is where a menu of the cursor's cell hangs.
func (g *Grid) atCursor() fyne.Position {
	row, column := g.sheet.Cursor()
	if c := g.body.cells[widget.TableCellID{Row: row, Col: column}]; c != nil {
		return below(c)
	}
	return fyne.CurrentApp().Driver().AbsolutePositionForObject(g.body).AddXY(20, 40)
}

func (g *Grid) contextMenuAtCursor() { g.contextMenu(g.atCursor()) }

// contextMenu is what can be done to the cursor's row, the selected rows and the cursor's column.
func (g *Grid) contextMenu(at fyne.Position) {
	var items []*fyne.MenuItem
	add := func(label string, do func()) { items = append(items, fyne.NewMenuItem(label, do)) }
	row, column := g.sheet.Cursor()
	if row >= 0 {
		if g.Actions != nil {
			items = append(items, g.Actions(g.sheet.source, g.sheet.rows[row])...)
		}
		if g.sheet.Editable(column) {
			add("Edit   F2", func() { g.begin(nil) })
			add("Clear   Delete", g.clear)
		}
		add("Show on the plan   Ctrl Enter", g.open)
		add("Copy   Ctrl C", func() { g.copy(false) })
		add("Copy rows with headings   Ctrl Shift C", func() { g.copy(true) })
		add("Paste   Ctrl V", g.paste)
	}
	adds, removes := g.sheet.Grows()
	if one, _ := g.sheet.source.Words(); adds {
		add("New "+one+"   Insert", g.addRow)
	}
	if row >= 0 && (removes || g.Remove != nil) {
		add("Delete rows   Ctrl Delete", g.removeRows)
	}
	if column >= 0 {
		items = append(items, fyne.NewMenuItemSeparator(), g.columnMenu(column))
	}
	choose := fyne.NewMenuItem("Columns", nil)
	choose.ChildMenu = fyne.NewMenu("", g.columnItems()...)
	g.popUp(append(items, choose), at)
}

// columnMenu is what can be done to a column.
func (g *Grid) columnMenu(column int) *fyne.MenuItem {
	menu := fyne.NewMenuItem("Column "+g.sheet.Columns()[column].Title, nil)
	menu.ChildMenu = fyne.NewMenu("", g.headingItems(column)...)
	return menu
}

func (g *Grid) headingItems(column int) []*fyne.MenuItem {
	shift := func(by int) func() {
		return func() {
			g.sheet.ShiftColumn(column, by)
			g.laid()
		}
	}
	wider := func(by float32) func() {
		return func() {
			g.sheet.SetWidth(column, g.body.width(column)+by)
			g.laid()
		}
	}
	name := g.sheet.Columns()[column].Name
	return []*fyne.MenuItem{
		fyne.NewMenuItem("Sort   F3", func() { g.SortBy(column) }),
		fyne.NewMenuItem("Wider", wider(24)),
		fyne.NewMenuItem("Narrower", wider(-24)),
		fyne.NewMenuItem("To the left", shift(-1)),
		fyne.NewMenuItem("To the right", shift(1)),
		fyne.NewMenuItem("Hide", func() { g.sheet.ShowColumn(name, false); g.laid() }),
	}
}

// columnItems lists all columns; those shown are ticked.
func (g *Grid) columnItems() (items []*fyne.MenuItem) {
	columns, shown := g.sheet.AllColumns()
	for i, column := range columns {
		item := fyne.NewMenuItem(column.Title, func() {
			if g.keepEdit() {
				g.sheet.ShowColumn(column.Name, !shown[i])
				g.laid()
			}
		})
		item.Checked = shown[i]
		items = append(items, item)
	}
	return append(items, fyne.NewMenuItemSeparator(), fyne.NewMenuItem("As they were at first", func() {
		if g.keepEdit() {
			g.sheet.UsualColumns()
			g.laid()
		}
	}))
}
