package panel

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stageloom/ui/pointer"
)

// Title is the plan's title beside the overview: cut with an ellipsis where room is short, and told whole where the pointer
// rests on it.
type Title struct {
	widget.Label
	// Tips tells the whole title; it may be nil.
	Tips *pointer.Tips

	whole string
}

// NewTitle returns a blank title.
func NewTitle() *Title {
	t := &Title{}
	t.Alignment, t.Truncation, t.Importance = fyne.TextAlignTrailing, fyne.TextTruncateEllipsis, widget.LowImportance
	t.SizeName = theme.SizeNameCaptionText
	t.ExtendBaseWidget(t)
	return t
}

// Say shows a title, which begins with the plan's name: the name in one line, what is said of it in another.
func (t *Title) Say(name, whole string) {
	t.whole = whole
	if rest, found := strings.CutPrefix(whole, name+" · "); found {
		whole = name + "\n" + rest
	}
	t.SetText(whole)
}

// Whole is the title in one line.
func (t *Title) Whole() string { return t.whole }

// MouseIn implements desktop.Hoverable.
func (t *Title) MouseIn(event *desktop.MouseEvent) {
	t.Tips.Over(t, event.AbsolutePosition, func() string { return t.whole })
}

// MouseMoved implements desktop.Hoverable.
func (t *Title) MouseMoved(event *desktop.MouseEvent) { t.MouseIn(event) }

// MouseOut implements desktop.Hoverable.
func (t *Title) MouseOut() { t.Tips.Out() }
