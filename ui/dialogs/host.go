package dialogs

import (
	"fyne.io/fyne/v2"

	"stageloom/model/desk"
	"stageloom/model/words"
)

// Host is what a dialog asks of the window that it lies over.
type Host interface {
	// Desk holds the plan that is open.
	Desk() *desk.Desk
	// Units are those that lengths and temperatures are shown in.
	Units() words.Units
	// Window is where dialogs are shown.
	Window() fyne.Window
	// Keys are what Escape, F1 and Enter do in the dialog on top.
	Keys() *Keys
	// Say tells something in the notice of the window, Warn what went wrong.
	Say(words string)
	Warn(words string)
	// Folder is where files are looked for and written first.
	Folder() string
}

// Focus gives the keys of the host's window to one of its fields.
func Focus(host Host, field fyne.Focusable) { host.Window().Canvas().Focus(field) }
