package ui

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/desk"
	"stageloom/model/plan"
	"stageloom/ui/answers"
	"stageloom/ui/pointer"
	"stageloom/ui/settings"
	"stageloom/ui/table"
	"stageloom/ui/table/sources"
)

// tables is the drawer under the plan: one table at a time, made when it is opened first.
type tables struct {
	window *window
	// place holds the plan alone, or the plan above the drawer.
	place  *fyne.Container
	split  *container.Split
	tabs   *fyne.Container
	middle *fyne.Container
	grids  map[string]*table.Grid
	stale  map[string]bool
	open   string
	acts   *actChooser
}

// newTables puts a drawer, closed yet, under the plan and its strip.
func (w *window) newTables(above fyne.CanvasObject) *tables {
	t := &tables{window: w, grids: map[string]*table.Grid{}, stale: map[string]bool{}}
	t.tabs, t.middle = container.NewHBox(), container.NewStack()
	t.acts = w.newActChooser()
	shut := pointer.NewIconButton(theme.CancelIcon(), "close the tables", w.tips, func() { t.shut() })
	shut.Importance = widget.LowImportance
	head := container.NewBorder(nil, nil, nil, shut, container.NewHScroll(t.tabs))
	t.split = container.NewVSplit(above, container.NewBorder(container.NewVBox(widget.NewSeparator(), head), nil, nil, nil, t.middle))
	t.split.Offset = w.settings.Drawer()
	t.place = container.NewStack(above)
	t.listTabs()
	return t
}

func (t *tables) listTabs() {
	t.tabs.Objects = nil
	for _, sheet := range sources.All() {
		tab := widget.NewButton(sheet.Title, func() { t.show(sheet.Name) })
		tab.Importance = widget.LowImportance
		if sheet.Name == t.open {
			tab.Importance = widget.HighImportance
		}
		t.tabs.Add(tab)
	}
	t.tabs.Refresh()
}

// showTable opens a table with the keys in it; the second time it closes the drawer.
func (w *window) showTable(name string) {
	t := w.tables
	if grid := t.grid(); t.open == name && grid != nil && grid.Focused() {
		t.shut()
		return
	}
	t.show(name)
}

// show opens a table and gives it the focus.
func (t *tables) show(name string) {
	if _, known := sources.Named(name); !known {
		return
	}
	if grid := t.grid(); grid != nil && !grid.Keep() {
		return
	}
	opened := t.open == ""
	if grid := t.grid(); grid != nil {
		grid.SetBeside(nil)
	}
	t.open = name
	grid := t.made(name)
	grid.SetBeside(t.acts.box)
	t.middle.Objects = []fyne.CanvasObject{grid}
	if opened {
		t.place.Objects = []fyne.CanvasObject{t.split}
	}
	t.listTabs()
	t.window.listActs()
	t.fill()
	t.middle.Refresh()
	t.place.Refresh()
	grid.SetSelection(t.window.desk.Selection())
	t.place.MinSize() // makes what the toolkit else makes at the first frame: before that it finds nothing to give the focus to
	grid.Focus()
	t.window.settings.SetOpenTable(name)
}

// shut closes the drawer and gives the focus to the plan.
func (t *tables) shut() {
	if grid := t.grid(); grid == nil || !grid.Keep() {
		return
	}
	t.open = ""
	t.window.settings.SetDrawer(t.split.Offset)
	t.window.settings.SetOpenTable("")
	t.place.Objects = []fyne.CanvasObject{t.split.Leading}
	t.place.Refresh()
	t.window.window.Canvas().Focus(t.window.plan)
}

// grid is the table that is open, nil where none is.
func (t *tables) grid() *table.Grid { return t.grids[t.open] }

// source is what a table holds of the plan as it is.
func (t *tables) source(name string) table.Source {
	sheet, _ := sources.Named(name)
	w := t.window
	return sheet.Of(w.desk.Assessment(), sources.View{Units: w.units(), Act: w.actShown(), Channels: w.settings.ChannelsFollow()})
}

// made is the grid of a table, made at the first call.
func (t *tables) made(name string) *table.Grid {
	if grid := t.grids[name]; grid != nil {
		return grid
	}
	w := t.window
	sheet := table.NewSheet(t.source(name), w.desk.Do)
	sheet.SetLook(w.settings.Table(name))
	grid := table.NewGrid(sheet)
	grid.Canvas = w.window.Canvas()
	grid.Laid = func(look settings.TableLook) { w.settings.SetTable(name, look) }
	grid.Say = w.notice.Say
	grid.Leave = func() { w.window.Canvas().Focus(w.plan) }
	grid.Key = w.functionKey
	grid.Shortcut = w.unclaimed
	grid.Chosen = func(refs []plan.Ref) { t.chosen(grid, refs) }
	grid.Open = w.openRow
	grid.Enter = func(source table.Source, row int, column string) bool { return t.enter(grid, source, row, column) }
	grid.Actions = w.rowActions
	grid.Carried = w.carriedPatch
	grid.CarriedOut = w.droppedInputs
	grid.Carrying = w.carryInputs
	if slices.Contains([]string{plan.LinksTable, plan.DevicesTable, plan.PositionsTable}, name) { // what they take along is told first; rows of the patch are no rows of the plan
		grid.Remove = func() {
			w.desk.Select(grid.Sheet().Refs()...)
			w.remove()
		}
	}
	switch name {
	case "house lines": // only the venue knows their kinds and lengths
		grid.NewRow = func() { w.askHouseLine(func(ref plan.Ref) { t.madeRow(grid, ref) }) }
	case "devices": // only the user knows their kinds
		grid.NewRow = func() { w.askDevice(func(ref plan.Ref) { t.madeRow(grid, ref) }) }
	}
	t.grids[name] = grid
	return grid
}

// madeRow shows a row that a dialog made.
func (t *tables) madeRow(grid *table.Grid, ref plan.Ref) {
	t.window.desk.Select(ref)
	grid.SetSelection([]plan.Ref{ref})
	grid.Focus()
}

// chosen selects on the plan what the table selects, and brings the first of it into view.
func (t *tables) chosen(grid *table.Grid, refs []plan.Ref) {
	w := t.window
	if len(refs) > 0 {
		if _, drawn := w.plan.Where(refs[0]); drawn {
			w.plan.Reveal(refs[0])
		}
	}
	w.desk.Select(refs...)
	grid.Settle(w.desk.Selection())
}

// enter offers what mends a finding, in the column that says so.
func (t *tables) enter(grid *table.Grid, source table.Source, row int, column string) bool {
	finding, found := sources.FindingAt(source, row)
	if !found || column != sources.FixColumn {
		return false
	}
	items := t.window.fixItems(finding)
	if len(items) == 0 {
		t.window.fixFinding(finding)
		return true
	}
	grid.Offer(items)
	return true
}

// unclaimed are key combinations that neither the menu nor the table has.
func (w *window) unclaimed(shortcut fyne.Shortcut) {
	if sh, ok := shortcut.(*desktop.CustomShortcut); ok && sh.KeyName == fyne.KeyZ && sh.Modifier == control|shift {
		w.desk.Redo()
	}
}

// refresh brings the table that is open up to the plan; the others are when they are opened.
func (t *tables) refresh(e desk.Event) {
	if e.PlanChanged() || e.Opened {
		t.outdate()
		t.window.listActs()
	}
	if grid := t.grid(); grid != nil {
		t.fill()
		grid.SetSelection(t.window.desk.Selection())
	}
}

// outdate marks all tables as showing an older plan, or other units.
func (t *tables) outdate() {
	for name := range t.grids {
		t.stale[name] = true
	}
}

// fill gives the open table its rows anew where they are older than the plan.
func (t *tables) fill() {
	if t.stale[t.open] {
		t.stale[t.open] = false
		t.grid().SetSource(t.source(t.open))
	}
}

// tablesMenu opens and closes the tables.
func (w *window) tablesMenu() *fyne.Menu {
	digits := []fyne.KeyName{fyne.Key1, fyne.Key2, fyne.Key3, fyne.Key4, fyne.Key5, fyne.Key6, fyne.Key7, fyne.Key8, fyne.Key9}
	menu := fyne.NewMenu("Tables")
	for i, sheet := range sources.All() {
		open := func() { w.showTable(sheet.Name) }
		item := fyne.NewMenuItem(sheet.Title, open)
		if i < 2*len(digits) { // the first nine by Ctrl, the others by Ctrl and Shift
			item = w.item(sheet.Title, key(digits[i%len(digits)], []fyne.KeyModifier{control, control | shift}[i/len(digits)]), open)
		}
		menu.Items = append(menu.Items, item)
	}
	filter := fyne.NewMenuItem("Filter rows   Ctrl F in a table", func() {
		if grid := w.tables.grid(); grid != nil {
			grid.FocusFilter()
		}
	})
	menu.Items = append(menu.Items, fyne.NewMenuItemSeparator(), filter, fyne.NewMenuItem("Close the tables", func() { w.tables.shut() }))
	return menu
}

// state is what tests ask of the table that is open.
func (t *tables) state() (s answers.Table) {
	grid := t.grid()
	if grid == nil {
		return s
	}
	sheet := grid.Sheet()
	s = answers.Table{Name: t.open, Rows: sheet.Len(), Filter: sheet.Filter(), Trouble: grid.Trouble()}
	row, column := sheet.Cursor()
	if row < 0 {
		return s
	}
	s.Row, s.Column, s.Text = sheet.RowName(row), sheet.Columns()[column].Title, sheet.Cell(row, column).Text
	for i, head := range sheet.Columns() {
		s.Line = append(s.Line, fmt.Sprintf("%s: %s", head.Title, sheet.Cell(row, i).Text))
	}
	for row := range sheet.Len() {
		if sheet.Selected(row) {
			s.Selected++
		}
	}
	return s
}
