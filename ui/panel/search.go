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
	key      *func(fyne.KeyName)
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

// steps names the list that the field goes through: which of its rows are heads, which one is selected, how to leave,
// and what takes the function keys.
func (s *searchEntry) steps(list *widget.List, head func(int) bool, selected *int, leave *func(), key *func(fyne.KeyName)) {
	s.list, s.head, s.selected, s.leave, s.key = list, head, selected, leave, key
}

// focus puts the cursor into the field; the next search begins anew.
func (s *searchEntry) focus(c fyne.Canvas) {
	c.Focus(s)
	s.TypedShortcut(&fyne.ShortcutSelectAll{})
}

// TypedKey implements fyne.Focusable.
func (s *searchEntry) TypedKey(event *fyne.KeyEvent) {
	switch {
	case event.Name == fyne.KeyDown:
		s.step(1)
	case event.Name == fyne.KeyUp:
		s.step(-1)
	case event.Name == fyne.KeyEscape:
		if *s.leave != nil {
			(*s.leave)()
		}
	case functionKeys[event.Name] && *s.key != nil:
		(*s.key)(event.Name)
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
