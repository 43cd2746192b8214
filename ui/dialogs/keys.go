package dialogs

import "fyne.io/fyne/v2"

// Keys is what Escape, F1 and Enter do in the dialog that was opened last, whatever of it has the focus.
type Keys struct {
	// Help shows the manual, which F1 does; nil for nothing.
	Help func()

	window         fyne.Window
	escape, submit func()
}

// NewKeys returns the keys of a window without a dialog.
func NewKeys(window fyne.Window) *Keys { return &Keys{window: window} }

// Escapable makes Escape close what is shown next, as its Cancel does, and then what it lies on top of; back gives Escape to
// that at once, for a dialog that was closed otherwise.
func (k *Keys) Escapable(hide func()) (back func()) {
	below := k.escape
	if len(k.window.Canvas().Overlays().List()) == 0 {
		below, k.submit = nil, nil // what was shown before is closed
	}
	back = func() { k.escape = below }
	k.escape = func() {
		hide()
		back()
	}
	return back
}

// typed does what a key does wherever the focus is in a dialog, and reports whether it does something. The toolkit gives keys
// to what has the focus and to nothing behind it, so that each part asks here first.
func (k *Keys) typed(name fyne.KeyName) bool {
	switch name {
	case fyne.KeyEscape:
		k.GiveUp()
	case fyne.KeyF1:
		if k.Help != nil {
			k.Help()
		}
	default:
		return false
	}
	return true
}

// GiveUp closes the dialog that was opened last.
func (k *Keys) GiveUp() {
	if hide := k.escape; hide != nil {
		k.escape = nil
		hide()
	}
}

// Submits says what Enter does in the dialog that is open, where no field has the focus; nil for nothing. It is said after
// [Keys.Escapable].
func (k *Keys) Submits(do func()) { k.submit = do }

// Submit does what Enter does in the dialog that is open.
func (k *Keys) Submit() {
	if k.submit != nil {
		k.submit()
	}
}
