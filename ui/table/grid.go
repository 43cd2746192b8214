package table

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/settings"
)

// Grid is the widget on a Sheet: a line to filter, the cells, a line that says what a column holds or what is wrong.
// Set the functions before it is shown; those that are nil do nothing.
type Grid struct {
	widget.BaseWidget
	sheet *Sheet

	// Chosen is told which rows of the plan the user selected; Open is asked to show the cursor's row on the plan.
	Chosen func([]plan.Ref)
	Open   func(source Source, row int)
	// NewRow asks for a new row where the source cannot begin one by itself; nil where it can.
	NewRow func()
	// Remove takes the selected rows out where the source can't itself, and asks what has to be asked.
	Remove func()
	// Leave gives the focus back to the plan.
	Leave func()
	// Say tells what was done.
	Say func(string)
	// Laid is told when columns were chosen, moved, sorted or made wider.
	Laid func(settings.TableLook)
	// Shortcut and Key take key combinations and function keys that are none of the table's.
	Shortcut func(fyne.Shortcut)
	Key      func(fyne.KeyName)
	// Enter is asked first what Enter does on a cell that is not typed, and reports whether it did something.
	Enter func(source Source, row int, column string) bool
	// Canvas is where the grid is shown. The toolkit knows it only once the grid has been painted, which is too late for
	// the focus of a table that is just being opened.
	Canvas fyne.Canvas
	// Actions are items of the context menu about the cursor's row, before the table's own.
	Actions func(source Source, row int) []*fyne.MenuItem

	// Moved is told when cells of a Draggable column were dragged from one row to another, DroppedBeside when the selected rows
	// were dropped beside the table, Dragging while they are dragged, and whether that is beside the table.
	Moved         func(source Source, column string, from, to plan.Ref)
	DroppedBeside func(source Source, refs []plan.Ref, at fyne.Position)
	Dragging      func(source Source, refs []plan.Ref, at fyne.Position, outside bool)

	filter *filterField
	count  *widget.Label
	add    *widget.Button
	body   *body
	empty  *widget.Label
	foot   *widget.Label
	bubble *bubble
	top    *fyne.Container
	beside *fyne.Container
	layer  *fyne.Container
	frame  *fyne.Container
	all    *fyne.Container

	editing  *editing
	carrying *carrying
	// told is what the plan's selection was when it was last shown or told, telling that it is being told.
	told    []plan.Ref
	telling bool
	trouble string
}

// NewGrid returns a grid on a sheet.
func NewGrid(sheet *Sheet) *Grid {
	g := &Grid{sheet: sheet, count: widget.NewLabel(""), empty: widget.NewLabel(""), foot: widget.NewLabel("")}
	g.filter = newFilterField(g)
	g.body = newBody(g)
	g.bubble = newBubble()
	g.count.Importance = widget.LowImportance
	g.empty.Alignment, g.empty.Wrapping, g.empty.Importance = fyne.TextAlignCenter, fyne.TextWrapWord, widget.LowImportance
	columns := widget.NewButton("Columns", nil)
	columns.OnTapped = func() { g.popUp(g.columnItems(), below(columns)) }
	g.add = widget.NewButton("", func() { g.addRow() })
	g.beside = container.NewHBox()
	g.top = container.New(topLine{}, g.filter, g.count, container.NewHBox(g.beside, g.add, columns))
	g.layer = container.NewWithoutLayout(g.bubble)
	middle := container.NewStack(g.body, container.NewCenter(container.New(atLeast{440}, g.empty)))
	g.frame = container.NewBorder(g.top, container.New(footLines{g}, g.foot), nil, nil, middle)
	g.all = container.NewStack(g.frame, g.layer)
	g.ExtendBaseWidget(g)
	g.show()
	return g
}

// CreateRenderer implements fyne.Widget.
func (g *Grid) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(g.all) }

// Sheet is what the grid shows.
func (g *Grid) Sheet() *Sheet { return g.sheet }

// SetBeside puts an object of the window beside the line that filters; nil takes it away.
func (g *Grid) SetBeside(object fyne.CanvasObject) {
	g.beside.Objects = nil
	if object != nil {
		g.beside.Objects = []fyne.CanvasObject{object}
	}
	g.beside.Refresh()
	g.top.Refresh()
}

// SetSource shows another state of the same table. What is being typed stays as long as its row does.
func (g *Grid) SetSource(source Source) {
	g.sheet.SetSource(source)
	if g.editing != nil && !g.editing.exists(source) {
		e := g.editing
		g.endEdit()
		g.inherit(e)
	}
	g.show()
}

// SetSelection shows which rows are about what the plan has selected, and scrolls to the first of them.
func (g *Grid) SetSelection(refs []plan.Ref) {
	if g.telling || slices.Equal(refs, g.told) {
		return
	}
	g.told = append([]plan.Ref(nil), refs...)
	if g.sheet.ShowSelection(refs) {
		g.scroll()
	}
	g.explain()
	g.refreshCells()
}

func (g *Grid) canvas() fyne.Canvas {
	if g.Canvas != nil {
		return g.Canvas
	}
	return fyne.CurrentApp().Driver().CanvasForObject(g)
}

// Keep keeps what is being typed, if something is, and reports whether it could be.
func (g *Grid) Keep() bool {
	e := g.editing
	kept := g.keepEdit()
	if kept {
		g.inherit(e)
		return true
	}
	g.scroll()
	g.focusField() // what is typed next goes on in the cell, not to what else has keys
	return false
}

// inherit gives the keys of a field that is gone to the cells.
func (g *Grid) inherit(e *editing) {
	if c := g.canvas(); e != nil && c != nil && c.Focused() == fyne.Focusable(e.field) {
		c.Focus(g.body)
	}
}

// Trouble is what the line at the foot says is wrong, blank where nothing is.
func (g *Grid) Trouble() string {
	if g.editing != nil && g.editing.err != nil {
		return words.Sentence(g.editing.err)
	}
	return g.trouble
}

// Focused reports whether the keys go to the cells.
func (g *Grid) Focused() bool { return g.body.focused }

// Focus gives the keys to the cells.
func (g *Grid) Focus() {
	if c := g.canvas(); c != nil {
		c.Focus(g.body)
	}
}

// FocusFilter gives the keys to the line that filters.
func (g *Grid) FocusFilter() {
	if c := g.canvas(); c != nil {
		c.Focus(g.filter)
	}
}

// SetFilter filters the rows as if it had been typed.
func (g *Grid) SetFilter(text string) { g.filter.SetText(text) }

// show brings everything up to the sheet.
func (g *Grid) show() {
	one, many := g.sheet.Source().Words()
	g.count.Importance = widget.LowImportance
	if g.sheet.Hidden() > 0 {
		g.count.Importance = widget.WarningImportance // a filter that is on is seen
	}
	g.count.SetText(countWords(g.sheet.Len(), g.sheet.Source().Len(), one, many) + g.leftOut())
	adds, _ := g.sheet.Grows()
	g.add.SetText("New " + one)
	setShown(g.add, adds)
	empty := ""
	switch {
	case g.sheet.Source().Len() == 0:
		empty = g.sheet.Source().Empty()
	case g.sheet.Len() == 0:
		empty = fmt.Sprintf("No %s holds “%s”. Escape in the line above shows all %s again.", one, g.sheet.Filter(), many)
	}
	g.empty.SetText(empty)
	setShown(g.empty, empty != "")
	g.top.Refresh() // it gives the count the room that it needs now
	g.body.layColumns()
	g.body.layTail()
	g.refreshCells()
	g.explain()
}

func setShown(object fyne.CanvasObject, shown bool) {
	if shown {
		object.Show()
		return
	}
	object.Hide()
}

func countWords(shown, all int, one, many string) string {
	words := many
	if all == 1 {
		words = one
	}
	if shown == all {
		return fmt.Sprintf("%d %s", all, words)
	}
	return fmt.Sprintf("%d of %d %s", shown, all, words)
}

// refreshCells shows cells, cursor and selection anew.
func (g *Grid) refreshCells() {
	g.body.Refresh()
	g.placeBubble()
}

// moved is called after the user moved the cursor or changed the selection.
func (g *Grid) moved() {
	g.trouble = ""
	g.explain() // it may take a line of the rows
	g.scroll()
	g.refreshCells()
	g.tell()
}

// tell tells the plan which rows are selected.
func (g *Grid) tell() {
	refs := g.sheet.Shows()
	if slices.Equal(refs, g.told) {
		return
	}
	g.told = refs
	if g.Chosen != nil {
		g.telling = true
		g.Chosen(refs)
		g.telling = false
	}
}

// Settle tells the grid what the plan selected of what it was told: rows that cannot be selected are left out there.
func (g *Grid) Settle(refs []plan.Ref) { g.told = append([]plan.Ref(nil), refs...) }

func (g *Grid) scroll() {
	if row, column := g.sheet.Cursor(); row >= 0 {
		g.body.scrollTo(row, column)
	}
}

// warn says at the foot why nothing was changed.
func (g *Grid) warn(err error) {
	g.trouble = words.Sentence(err)
	g.explain()
}

func (g *Grid) say(text string) {
	if g.Say != nil {
		g.Say(text)
	}
}

func (g *Grid) laid() {
	g.body.layColumns()
	g.refreshCells()
	g.explain()
	if g.Laid != nil {
		g.Laid(g.sheet.Look())
	}
}

// SortBy sorts by a shown column, as a click on its heading does.
func (g *Grid) SortBy(column int) {
	if !g.keepEdit() {
		return
	}
	g.sheet.SortBy(column)
	g.laid()
	g.scroll()
}
