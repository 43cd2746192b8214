package dialogs

import (
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Answer is a button of a question: Enter presses it as the space bar does, Escape is the question's Cancel.
// What has the keys has a ring around it.
type Answer struct {
	widget.Button
	keys *Keys
	has  bool // the keys
}

// NewAnswer returns a button that does something.
func NewAnswer(host Host, label string, do func()) *Answer {
	a := &Answer{keys: host.Keys()}
	a.Text, a.OnTapped = label, do
	a.ExtendBaseWidget(a)
	return a
}

// Answer is the toolkit's button, for tests.
func (a *Answer) Answer() *widget.Button { return &a.Button }

// FocusGained implements fyne.Focusable.
func (a *Answer) FocusGained() {
	a.has = true
	a.Button.FocusGained()
}

// FocusLost implements fyne.Focusable.
func (a *Answer) FocusLost() {
	a.has = false
	a.Button.FocusLost()
}

// CreateRenderer implements fyne.Widget.
func (a *Answer) CreateRenderer() fyne.WidgetRenderer {
	r := &answerRenderer{WidgetRenderer: a.Button.CreateRenderer(), answer: a, ring: canvas.NewRectangle(color.Transparent)}
	r.ring.StrokeWidth = ringWidth
	r.showRing()
	return r
}

// Width of the ring around the button that has the keys, and how far it lies outside.
const (
	ringWidth = 2
	ringOff   = 3
)

// answerRenderer draws a ring around a button.
type answerRenderer struct {
	fyne.WidgetRenderer
	answer *Answer
	ring   *canvas.Rectangle
}

func (r *answerRenderer) showRing() {
	r.ring.StrokeColor = r.answer.Theme().Color(theme.ColorNamePrimary, theme.VariantLight)
	r.ring.CornerRadius = r.answer.Theme().Size(theme.SizeNameInputRadius) + ringOff
	r.ring.Hidden = !r.answer.has
}

// Layout implements fyne.WidgetRenderer.
func (r *answerRenderer) Layout(size fyne.Size) {
	r.WidgetRenderer.Layout(size)
	r.ring.Move(fyne.NewPos(-ringOff, -ringOff))
	r.ring.Resize(size.AddWidthHeight(2*ringOff, 2*ringOff))
}

// Refresh implements fyne.WidgetRenderer.
func (r *answerRenderer) Refresh() {
	r.WidgetRenderer.Refresh()
	r.showRing()
	r.ring.Refresh()
}

// Objects implements fyne.WidgetRenderer.
func (r *answerRenderer) Objects() []fyne.CanvasObject {
	return append(slices.Clone(r.WidgetRenderer.Objects()), r.ring)
}

// Bears reports whether the button says these words, for tests of the real window.
func (a *Answer) Bears(words string) bool { return a.Text == words }

// TypedKey implements fyne.Focusable.
func (a *Answer) TypedKey(event *fyne.KeyEvent) {
	if a.keys.typed(event.Name) {
		return
	}
	switch event.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		a.Tapped(&fyne.PointEvent{})
	default:
		a.Button.TypedKey(event)
	}
}

// Choice is one answer of a question.
type Choice struct {
	Label     string
	Important bool
	// Meant is an answer that Escape never gives: what it does cannot be taken back.
	Meant bool
	// Do does it; nil for nothing.
	Do func()
}

// Ask shows a question with answers; Escape is the last one.
func Ask(host Host, title, words string, choices []Choice) {
	label := widget.NewLabel(words)
	label.Wrapping = fyne.TextWrapWord
	var buttons []fyne.CanvasObject
	d := New(host, title, label)
	for _, c := range choices {
		button := NewAnswer(host, c.Label, func() {
			d.Hide()
			if c.Do != nil {
				c.Do()
			}
		})
		if c.Important {
			button.Importance = widget.HighImportance
		}
		buttons = append(buttons, button)
	}
	d.SetButtons(buttons)
	d.Fit(QuestionWidth, 0)
	last := choices[len(choices)-1]
	host.Keys().Escapable(func() {
		d.Hide()
		if last.Do != nil && !last.Meant {
			last.Do()
		}
	})
	d.Show()
}
