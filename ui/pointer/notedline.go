package pointer

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// NotedLine is a line of a list: a name, and a small note on the right. The name has the room that it needs first; a note that
// does not fit beside it is shortened, and all of it is told elsewhere.
type NotedLine struct {
	Name *widget.Label
	Note *canvas.Text
	// Line holds the two.
	Line *fyne.Container
	// After is what keeps the note clear of what lies to the right of it.
	After string

	whole string
}

// leastNote is the part of a line that a note keeps beside a long name.
const leastNote = 0.12

// NewNotedLine returns an empty line.
func NewNotedLine() *NotedLine {
	l := &NotedLine{Name: widget.NewLabel(""), Note: canvas.NewText("", theme.Color(theme.ColorNamePlaceHolder))}
	l.Name.Truncation = fyne.TextTruncateEllipsis
	l.Note.TextSize = theme.CaptionTextSize()
	l.Line = container.New(l, l.Name, l.Note)
	return l
}

// Set shows a name and a note.
func (l *NotedLine) Set(name, note string) {
	l.whole = note
	l.Name.SetText(name)
	l.Line.Refresh()
}

// Cut reports whether the note is shortened.
func (l *NotedLine) Cut() bool { return l.Note.Text != l.whole+l.After }

// MinSize implements fyne.Layout.
func (l *NotedLine) MinSize([]fyne.CanvasObject) fyne.Size {
	name, note, pad := l.Name.MinSize(), l.Note.MinSize(), theme.Padding()
	return fyne.NewSize(name.Width+3*pad, max(name.Height, note.Height+2*pad))
}

// Layout implements fyne.Layout.
func (l *NotedLine) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	pad := theme.Padding()
	need := fyne.MeasureText(l.Name.Text, theme.TextSize(), l.Name.TextStyle).Width + 2*theme.InnerPadding() + 3*pad
	l.Note.Text = l.shortened(max(size.Width-need, size.Width*leastNote))
	l.Note.Refresh()
	wide := l.wide(l.Note.Text)
	l.Note.Move(fyne.NewPos(size.Width-pad-wide, pad))
	l.Note.Resize(fyne.NewSize(wide, size.Height-2*pad))
	l.Name.Move(fyne.NewPos(0, 0))
	l.Name.Resize(fyne.NewSize(max(0, size.Width-wide-3*pad), size.Height))
}

func (l *NotedLine) wide(words string) float32 {
	return fyne.MeasureText(words, l.Note.TextSize, l.Note.TextStyle).Width
}

// shortened is as much of the note as fits into a width.
func (l *NotedLine) shortened(room float32) string {
	if whole := l.whole + l.After; l.wide(whole) <= room {
		return whole
	}
	signs := []rune(l.whole)
	fits, most := 0, len(signs)
	for fits < most { // the most signs that fit
		at := (fits + most + 1) / 2
		if l.wide(l.ended(signs[:at])) <= room {
			fits = at
		} else {
			most = at - 1
		}
	}
	return l.ended(signs[:fits])
}

func (l *NotedLine) ended(signs []rune) string {
	return strings.TrimRight(string(signs), " ,;:·") + "…" + l.After
}
