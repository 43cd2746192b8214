package dialogs

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"
)

// Answer is a button of a question: Enter presses it as the space bar does, Escape is the question's Cancel.
type Answer struct {
	widget.Button
	keys *Keys
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
	buttons := container.NewHBox()
	d := dialog.NewCustomWithoutButtons(title, container.NewPadded(label), host.Window())
	for _, c := range choices {
		button := widget.NewButton(c.Label, func() {
			d.Hide()
			if c.Do != nil {
				c.Do()
			}
		})
		if c.Important {
			button.Importance = widget.HighImportance
		}
		buttons.Add(button)
	}
	d.SetButtons(buttons.Objects)
	d.Resize(fyne.NewSize(460, 170))
	last := choices[len(choices)-1]
	host.Keys().Escapable(func() {
		d.Hide()
		if last.Do != nil && !last.Meant {
			last.Do()
		}
	})
	d.Show()
}
