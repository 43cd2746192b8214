package ui

import (
	"fyne.io/fyne/v2"

	"stageloom/model/house"
	"stageloom/ui/files"
	"stageloom/ui/stock"
)

// newFiles hands the dialogs of files what they ask of the window.
func (w *window) newFiles() *files.Dialogs {
	return &files.Dialogs{
		Host: w, Settings: w.settings, Notice: w.notice,
		Library: func() house.Library { return w.library },
		Opened:  func() { w.window.SetMainMenu(w.menu()) },
	}
}

// refused says why an edit was refused.
func (w *window) refused(err error) { w.files.Refused(err) }

// warnAlso warns without taking the place of what was just said.
func (w *window) warnAlso(words string) { w.files.WarnAlso(words) }

// close asks for unsaved work, keeps the window's shape and lets the plan go.
func (w *window) close() {
	w.keepTyped()
	w.files.KeepFirst(func() {
		w.settings.SetWindow(w.window.Canvas().Size())
		w.settings.SetSplits(w.across.Offset, w.down.Offset)
		w.settings.SetEquipment(w.left.Offset)
		w.drawer.KeepShape()
		w.settings.SetStock(w.column.Offset)
		w.desk.Close()
		w.manual.Close()
		w.window.Close()
	})
}

// dropped opens a plan file dropped on the window, or begins to import a list.
func (w *window) dropped(_ fyne.Position, uris []fyne.URI) {
	if len(uris) == 0 {
		return
	}
	if stock.ListFile(uris[0]) {
		w.stockDialogs.ImportStock(w.stockDialogs.OfPlan(), uris[0].Path())
		return
	}
	w.files.KeepFirst(func() { w.files.Open(uris[0].Path()) })
}
