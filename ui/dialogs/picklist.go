package dialogs

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// PickList is a list of lines with a small note on the right, of which one is under the hand. Escape closes its dialog.
type PickList struct {
	widget.List
	keys *Keys
}

// NewPickList lists rows; row gives the words of one, its note, and whether it can be used.
func NewPickList(host Host, length func() int, row func(int) (words, note string, usable bool), picked func(int)) *PickList {
	l := &PickList{keys: host.Keys()}
	l.Length = length
	l.CreateItem = func() fyne.CanvasObject {
		words := widget.NewLabel("")
		words.Truncation = fyne.TextTruncateEllipsis
		note := canvas.NewText("", theme.Color(theme.ColorNamePlaceHolder))
		note.TextSize = theme.CaptionTextSize()
		return container.NewBorder(nil, nil, nil, container.NewPadded(note), words)
	}
	l.UpdateItem = func(i int, object fyne.CanvasObject) {
		line := object.(*fyne.Container)
		words, note := line.Objects[0].(*widget.Label), line.Objects[1].(*fyne.Container).Objects[0].(*canvas.Text)
		text, small, usable := row(i)
		words.Importance = widget.MediumImportance
		if !usable {
			words.Importance = widget.LowImportance
		}
		words.SetText(text)
		note.Text, note.Color = small+"  ", theme.Color(theme.ColorNamePlaceHolder)
		note.Refresh() // the blanks keep it clear of the bar that scrolls
		line.Refresh()
	}
	l.OnSelected = func(i int) { picked(i) }
	l.HideSeparators = true
	l.ExtendBaseWidget(l)
	return l
}

// Inner is the toolkit's list, for tests.
func (l *PickList) Inner() *widget.List { return &l.List }

// TypedKey implements fyne.Focusable.
func (l *PickList) TypedKey(event *fyne.KeyEvent) {
	if l.keys.typed(event.Name) {
		return
	}
	l.List.TypedKey(event)
}
