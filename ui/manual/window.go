package manual

import "fyne.io/fyne/v2"

// Window shows the manual in a window of its own, beside which one goes on working.
type Window struct {
	// App makes the window; Keys are the commands of the menus, as the page of keys lists them.
	App  fyne.App
	Keys func() []Key

	// window is nil while it is closed, reader what it shows.
	window fyne.Window
	reader *Reader
}

// Show shows a page, in the window that is open or a new one.
func (w *Window) Show(page string) {
	if w.window != nil {
		w.reader.Open(page)
		w.window.RequestFocus()
		return
	}
	w.window = w.App.NewWindow("Stageloom manual")
	w.reader = NewReader(w.window.Canvas(), Pages(w.Keys()), page, w.window.Close)
	w.window.SetOnClosed(func() { w.window, w.reader = nil, nil })
	w.window.Canvas().SetOnTypedKey(w.reader.TypedKey)
	w.window.Canvas().SetOnTypedRune(w.reader.TypedRune)
	w.window.SetContent(w.reader.Content())
	w.window.Resize(fyne.NewSize(900, 640))
	w.window.Show()
	w.reader.Focus()
}

// Close closes the window where it is open.
func (w *Window) Close() {
	if w.window != nil {
		w.window.Close()
	}
}
