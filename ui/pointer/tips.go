package pointer

import (
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
)

// Rest is how long the pointer rests on something until that is told.
const Rest = 600 * time.Millisecond

// After runs something on the goroutine of the user interface once a time has gone by, unless stop is called before.
type After func(wait time.Duration, do func()) (stop func())

// Tips tells what the pointer rests on. Its layer lies on top of a window's content, or of a dialog's, and holds plain
// shapes, which never take the pointer. A nil Tips tells nothing.
type Tips struct {
	// Layer is put on top, in a stack.
	Layer *fyne.Container

	after After
	// about is what the pointer is on, nil for nothing; at is where, in the window.
	about any
	at    fyne.Position
	words func() string
	stop  func()
	// turn tells a wait that was stopped too late from the one of this moment.
	turn  int
	shown string
	box   *canvas.Rectangle
	lines []*canvas.Text
}

// NewTips returns tips that wait with after; nil never tells anything.
func NewTips(after After) *Tips {
	t := &Tips{after: after, stop: func() {}, box: canvas.NewRectangle(nil)}
	t.box.CornerRadius, t.box.StrokeWidth = 4, 1
	t.Layer = container.NewWithoutLayout()
	return t
}

// Over says that the pointer is on something, told apart by about, at a place of the window. Once it has been there for
// a while, words are asked for and shown; blank words show nothing.
func (t *Tips) Over(about any, at fyne.Position, words func() string) {
	if t == nil || about == nil {
		return
	}
	t.at = at
	if t.about == about {
		return
	}
	t.quiet()
	t.about, t.words = about, words
	if t.after == nil {
		return
	}
	turn := t.turn
	t.stop = t.after(Rest, func() {
		if t.turn == turn {
			t.show(t.words())
		}
	})
}

// Out says that the pointer has left what it was on.
func (t *Tips) Out() {
	if t == nil {
		return
	}
	t.quiet()
	t.about = nil
}

// Dismiss takes away what is told, as a press or a key does; it comes again when the pointer goes onto something else.
func (t *Tips) Dismiss() {
	if t != nil {
		t.quiet()
	}
}

// Words are what is shown now, blank for nothing.
func (t *Tips) Words() string {
	if t == nil {
		return ""
	}
	return t.shown
}

// quiet ends waiting and showing.
func (t *Tips) quiet() {
	t.stop()
	t.stop = func() {}
	t.turn++
	if t.shown != "" {
		t.shown, t.Layer.Objects = "", nil
		t.Layer.Refresh()
	}
}

// Room about the words, and the widest that they run, in points.
const (
	padAcross, padDown = 8, 5
	widest             = 330
)

// show draws the words beside the pointer, the first line bold where more follow.
func (t *Tips) show(words string) {
	if words == "" {
		return
	}
	t.shown = words
	t.box.FillColor, t.box.StrokeColor = theme.Color(theme.ColorNameOverlayBackground), theme.Color(theme.ColorNamePlaceHolder)
	t.Layer.Objects = []fyne.CanvasObject{t.box}
	t.lines = nil
	size := fyne.Size{}
	for _, line := range Lines(words, widest, measured) {
		text := canvas.NewText(line, theme.Color(theme.ColorNameForeground))
		text.TextSize = theme.CaptionTextSize() + 1
		text.TextStyle.Bold = len(t.lines) == 0 && strings.Contains(words, "\n")
		least := text.MinSize()
		size.Width, size.Height = max(size.Width, least.Width), size.Height+least.Height
		text.Resize(least)
		t.lines = append(t.lines, text)
		t.Layer.Objects = append(t.Layer.Objects, text)
	}
	size = size.AddWidthHeight(2*padAcross, 2*padDown)
	corner := fyne.CurrentApp().Driver().AbsolutePositionForObject(t.Layer)
	at := Beside(t.at.Subtract(corner), size, t.Layer.Size())
	t.box.Resize(size)
	t.box.Move(at)
	y := at.Y + padDown
	for _, text := range t.lines {
		text.Move(fyne.NewPos(at.X+padAcross, y))
		y += text.Size().Height
	}
	t.Layer.Refresh()
}

func measured(text string) float32 {
	return fyne.MeasureText(text, theme.CaptionTextSize()+1, fyne.TextStyle{Bold: true}).Width
}

// How far in points the words keep from the pointer, whose arrow reaches down and to the right.
const (
	awayAcross, awayBelow, awayAbove = 12, 20, 8
)

// Beside is where a box of a size goes for a pointer in a room: below and to the right, and within the room.
func Beside(at fyne.Position, size, room fyne.Size) fyne.Position {
	x, y := at.X+awayAcross, at.Y+awayBelow
	if x+size.Width > room.Width {
		x = room.Width - size.Width
	}
	if y+size.Height > room.Height {
		y = at.Y - awayAbove - size.Height
	}
	return fyne.NewPos(max(0, x), max(0, y))
}

// Lines breaks words at blanks so that no line is wider than given points; a word that is wider stands alone.
func Lines(words string, width float32, measure func(string) float32) (lines []string) {
	for _, paragraph := range strings.Split(words, "\n") {
		line := ""
		for _, word := range strings.Fields(paragraph) {
			longer := strings.TrimSpace(line + " " + word)
			if line != "" && measure(longer) > width {
				lines, line = append(lines, line), word
				continue
			}
			line = longer
		}
		lines = append(lines, line)
	}
	return lines
}
