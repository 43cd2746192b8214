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
	// Shortcut is the shortcut of a line, which stands in a column of its own; nil for none.
	Shortcut func(int) string

	keys *Keys
}

// NewPickList lists rows; row gives the words of one, its note, and whether it can be used.
func NewPickList(host Host, length func() int, row func(int) (words, note string, usable bool), picked func(int)) *PickList {
	l := &PickList{keys: host.Keys()}
	l.Length = length
	l.CreateItem = func() fyne.CanvasObject { return newPickRow(l) }
	l.UpdateItem = func(i int, object fyne.CanvasObject) {
		line := object.(*fyne.Container)
		name := line.Objects[0].(*widget.Label)
		words, note, usable := row(i)
		name.Importance = widget.MediumImportance
		if !usable {
			name.Importance = widget.LowImportance
		}
		name.SetText(words)
		keys := ""
		if l.Shortcut != nil {
			keys = l.Shortcut(i)
		}
		for n, said := range []string{note, keys} {
			text := line.Objects[n+1].(*canvas.Text)
			text.Text, text.Color = said, theme.Color(theme.ColorNamePlaceHolder)
			text.Refresh()
		}
		line.Refresh()
	}
	l.OnSelected = func(i int) { picked(i) }
	l.HideSeparators = true
	l.ExtendBaseWidget(l)
	return l
}

func newPickRow(l *PickList) fyne.CanvasObject {
	words := widget.NewLabel("")
	words.Truncation = fyne.TextTruncateEllipsis
	note, keys := canvas.NewText("", theme.Color(theme.ColorNamePlaceHolder)), canvas.NewText("", theme.Color(theme.ColorNamePlaceHolder))
	note.TextSize, keys.TextSize = theme.CaptionTextSize(), theme.CaptionTextSize()
	return container.New(pickRow{list: l}, words, note, keys)
}

// pickRow lays out a line: its words, the note on the right, and the shortcuts in a column of their own.
type pickRow struct{ list *PickList }

// Sizes of a line: from one to the next, the column of shortcuts, and what keeps it clear of the bar that scrolls.
const (
	pickPitch    = 26
	shortcutWide = 104
	clearOfBar   = 12
)

// MinSize implements fyne.Layout.
func (pickRow) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(0, pickPitch-theme.Padding()) // the toolkit keeps lines that far apart
}

// Layout implements fyne.Layout.
func (p pickRow) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	words, note, keys := objects[0], objects[1].MinSize(), objects[2].MinSize()
	end := size.Width - clearOfBar
	if p.list.Shortcut != nil {
		end -= shortcutWide
		objects[2].Move(fyne.NewPos(end, (size.Height-keys.Height)/2))
		objects[2].Resize(keys)
		end -= clearOfBar
	}
	objects[1].Move(fyne.NewPos(end-note.Width, (size.Height-note.Height)/2))
	objects[1].Resize(note)
	high := words.MinSize().Height
	words.Move(fyne.NewPos(0, (size.Height-high)/2))
	words.Resize(fyne.NewSize(max(0, end-note.Width-clearOfBar), high))
}

// Inner is the toolkit's list, for tests.
func (l *PickList) Inner() *widget.List { return &l.List }

// TypedKey implements fyne.Focusable.
func (l *PickList) TypedKey(event *fyne.KeyEvent) {
	if l.keys.typed(event.Name) {
		return
	}
	if event.Name == fyne.KeyReturn || event.Name == fyne.KeyEnter {
		l.keys.Submit()
		return
	}
	l.List.TypedKey(event)
}
