package dialogs

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"stageloom/ui/ahead"
)

// Chooser is a list of a dialog that Escape closes.
type Chooser struct {
	widget.Select
	keys  *Keys
	ahead ahead.Ahead
	// Enter does what Enter does here; nil for what it does in the dialog.
	Enter func()
}

// NewChooser returns a list of options; changed is told the one that is chosen, and may be nil.
func NewChooser(host Host, options []string, changed func(string)) *Chooser {
	c := &Chooser{keys: host.Keys()}
	c.Options, c.OnChanged = options, changed
	c.ExtendBaseWidget(c)
	return c
}

// Chooser is the toolkit's list, for tests.
func (c *Chooser) Chooser() *widget.Select { return &c.Select }

// Inner is the toolkit's list, for tests.
func (c *Chooser) Inner() *widget.Select { return &c.Select }

// TypedKey implements fyne.Focusable.
func (c *Chooser) TypedKey(event *fyne.KeyEvent) {
	if event.Name == fyne.KeySpace && c.ahead.Typing() {
		return // it is typed
	}
	switch event.Name {
	case fyne.KeyUp, fyne.KeyDown, fyne.KeyReturn, fyne.KeyEnter, fyne.KeyBackspace: // a letter is told as a key too
		c.ahead.End()
	}
	switch {
	case c.keys.typed(event.Name):
	case event.Name == fyne.KeyReturn || event.Name == fyne.KeyEnter:
		if c.Enter != nil {
			c.Enter()
		} else {
			c.keys.Submit()
		}
	default:
		c.Select.TypedKey(event)
	}
}

// TypedRune implements fyne.Focusable: letters find an option.
func (c *Chooser) TypedRune(letter rune) {
	if letter == ' ' && !c.ahead.Typing() || c.Disabled() {
		return
	}
	if at := c.ahead.Type(letter, c.Options, c.SelectedIndex()); at >= 0 && at != c.SelectedIndex() {
		c.SetSelectedIndex(at)
	}
}

// Check is a box to tick in a dialog that Escape closes.
type Check struct {
	widget.Check
	keys *Keys
}

// NewCheck returns a box that is ticked or not; changed is told when that changes.
func NewCheck(host Host, words string, ticked bool, changed func(bool)) *Check {
	c := &Check{keys: host.Keys()}
	c.Text, c.Checked, c.OnChanged = words, ticked, changed
	c.ExtendBaseWidget(c)
	return c
}

// Inner is the toolkit's box, for tests.
func (c *Check) Inner() *widget.Check { return &c.Check }

// TypedKey implements fyne.Focusable.
func (c *Check) TypedKey(event *fyne.KeyEvent) {
	switch {
	case c.keys.typed(event.Name):
	case event.Name == fyne.KeyReturn || event.Name == fyne.KeyEnter:
		c.keys.Submit()
	default:
		c.Check.TypedKey(event)
	}
}
