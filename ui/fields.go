package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// field is an entry of a dialog that Escape closes; the toolkit's own keeps Escape to itself.
type field struct {
	widget.Entry
	window  *window
	pointed bool // the pointer gives the focus, and says where the cursor goes
}

// Bears implements [answers.Worded].
func (f *field) Bears(words string) bool { return f.Text == words || f.PlaceHolder == words }

func (w *window) newField() *field {
	f := &field{window: w}
	f.ExtendBaseWidget(f)
	return f
}

// MouseDown implements desktop.Mouseable.
func (f *field) MouseDown(event *desktop.MouseEvent) {
	f.pointed = true
	f.Entry.MouseDown(event)
	f.pointed = false
}

// FocusGained implements fyne.Focusable. A field that is reached by key has its text selected, so that typing replaces it.
func (f *field) FocusGained() {
	f.Entry.FocusGained()
	if !f.pointed && !f.MultiLine {
		f.Entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
}

// newLongField is a field of several lines.
func (w *window) newLongField() *field {
	f := &field{window: w}
	f.MultiLine, f.Wrapping = true, fyne.TextWrapOff
	f.ExtendBaseWidget(f)
	return f
}

// Inner is the toolkit's entry, for tests.
func (f *field) Inner() *widget.Entry { return &f.Entry }

// TypedKey implements fyne.Focusable.
func (f *field) TypedKey(event *fyne.KeyEvent) {
	if f.window.dialogKey(event.Name) {
		return
	}
	f.Entry.TypedKey(event)
}

// chooser is a list of a dialog that Escape closes.
type chooser struct {
	widget.Select
	window *window
	// enter does what Enter does here; nil for nothing.
	enter func()
}

// Chooser is the toolkit's list, for tests.
func (c *chooser) Chooser() *widget.Select { return &c.Select }

func (w *window) newChooser(options []string, changed func(string)) *chooser {
	c := &chooser{window: w}
	c.Options, c.OnChanged = options, changed
	c.ExtendBaseWidget(c)
	return c
}

// Inner is the toolkit's list, for tests.
func (c *chooser) Inner() *widget.Select { return &c.Select }

// TypedKey implements fyne.Focusable.
func (c *chooser) TypedKey(event *fyne.KeyEvent) {
	if c.window.dialogKey(event.Name) {
		return
	}
	if (event.Name == fyne.KeyReturn || event.Name == fyne.KeyEnter) && c.enter != nil {
		c.enter()
		return
	}
	c.Select.TypedKey(event)
}

// answer is a button of a question: Enter presses it as the space bar does, Escape is the question's Cancel.
type answer struct {
	widget.Button
	window *window
}

func (w *window) newAnswer(label string, do func()) *answer {
	a := &answer{window: w}
	a.Text, a.OnTapped = label, do
	a.ExtendBaseWidget(a)
	return a
}

// Bears implements [answers.Worded].
func (a *answer) Bears(words string) bool { return a.Text == words }

// Answer is the toolkit's button, for tests.
func (a *answer) Answer() *widget.Button { return &a.Button }

// TypedKey implements fyne.Focusable.
func (a *answer) TypedKey(event *fyne.KeyEvent) {
	if a.window.dialogKey(event.Name) {
		return
	}
	switch event.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		a.Tapped(&fyne.PointEvent{})
	default:
		a.Button.TypedKey(event)
	}
}

// escapable makes Escape close what is shown next, as its Cancel does, and then what it lies on top of, which it returns.
func (w *window) escapable(hide func()) (below func()) {
	below = w.escape
	if len(w.window.Canvas().Overlays().List()) == 0 {
		below = nil // what was shown before is closed
	}
	w.escape = func() {
		hide()
		w.escape = below
	}
	return below
}

// dialogKey does what a key does wherever the focus is in a dialog, and reports whether it does something.
func (w *window) dialogKey(name fyne.KeyName) bool {
	switch name {
	case fyne.KeyEscape:
		w.giveUp()
	case fyne.KeyF1:
		w.functionKey(name)
	default:
		return false
	}
	return true
}

// giveUp closes the dialog that was opened last.
func (w *window) giveUp() {
	if hide := w.escape; hide != nil {
		w.escape = nil
		hide()
	}
}
