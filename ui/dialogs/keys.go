package dialogs

import "fyne.io/fyne/v2"

// Keys is what Escape, F1, Enter and keys of its own do in the dialog that was opened last, whatever of it has the focus.
type Keys struct {
	// Help shows the manual, which F1 does; nil for nothing.
	Help func()

	window fyne.Window
	open   []*opened
}

// opened is a dialog that keys work in, with how many lay below it.
type opened struct {
	below  int
	escape func()
	submit func()
	own    map[fyne.KeyName]func()
}

// NewKeys returns the keys of a window without a dialog.
func NewKeys(window fyne.Window) *Keys { return &Keys{window: window} }

// top is the dialog that was opened last and is shown yet; one that was closed otherwise is forgotten.
func (k *Keys) top() *opened {
	shown := len(k.window.Canvas().Overlays().List())
	for len(k.open) > 0 && k.open[len(k.open)-1].below >= shown {
		k.open = k.open[:len(k.open)-1]
	}
	if len(k.open) == 0 {
		return nil
	}
	return k.open[len(k.open)-1]
}

// Escapable makes Escape close what is shown next, as its Cancel does, and then what it lies on top of; back gives Escape to
// that at once, for a dialog that was closed otherwise.
func (k *Keys) Escapable(hide func()) (back func()) {
	k.top()
	next := &opened{below: len(k.window.Canvas().Overlays().List()), escape: hide}
	k.open = append(k.open, next)
	return func() { k.forget(next) }
}

func (k *Keys) forget(which *opened) {
	for i, open := range k.open {
		if open == which {
			k.open = k.open[:i]
			return
		}
	}
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
		return k.Own(name)
	}
	return true
}

// GiveUp closes the dialog that was opened last.
func (k *Keys) GiveUp() {
	if open := k.top(); open != nil {
		k.forget(open)
		open.escape()
	}
}

// Submits says what Enter does in the dialog that is open, where no field has the focus; nil for nothing. It is said after
// [Keys.Escapable].
func (k *Keys) Submits(do func()) {
	if len(k.open) > 0 {
		k.open[len(k.open)-1].submit = do
	}
}

// awaits reports whether the dialog that is shown next has said what Escape does.
func (k *Keys) awaits() bool {
	return len(k.open) > 0 && k.open[len(k.open)-1].below == len(k.window.Canvas().Overlays().List())
}

// submitsFirst says what Enter does where nothing was said of it.
func (k *Keys) submitsFirst(do func()) {
	if open := k.open[len(k.open)-1]; open.submit == nil {
		open.submit = do
	}
}

// Submit does what Enter does in the dialog that is open, or in what it lies on top of where it says nothing of Enter.
func (k *Keys) Submit() {
	k.top()
	for i := len(k.open) - 1; i >= 0; i-- {
		if do := k.open[i].submit; do != nil {
			do()
			return
		}
	}
}

// Does gives the dialog that is opened keys of its own, which do the same wherever in it the focus is. It is said after
// [Keys.Escapable].
func (k *Keys) Does(own map[fyne.KeyName]func()) {
	if len(k.open) > 0 {
		k.open[len(k.open)-1].own = own
	}
}

// Own does what a key of the dialog's own does, and reports whether there is one.
func (k *Keys) Own(name fyne.KeyName) bool {
	open := k.top()
	if open == nil || open.own[name] == nil {
		return false
	}
	open.own[name]()
	return true
}
