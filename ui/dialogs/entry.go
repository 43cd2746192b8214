package dialogs

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Entry is an entry of a dialog that Escape closes; the toolkit's own keeps Escape to itself.
type Entry struct {
	widget.Entry
	keys    *Keys
	pointed bool // the pointer gives the focus, and says where the cursor goes
	// Left is told when the field loses the focus, Undo does what Ctrl Z does in an empty field; nil for nothing.
	Left, Undo func()
}

// NewEntry returns a field of one line.
func NewEntry(host Host) *Entry {
	f := &Entry{keys: host.Keys()}
	f.ExtendBaseWidget(f)
	return f
}

// NewLongEntry returns a field of several lines.
func NewLongEntry(host Host) *Entry {
	f := &Entry{keys: host.Keys()}
	f.MultiLine, f.Wrapping = true, fyne.TextWrapOff
	f.ExtendBaseWidget(f)
	return f
}

// Inner is the toolkit's entry, for tests.
func (f *Entry) Inner() *widget.Entry { return &f.Entry }

// Bears reports whether these words stand in the field or in its place, for tests of the real window.
func (f *Entry) Bears(words string) bool { return f.Text == words || f.PlaceHolder == words }

// MouseDown implements desktop.Mouseable.
func (f *Entry) MouseDown(event *desktop.MouseEvent) {
	f.pointed = true
	f.Entry.MouseDown(event)
	f.pointed = false
}

// FocusGained implements fyne.Focusable. A field that is reached by key has its text selected, so that typing replaces it.
func (f *Entry) FocusGained() {
	f.Entry.FocusGained()
	if !f.pointed && !f.MultiLine {
		f.Entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
}

// FocusLost implements fyne.Focusable.
func (f *Entry) FocusLost() {
	f.Entry.FocusLost()
	if f.Left != nil {
		f.Left()
	}
}

// TypedShortcut implements fyne.Shortcutable.
func (f *Entry) TypedShortcut(shortcut fyne.Shortcut) {
	if _, undo := shortcut.(*fyne.ShortcutUndo); undo && f.Undo != nil && f.Text == "" {
		f.Undo()
		return
	}
	f.Entry.TypedShortcut(shortcut)
}

// AcceptsTab implements fyne.Tabbable: Tab goes on to the next field, out of one of several lines too.
func (f *Entry) AcceptsTab() bool { return false }

// SelectAll selects what stands in the field, so that typing replaces it.
func (f *Entry) SelectAll() { f.Entry.TypedShortcut(&fyne.ShortcutSelectAll{}) }

// TypedKey implements fyne.Focusable.
func (f *Entry) TypedKey(event *fyne.KeyEvent) {
	if f.keys.typed(event.Name) {
		return
	}
	enter := event.Name == fyne.KeyReturn || event.Name == fyne.KeyEnter
	if enter && !f.MultiLine && f.OnSubmitted == nil {
		f.keys.Submit()
		return
	}
	f.Entry.TypedKey(event)
}

// SearchEntry is a field above a list: Up, Down and the page keys go along the list while one types.
type SearchEntry struct {
	Entry
	move func(by int)
}

// NewSearchEntry returns a field above a list; move goes along the list by lines.
func NewSearchEntry(host Host, move func(by int)) *SearchEntry {
	f := &SearchEntry{Entry: Entry{keys: host.Keys()}, move: move}
	f.ExtendBaseWidget(f)
	return f
}

// TypedKey implements fyne.Focusable.
func (f *SearchEntry) TypedKey(event *fyne.KeyEvent) {
	const page = 8
	by, known := map[fyne.KeyName]int{fyne.KeyDown: 1, fyne.KeyUp: -1, fyne.KeyPageDown: page, fyne.KeyPageUp: -page}[event.Name]
	if known {
		f.move(by)
		return
	}
	f.Entry.TypedKey(event)
}
