package table

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/plan"
	"stageloom/model/words"
)

// editing is an edit in place: the one live field of the table, in the cell of a row and a column.
type editing struct {
	target Target
	ref    plan.Ref
	column string
	field  *cellField
	err    error
	// begun is the text that the field had at first.
	begun string
}

func (e *editing) exists(source Source) bool {
	if !slices.ContainsFunc(source.Columns(), func(c Column) bool { return c.Name == e.column }) {
		return false
	}
	for row := range source.Len() {
		if source.Ref(row) == e.ref {
			return true
		}
	}
	return false
}

// cellField is the field in which a cell is typed.
type cellField struct {
	widget.Entry
	grid    *Grid
	shifted bool
}

// Inner is the toolkit's entry, for tests.
func (f *cellField) Inner() *widget.Entry { return &f.Entry }

// AcceptsTab implements fyne.Tabbable.
func (f *cellField) AcceptsTab() bool { return true }

// KeyDown implements desktop.Keyable.
func (f *cellField) KeyDown(event *fyne.KeyEvent) {
	f.shifted = f.shifted || event.Name == desktop.KeyShiftLeft || event.Name == desktop.KeyShiftRight
	f.Entry.KeyDown(event)
}

// KeyUp implements desktop.Keyable.
func (f *cellField) KeyUp(event *fyne.KeyEvent) {
	f.shifted = f.shifted && event.Name != desktop.KeyShiftLeft && event.Name != desktop.KeyShiftRight
	f.Entry.KeyUp(event)
}

// TypedKey implements fyne.Focusable: Enter keeps and goes down, Tab keeps and goes to the side, Escape discards.
func (f *cellField) TypedKey(event *fyne.KeyEvent) {
	g := f.grid
	back := f.shifted
	if driver, ok := fyne.CurrentApp().Driver().(desktop.Driver); ok {
		back = driver.CurrentKeyModifiers()&fyne.KeyModifierShift != 0
	}
	switch event.Name {
	case fyne.KeyEscape:
		g.giveUpEdit()
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeyDown, fyne.KeyUp:
		step := 1
		if event.Name == fyne.KeyUp || back && event.Name != fyne.KeyDown {
			step = -1
		}
		g.keepAndGo(func() { g.sheet.Move(step, 0, false) })
	case fyne.KeyTab:
		g.keepAndGo(func() { g.body.tab(back) })
	case fyne.KeyPageDown, fyne.KeyPageUp:
	case fyne.KeyF1:
		g.tellKey(event.Name)
	default:
		f.Entry.TypedKey(event)
	}
}

// FocusLost implements fyne.Focusable: what was typed is kept, or stays with the reason why not.
func (f *cellField) FocusLost() {
	f.Entry.FocusLost()
	f.shifted = false
	switch e := f.grid.editing; {
	case e == nil || e.field != f:
	case f.Text == e.begun && e.err == nil && len(e.target.Refs) > 1:
		f.grid.endEdit() // nothing was typed, so nothing goes into the others
	default:
		f.grid.keepEdit()
	}
}

// begin edits the cursor's cell: with what it holds, or with what was typed on it. A cell of few words offers them.
func (g *Grid) begin(typed *string) {
	row, column := g.sheet.Cursor()
	if row < 0 || !g.keepEdit() {
		return
	}
	if !g.sheet.Editable(column) {
		g.enter(row, column, typed != nil)
		return
	}
	if choices := g.sheet.Choices(row, column); len(choices) > 0 && typed == nil {
		g.offer(choices)
		return
	}
	g.trouble = ""
	g.scroll()
	field := &cellField{grid: g}
	field.ExtendBaseWidget(field)
	field.Scroll = fyne.ScrollNone
	text := g.sheet.Cell(row, column).Text
	if typed != nil {
		text = *typed
	}
	field.Text = text
	field.CursorColumn = len([]rune(text))
	g.editing = &editing{g.sheet.Target(), g.sheet.Ref(row), g.sheet.Columns()[column].Name, field, nil, text}
	g.refreshCells()
	g.explain()
	if c := g.canvas(); c != nil {
		c.Focus(field)
	}
	if typed == nil {
		field.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
}

// enter does what Enter does on a cell that is not typed: in a table of which nothing is, it shows the row on the plan.
func (g *Grid) enter(row, column int, typing bool) {
	name := g.sheet.Columns()[column].Name
	if !typing && g.Enter != nil && g.Enter(g.sheet.source, g.sheet.rows[row], name) {
		return
	}
	for column := range g.sheet.columns {
		if g.sheet.source.Setter(column) != nil {
			g.warn(ErrReckoned)
			return
		}
	}
	if !typing {
		g.open()
	}
}

// keepEdit keeps what is being typed, if something is, and reports whether it could be. Where not, the field stays with its
// text, and the reason stands under it.
func (g *Grid) keepEdit() bool {
	e := g.editing
	if e == nil {
		return true
	}
	g.editing = nil // the plan's event comes back to the grid before Set returns
	if err := g.sheet.Set(e.target, e.field.Text); err != nil {
		e.err = err
		g.editing = e
		g.refreshCells()
		return false
	}
	g.endEdit()
	return true
}

// giveUpEdit gives the cell back what it held, and says so where something else was typed.
func (g *Grid) giveUpEdit() {
	e := g.editing
	g.endEdit()
	g.Focus()
	if e == nil || e.field.Text == e.begun && e.err == nil {
		return
	}
	row, column := g.sheet.Cursor()
	if row < 0 || g.sheet.Ref(row) != e.ref {
		return
	}
	held := "is blank"
	if text := g.sheet.Cell(row, column).Text; text != "" {
		held = "reads " + plan.Clipped(text)
	}
	g.say(fmt.Sprintf("%s of %s %s as before.", g.sheet.Columns()[column].Title, g.sheet.RowName(row), held))
}

// keepAndGo keeps what is being typed and moves the cursor; with several rows selected they stay selected.
func (g *Grid) keepAndGo(step func()) {
	next := func() {}
	if len(g.editing.target.Refs) == 1 {
		next = g.after(step)
	}
	if !g.keepEdit() {
		g.focusField()
		return
	}
	next()
	g.Focus()
	g.moved()
}

// after returns what moves the cursor once the edit is kept. Where to is worked out before, since rows may be sorted anew.
func (g *Grid) after(step func()) func() {
	row, column := g.sheet.Cursor()
	step()
	to, side := g.sheet.Cursor()
	ref := g.sheet.Ref(to)
	g.sheet.Go(row, column, false)
	return func() {
		for view := range g.sheet.rows {
			if g.sheet.Ref(view) == ref {
				g.sheet.Go(view, side, false)
				return
			}
		}
	}
}

func (g *Grid) focusField() {
	if c := g.canvas(); c != nil && g.editing != nil {
		c.Focus(g.editing.field)
	}
}

// endEdit takes the field away.
func (g *Grid) endEdit() {
	g.editing = nil
	g.show()
}

// placeBubble puts the reason why an edit was not kept under its cell, or takes it away.
func (g *Grid) placeBubble() {
	if g.editing == nil || g.editing.err == nil {
		g.bubble.Hide()
		return
	}
	for _, c := range g.body.cells {
		if !g.holdsField(c.id) {
			continue
		}
		driver := fyne.CurrentApp().Driver()
		at := driver.AbsolutePositionForObject(c).Subtract(driver.AbsolutePositionForObject(g))
		width := min(max(320, c.Size().Width), g.Size().Width)
		g.bubble.text.SetText(words.Sentence(g.editing.err) + " Escape gives back what it was.")
		g.bubble.Resize(fyne.NewSize(width, g.bubble.MinSize().Height))
		height := g.bubble.MinSize().Height
		at.X = max(0, min(at.X, g.Size().Width-width))
		at.Y += c.Size().Height + 2
		if at.Y+height > g.Size().Height {
			at.Y -= c.Size().Height + height + 4
		}
		g.bubble.Resize(fyne.NewSize(width, height))
		g.bubble.Move(at)
		g.bubble.Show()
		g.bubble.Refresh()
		return
	}
	g.bubble.Hide()
}

// holdsField reports whether the field stands in this cell.
func (g *Grid) holdsField(id widget.TableCellID) bool {
	e := g.editing
	if e == nil || id.Row < 0 || id.Row >= g.sheet.Len() || id.Col < 0 || id.Col >= len(g.sheet.shown) {
		return false
	}
	return g.sheet.Ref(id.Row) == e.ref && g.sheet.columns[g.sheet.shown[id.Col]].Name == e.column
}
