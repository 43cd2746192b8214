package dialogs

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Field is an entry of a dialog that Escape closes; the toolkit's own keeps Escape to itself.
type Field struct {
	widget.Entry
	keys    *Keys
	pointed bool // the pointer gives the focus, and says where the cursor goes
}

// NewField returns a field of one line.
func NewField(host Host) *Field {
	f := &Field{keys: host.Keys()}
	f.ExtendBaseWidget(f)
	return f
}

// NewLongField returns a field of several lines.
func NewLongField(host Host) *Field {
	f := &Field{keys: host.Keys()}
	f.MultiLine, f.Wrapping = true, fyne.TextWrapOff
	f.ExtendBaseWidget(f)
	return f
}

// Inner is the toolkit's entry, for tests.
func (f *Field) Inner() *widget.Entry { return &f.Entry }

// Bears reports whether these words stand in the field or in its place, for tests of the real window.
func (f *Field) Bears(words string) bool { return f.Text == words || f.PlaceHolder == words }

// MouseDown implements desktop.Mouseable.
func (f *Field) MouseDown(event *desktop.MouseEvent) {
	f.pointed = true
	f.Entry.MouseDown(event)
	f.pointed = false
}

// FocusGained implements fyne.Focusable. A field that is reached by key has its text selected, so that typing replaces it.
func (f *Field) FocusGained() {
	f.Entry.FocusGained()
	if !f.pointed && !f.MultiLine {
		f.Entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
}

// TypedKey implements fyne.Focusable.
func (f *Field) TypedKey(event *fyne.KeyEvent) {
	if f.keys.typed(event.Name) {
		return
	}
	f.Entry.TypedKey(event)
}

// SearchField is a field above a list: Up, Down and the page keys go along the list while one types.
type SearchField struct {
	Field
	move func(by int)
}

// NewSearchField returns a field above a list; move goes along the list by lines.
func NewSearchField(host Host, move func(by int)) *SearchField {
	f := &SearchField{Field: Field{keys: host.Keys()}, move: move}
	f.ExtendBaseWidget(f)
	return f
}

// TypedKey implements fyne.Focusable.
func (f *SearchField) TypedKey(event *fyne.KeyEvent) {
	const page = 8
	by, known := map[fyne.KeyName]int{fyne.KeyDown: 1, fyne.KeyUp: -1, fyne.KeyPageDown: page, fyne.KeyPageUp: -page}[event.Name]
	if known {
		f.move(by)
		return
	}
	f.Field.TypedKey(event)
}
