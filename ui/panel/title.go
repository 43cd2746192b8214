package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"stageloom/ui/pointer"
)

// Title is the plan's title beside the overview: cut with an ellipsis where room is short, and told whole where the pointer
// rests on it.
type Title struct {
	widget.Label
	// Tips tells the whole title; it may be nil.
	Tips *pointer.Tips
}

// NewTitle returns a blank title.
func NewTitle() *Title {
	t := &Title{}
	t.Alignment, t.Truncation, t.Importance = fyne.TextAlignTrailing, fyne.TextTruncateEllipsis, widget.LowImportance
	t.ExtendBaseWidget(t)
	return t
}

// MouseIn implements desktop.Hoverable.
func (t *Title) MouseIn(event *desktop.MouseEvent) {
	t.Tips.Over(t, event.AbsolutePosition, func() string { return t.Text })
}

// MouseMoved implements desktop.Hoverable.
func (t *Title) MouseMoved(event *desktop.MouseEvent) { t.MouseIn(event) }

// MouseOut implements desktop.Hoverable.
func (t *Title) MouseOut() { t.Tips.Out() }
