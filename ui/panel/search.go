package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// searchEntry is a search field whose up, down and Escape belong to the list below it.
type searchEntry struct {
	widget.Entry
	list     *widget.List
	head     func(int) bool
	selected *int
	leave    *func()
}

// newSearch returns a field that tells of each change, and of Enter.
func newSearch(hint string, changed, entered func()) *searchEntry {
	s := &searchEntry{}
	s.ExtendBaseWidget(s)
	s.SetPlaceHolder(hint)
	s.OnChanged = func(string) { changed() }
	s.OnSubmitted = func(string) { entered() }
	return s
}

// steps names the list that the field goes through: which of its rows are heads, which one is selected, and how to leave.
func (s *searchEntry) steps(list *widget.List, head func(int) bool, selected *int, leave *func()) {
	s.list, s.head, s.selected, s.leave = list, head, selected, leave
}

// focus puts the cursor into the field; the next search begins anew.
func (s *searchEntry) focus(c fyne.Canvas) {
	c.Focus(s)
	s.TypedShortcut(&fyne.ShortcutSelectAll{})
}

// TypedKey implements fyne.Focusable.
func (s *searchEntry) TypedKey(event *fyne.KeyEvent) {
	switch event.Name {
	case fyne.KeyDown:
		s.step(1)
	case fyne.KeyUp:
		s.step(-1)
	case fyne.KeyEscape:
		if *s.leave != nil {
			(*s.leave)()
		}
	default:
		s.Entry.TypedKey(event)
	}
}

// step selects the next row that is no head.
func (s *searchEntry) step(by int) {
	for i := *s.selected + by; i >= 0 && i < s.list.Length(); i += by {
		if !s.head(i) {
			s.list.Select(i)
			s.list.ScrollTo(i)
			return
		}
	}
}
