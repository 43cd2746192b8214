package pointer

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// IconButton is a button of an icon alone, which tells what it does when the pointer rests on it.
type IconButton struct {
	widget.Button
	tips  *Tips
	words string
}

// NewIconButton returns a button; words say what it does.
func NewIconButton(icon fyne.Resource, words string, tips *Tips, tapped func()) *IconButton {
	b := &IconButton{tips: tips, words: words}
	b.Icon, b.OnTapped = icon, tapped
	b.ExtendBaseWidget(b)
	return b
}

// MouseIn implements desktop.Hoverable.
func (b *IconButton) MouseIn(event *desktop.MouseEvent) {
	b.Button.MouseIn(event)
	b.tips.Over(b, event.AbsolutePosition, func() string { return b.words })
}

// MouseMoved implements desktop.Hoverable.
func (b *IconButton) MouseMoved(event *desktop.MouseEvent) { b.Button.MouseMoved(event) }

// MouseOut implements desktop.Hoverable.
func (b *IconButton) MouseOut() {
	b.Button.MouseOut()
	b.tips.Out()
}

// Tapped implements fyne.Tappable.
func (b *IconButton) Tapped(event *fyne.PointEvent) {
	b.tips.Dismiss()
	b.Button.Tapped(event)
}
