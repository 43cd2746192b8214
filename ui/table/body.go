package table

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// body is the cells: the toolkit's table, which draws only what is in view, with keys and pointer of our own.
type body struct {
	widget.Table
	grid    *Grid
	cells   map[widget.TableCellID]*cell
	shifted bool
	focused bool
	laid    []float32
	// rows is what scrolls, known once it is drawn; tail is the last line, which the bar lies over.
	rows *container.Scroll
	tail int
}

// What the cells are to the toolkit, pinned.
var (
	_ fyne.Focusable    = (*body)(nil)
	_ fyne.Tabbable     = (*body)(nil)
	_ fyne.Shortcutable = (*body)(nil)
	_ desktop.Keyable   = (*body)(nil)
)

func newBody(g *Grid) *body {
	b := &body{grid: g, cells: map[widget.TableCellID]*cell{}}
	b.Length = func() (int, int) { return g.sheet.Len() + 1, len(g.sheet.shown) }
	b.CreateCell = func() fyne.CanvasObject { return newCell(b) }
	b.UpdateCell = func(id widget.TableCellID, object fyne.CanvasObject) { object.(*cell).show(id) }
	b.ShowHeaderRow, b.StickyColumnCount, b.HideSeparators = true, 1, true
	b.tail = -1
	b.CreateHeader = func() fyne.CanvasObject { return newHeading(b) }
	b.UpdateHeader = func(id widget.TableCellID, object fyne.CanvasObject) { object.(*heading).show(id.Col) }
	b.ExtendBaseWidget(b)
	return b
}

// The toolkit's own pointer handling marks single cells; the cells here do it themselves.

// MouseDown implements desktop.Mouseable: a press beside the cells gives them the focus.
func (b *body) MouseDown(*desktop.MouseEvent) {
	if b.grid.keepEdit() {
		b.grid.Focus()
	}
}

// MouseIn implements desktop.Hoverable.
func (b *body) MouseIn(*desktop.MouseEvent) {}

// MouseMoved implements desktop.Hoverable.
func (b *body) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (b *body) MouseOut() {}

// Cursor implements desktop.Cursorable.
func (b *body) Cursor() desktop.Cursor { return desktop.DefaultCursor }

// Tapped implements fyne.Tappable.
func (b *body) Tapped(*fyne.PointEvent) {}

// Dragged implements fyne.Draggable.
func (b *body) Dragged(*fyne.DragEvent) {}

// DragEnd implements fyne.Draggable.
func (b *body) DragEnd() {}

// FocusGained implements fyne.Focusable: the cursor is drawn strong.
func (b *body) FocusGained() {
	b.focused = true
	b.Refresh()
}

// FocusLost implements fyne.Focusable.
func (b *body) FocusLost() {
	b.focused, b.shifted = false, false
	b.Refresh()
}

// AcceptsTab implements fyne.Tabbable: Tab goes from cell to cell, Escape leaves.
func (b *body) AcceptsTab() bool { return true }

// KeyDown implements desktop.Keyable: arrows come without their modifiers.
func (b *body) KeyDown(event *fyne.KeyEvent) {
	if event.Name == desktop.KeyShiftLeft || event.Name == desktop.KeyShiftRight {
		b.shifted = true
	}
}

// KeyUp implements desktop.Keyable.
func (b *body) KeyUp(event *fyne.KeyEvent) {
	if event.Name == desktop.KeyShiftLeft || event.Name == desktop.KeyShiftRight {
		b.shifted = false
	}
}

// shift reports whether Shift is held.
func (b *body) shift() bool {
	if driver, ok := fyne.CurrentApp().Driver().(desktop.Driver); ok {
		return driver.CurrentKeyModifiers()&fyne.KeyModifierShift != 0
	}
	return b.shifted
}

// page is how many rows a page key goes.
func (b *body) page() int {
	pitch := b.pitch()
	if pitch <= 0 {
		return 1
	}
	return max(1, int((b.Size().Height-headingHeight)/pitch)-1)
}

// TypedKey implements fyne.Focusable.
func (b *body) TypedKey(event *fyne.KeyEvent) {
	if b.travel(event.Name) {
		return
	}
	g := b.grid
	switch event.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeyF2:
		g.begin(nil)
	case fyne.KeyBackspace:
		blank := ""
		g.begin(&blank)
	case fyne.KeyDelete:
		g.delete()
	case fyne.KeyInsert:
		g.addRow()
	case fyne.KeyF3:
		if _, column := g.sheet.Cursor(); column >= 0 {
			g.SortBy(column)
		}
	case fyne.KeyF10, desktop.KeyMenu:
		g.contextMenuAtCursor()
	case fyne.KeyEscape:
		if !g.filter.clear() { // the first Escape shows all rows again, where they are filtered
			g.leave()
		}
	default:
		if g.Key != nil {
			g.Key(event.Name)
		}
	}
}

// travel moves the cursor and reports whether the key was one for that.
func (b *body) travel(name fyne.KeyName) bool {
	s, extend := b.grid.sheet, b.shift()
	row, column := s.Cursor()
	switch name {
	case fyne.KeyDown:
		s.Move(1, 0, extend)
	case fyne.KeyUp:
		s.Move(-1, 0, extend)
	case fyne.KeyRight:
		s.Move(0, 1, extend)
	case fyne.KeyLeft:
		s.Move(0, -1, extend)
	case fyne.KeyTab:
		b.tab(extend)
	case fyne.KeyHome:
		s.Go(row, 0, extend)
	case fyne.KeyEnd:
		s.Go(row, len(s.shown)-1, extend)
	case fyne.KeyPageDown:
		s.Go(row+b.page(), column, extend)
	case fyne.KeyPageUp:
		s.Go(row-b.page(), column, extend)
	default:
		return false
	}
	b.grid.moved()
	return true
}

// tab goes to the next cell, at the end of a row to the next row; back goes the other way.
func (b *body) tab(back bool) {
	s := b.grid.sheet
	row, column := s.Cursor()
	step := 1
	if back {
		step = -1
	}
	column += step
	switch {
	case column >= len(s.shown) && row < s.Len()-1:
		row, column = row+1, 0
	case column < 0 && row > 0:
		row, column = row-1, len(s.shown)-1
	}
	s.Go(row, column, false)
}

// TypedRune implements fyne.Focusable: typing begins an edit with what is typed.
func (b *body) TypedRune(sign rune) {
	if sign == ' ' && b.shift() {
		b.grid.sheet.SelectRow()
		b.grid.moved()
		return
	}
	typed := string(sign)
	b.grid.begin(&typed)
}

// TypedShortcut implements fyne.Shortcutable.
func (b *body) TypedShortcut(shortcut fyne.Shortcut) {
	if !b.Command(shortcut) && b.grid.Shortcut != nil {
		b.grid.Shortcut(shortcut)
	}
}

// Command does what a key combination says where it is the table's, and reports whether it is.
func (b *body) Command(shortcut fyne.Shortcut) bool {
	g := b.grid
	switch sh := shortcut.(type) {
	case *fyne.ShortcutCopy:
		g.copy(false)
	case *fyne.ShortcutCut:
		g.copy(false)
		g.clear()
	case *fyne.ShortcutPaste:
		g.paste()
	case *fyne.ShortcutSelectAll:
		g.sheet.SelectAll()
		g.keptMoved()
	case *desktop.CustomShortcut:
		return b.custom(sh)
	default:
		return false
	}
	return true
}

func (b *body) custom(sh *desktop.CustomShortcut) bool {
	const control = fyne.KeyModifierShortcutDefault
	if sh.Modifier&^fyne.KeyModifierShift == control && b.jump(sh.KeyName, sh.Modifier&fyne.KeyModifierShift != 0) {
		return true
	}
	g := b.grid
	switch {
	case sh.Modifier == control && sh.KeyName == fyne.KeyF:
		g.FocusFilter()
	case sh.Modifier == control && sh.KeyName == fyne.KeyDelete:
		g.removeRows()
	case sh.Modifier == control && sh.KeyName == fyne.KeySpace:
		g.sheet.SelectColumn()
		g.keptMoved()
	case sh.Modifier == control && (sh.KeyName == fyne.KeyReturn || sh.KeyName == fyne.KeyEnter):
		g.open()
	case sh.Modifier == control|fyne.KeyModifierShift && sh.KeyName == fyne.KeyC:
		g.copy(true)
	default:
		return false
	}
	return true
}

// jump goes to the edges of the table.
func (b *body) jump(name fyne.KeyName, extend bool) bool {
	s := b.grid.sheet
	row, column := s.Cursor()
	switch name {
	case fyne.KeyDown:
		s.Go(s.Len()-1, column, extend)
	case fyne.KeyUp:
		s.Go(0, column, extend)
	case fyne.KeyRight:
		s.Go(row, len(s.shown)-1, extend)
	case fyne.KeyLeft:
		s.Go(row, 0, extend)
	case fyne.KeyHome:
		s.Go(0, 0, extend)
	case fyne.KeyEnd:
		s.Go(s.Len()-1, len(s.shown)-1, extend)
	default:
		return false
	}
	b.grid.moved()
	return true
}
