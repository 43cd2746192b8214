package dialogs

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stageloom/ui/pointer"
)

// Line is a line of a [ManyList].
type Line struct {
	// ID tells it from the others and stays when the list is filled anew.
	ID string
	// Words and the small Note on the right are what it says.
	Words, Note string
	// Off means that nothing can be done with it now, Marked that its note is to be seen.
	Off, Marked bool
}

// ManyList is a list of lines of which several can be selected: by clicks with Shift and Ctrl, by the arrows with Shift, by the
// space bar and Ctrl A. The selection stays on its lines when the list is filled anew. Escape closes its dialog.
type ManyList struct {
	widget.List
	keys *Keys
	// Name is what a test of the real window calls the list.
	Name string
	// Changed is told when other lines are selected, Enter what Enter does, Undo what Ctrl Z does; nil for nothing.
	Changed, Enter, Undo func()

	lines    []Line
	selected map[string]bool
	cursor   int
	anchor   int
	shift    bool
	none     *widget.Label
}

// NewManyList returns a list without lines.
func NewManyList(host Host, name string) *ManyList {
	l := &ManyList{keys: host.Keys(), Name: name, selected: map[string]bool{}, none: widget.NewLabel("")}
	l.none.Wrapping, l.none.Importance = fyne.TextWrapWord, widget.LowImportance
	l.Length = func() int { return len(l.lines) }
	l.CreateItem = func() fyne.CanvasObject { return newManyRow(l) }
	l.UpdateItem = func(i int, object fyne.CanvasObject) {
		if i < len(l.lines) { // a list that was emptied still asks for the line where its cursor was
			object.(*manyRow).show(i)
		}
	}
	l.HideSeparators = true
	l.ExtendBaseWidget(l)
	return l
}

// Content is the list with what it says where it has no lines.
func (l *ManyList) Content() fyne.CanvasObject { return container.NewStack(l, l.none) }

// Fill fills the list; what was selected and is there yet stays so, and the cursor stays on its line or in its place. none is
// said where there are no lines.
func (l *ManyList) Fill(lines []Line, none string) {
	at := ""
	if l.cursor < len(l.lines) {
		at = l.lines[l.cursor].ID
	}
	l.lines = lines
	there := map[string]bool{}
	for i, line := range lines {
		if line.ID == at {
			l.cursor = i
		}
		if l.selected[line.ID] {
			there[line.ID] = true
		}
	}
	l.selected = there
	l.cursor = max(0, min(l.cursor, len(lines)-1))
	l.anchor = l.cursor
	l.none.SetText("")
	if len(lines) == 0 {
		l.none.SetText(none)
	}
	l.Refresh()
	l.comeBack()
	l.changed()
}

// comeBack scrolls a list that became shorter than where it was scrolled to.
func (l *ManyList) comeBack() {
	if len(l.lines) == 0 || l.Size().Height == 0 {
		return
	}
	offset := l.GetScrollOffset()
	row := newManyRow(l).MinSize().Height + l.Theme().Size(theme.SizeNamePadding)
	if most := row*float32(len(l.lines)) - l.Size().Height; offset > max(0, most) {
		if most <= 0 {
			l.ScrollToTop()
		} else {
			l.ScrollToBottom()
		}
	}
}

// Lines are what the list holds.
func (l *ManyList) Lines() []Line { return l.lines }

// Listed is what the list holds, for tests of the real window: its name, its lines and which of them are selected.
func (l *ManyList) Listed() (name string, lines []string, selected []int) {
	for i, line := range l.lines {
		lines = append(lines, line.Words+" | "+line.Note)
		if l.selected[line.ID] {
			selected = append(selected, i)
		}
	}
	return l.Name, lines, selected
}

// Selected are the places of the selected lines.
func (l *ManyList) Selected() (at []int) {
	_, _, at = l.Listed()
	return at
}

// SelectLine selects one line alone, at the cursor.
func (l *ManyList) SelectLine(i int) { l.point(i, 0) }

// SelectLines selects these lines, with the cursor at the first.
func (l *ManyList) SelectLines(at ...int) {
	for i, line := range at {
		held := fyne.KeyModifier(0)
		if i > 0 {
			held = fyne.KeyModifierShortcutDefault
		}
		l.point(line, held)
	}
	if len(at) > 0 {
		l.cursor = at[0]
		l.ScrollTo(at[0])
	}
}

// SelectNone selects nothing.
func (l *ManyList) SelectNone() {
	clear(l.selected)
	l.Refresh()
	l.changed()
}

// point selects by a click or the cursor: a line alone, with Ctrl one more or less, with Shift all from the last one.
func (l *ManyList) point(i int, held fyne.KeyModifier) {
	if i < 0 || i >= len(l.lines) {
		return
	}
	id := l.lines[i].ID
	switch {
	case held&fyne.KeyModifierShift != 0:
		clear(l.selected)
		for at := min(i, l.anchor); at <= max(i, l.anchor); at++ {
			l.selected[l.lines[at].ID] = true
		}
	case held&fyne.KeyModifierShortcutDefault != 0:
		if l.selected[id] {
			delete(l.selected, id)
		} else {
			l.selected[id] = true
		}
		l.anchor = i
	default:
		clear(l.selected)
		l.selected[id] = true
		l.anchor = i
	}
	l.cursor = i
	l.ScrollTo(i)
	l.Refresh()
	l.changed()
}

func (l *ManyList) changed() {
	if l.Changed != nil {
		l.Changed()
	}
}

// Step goes along the list by lines and selects the one it comes to.
func (l *ManyList) Step(by int) {
	if by != 0 && len(l.selected) == 0 && by*by == 1 {
		by = 0 // the first step selects where the cursor is
	}
	l.point(max(0, min(len(l.lines)-1, l.cursor+by)), 0)
}

// KeyDown implements desktop.Keyable.
func (l *ManyList) KeyDown(event *fyne.KeyEvent) { l.held(event.Name, true) }

// KeyUp implements desktop.Keyable.
func (l *ManyList) KeyUp(event *fyne.KeyEvent) { l.held(event.Name, false) }

func (l *ManyList) held(name fyne.KeyName, down bool) {
	if name == desktop.KeyShiftLeft || name == desktop.KeyShiftRight {
		l.shift = down
	}
}

// FocusGained implements fyne.Focusable.
func (l *ManyList) FocusGained() {
	l.shift = false
	l.List.FocusGained()
	if len(l.selected) == 0 {
		l.point(l.cursor, 0)
	}
}

// TypedKey implements fyne.Focusable.
func (l *ManyList) TypedKey(event *fyne.KeyEvent) {
	if l.keys.typed(event.Name) {
		return
	}
	const page = 8
	by, moves := map[fyne.KeyName]int{
		fyne.KeyDown: 1, fyne.KeyUp: -1, fyne.KeyPageDown: page, fyne.KeyPageUp: -page, fyne.KeyHome: -len(l.lines), fyne.KeyEnd: len(l.lines),
	}[event.Name]
	switch {
	case moves && l.shift:
		l.point(max(0, min(len(l.lines)-1, l.cursor+by)), fyne.KeyModifierShift)
	case moves:
		l.Step(by)
	case event.Name == fyne.KeySpace:
		l.point(l.cursor, fyne.KeyModifierShortcutDefault)
	case (event.Name == fyne.KeyReturn || event.Name == fyne.KeyEnter) && l.Enter != nil:
		l.Enter()
	case event.Name == fyne.KeyReturn || event.Name == fyne.KeyEnter:
		l.keys.Submit()
	}
}

// SelectedText makes the window hand the list what Ctrl A and Ctrl Z do, as it hands them to a field.
func (l *ManyList) SelectedText() string { return "" }

// TypedShortcut implements fyne.Shortcutable.
func (l *ManyList) TypedShortcut(shortcut fyne.Shortcut) {
	switch shortcut.(type) {
	case *fyne.ShortcutSelectAll:
		for _, line := range l.lines {
			l.selected[line.ID] = true
		}
		l.Refresh()
		l.changed()
	case *fyne.ShortcutUndo:
		if l.Undo != nil {
			l.Undo()
		}
	}
}

// manyRow is a line on the screen.
type manyRow struct {
	widget.BaseWidget
	list *ManyList
	at   int
	back *canvas.Rectangle
	line *pointer.NotedLine
}

var _ desktop.Mouseable = (*manyRow)(nil)

func newManyRow(list *ManyList) *manyRow {
	r := &manyRow{list: list, back: canvas.NewRectangle(theme.Color(theme.ColorNameSelection)), line: pointer.NewNotedLine()}
	r.line.After = "  " // keeps it clear of the bar that scrolls
	r.back.Hide()
	r.ExtendBaseWidget(r)
	return r
}

// CreateRenderer implements fyne.Widget.
func (r *manyRow) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.NewStack(r.back, r.line.Line))
}

func (r *manyRow) show(i int) {
	r.at = i
	line := r.list.lines[i]
	r.line.Name.Importance = widget.MediumImportance
	if line.Off {
		r.line.Name.Importance = widget.LowImportance
	}
	r.line.Note.Color = theme.Color(theme.ColorNamePlaceHolder)
	if line.Marked {
		r.line.Note.Color = theme.Color(theme.ColorNameForeground)
	}
	r.line.Set(line.Words, line.Note)
	r.back.FillColor = theme.Color(theme.ColorNameSelection)
	if r.list.selected[line.ID] {
		r.back.Show()
	} else {
		r.back.Hide()
	}
	r.Refresh()
}

// MouseDown implements desktop.Mouseable.
func (r *manyRow) MouseDown(event *desktop.MouseEvent) {
	if canvas := fyne.CurrentApp().Driver().CanvasForObject(r); canvas != nil {
		canvas.Focus(r.list)
	}
	r.list.point(r.at, event.Modifier)
}

// MouseUp implements desktop.Mouseable.
func (r *manyRow) MouseUp(*desktop.MouseEvent) {}
