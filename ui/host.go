package ui

import (
	"os"
	"path/filepath"

	"fyne.io/fyne/v2"

	"stageloom/model/desk"
	"stageloom/model/house"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
	"stageloom/ui/pointer"
	"stageloom/ui/printing"
)

// The window is what dialogs lie over.
var _ dialogs.Host = (*window)(nil)

// Desk implements dialogs.Host.
func (w *window) Desk() *desk.Desk { return w.desk }

// Units implements dialogs.Host.
func (w *window) Units() words.Units { return w.units() }

// Window implements dialogs.Host.
func (w *window) Window() fyne.Window { return w.window }

// Keys implements dialogs.Host.
func (w *window) Keys() *dialogs.Keys { return w.keys }

// Say implements dialogs.Host.
func (w *window) Say(words string) { w.notice.Say(words) }

// Warn implements dialogs.Host.
func (w *window) Warn(words string) { w.notice.Warn(words) }

// Folder implements dialogs.Host: it is where the plan lies, or the file used last.
func (w *window) Folder() string {
	if w.desk.Path() != "" {
		return filepath.Dir(w.desk.Path())
	}
	if recent := w.settings.Recent(); len(recent) > 0 {
		return filepath.Dir(recent[0])
	}
	if home, err := os.UserHomeDir(); err == nil {
		return home
	}
	return "."
}

// newPrinting hands the dialogs that hand the plan out what they ask of the window.
func (w *window) newPrinting() *printing.Dialogs {
	return &printing.Dialogs{
		Host:    w,
		Tips:    func() *pointer.Tips { return pointer.NewTips(pointer.AfterOf(w.app)) },
		Library: func() house.Library { return w.library },
		OpenURL: w.app.OpenURL,
		Do:      w.do,
	}
}
