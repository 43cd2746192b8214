package ui

import (
	"errors"
	"os"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"

	"stageloom/model/demo"
	"stageloom/model/planfile"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
	"stageloom/ui/stock"
)

// Open puts a file on the desk; one that cannot be read leaves the plan before and says place and reason.
func (w *window) open(path string) {
	if err := w.desk.Open(path); err != nil {
		if errors.Is(err, os.ErrNotExist) {
			w.settings.Forget(path)
		}
		w.notice.Warn(words.Sentence(err))
		return
	}
	w.settings.Used(w.desk.Path())
	w.notice.Clear()
	if reason := w.desk.ReadOnly(); reason != "" {
		w.notice.Warn(words.Sentence(errors.New(reason)))
	}
	if said := w.desk.Mended(); said != "" {
		w.warnAlso(words.Sentence(errors.New(said)))
	}
	w.window.SetMainMenu(w.menu())
	w.offerTakeOver()
}

func (w *window) newPlan() {
	w.keepFirst(func() {
		w.notice.Clear()
		w.desk.NewPlan(w.freshPlan())
	})
}

// openDemo puts the demo on the desk, as a plan without a file.
func (w *window) openDemo() {
	w.keepFirst(func() {
		w.notice.Clear()
		w.desk.NewPlan(demo.Weekender())
	})
}

func (w *window) openDialog() {
	w.keepFirst(func() {
		d := dialog.NewFileOpen(func(reader fyne.URIReadCloser, err error) {
			if err != nil {
				w.notice.Warn(words.Sentence(err))
				return
			}
			if reader == nil {
				return
			}
			path := reader.URI().Path()
			_ = reader.Close() // the desk opens it by itself
			w.open(path)
		}, w.window)
		d.SetFilter(storage.NewExtensionFileFilter([]string{planfile.Extension}))
		dialogs.Prepare(w, d)
		d.Show()
	})
}

// keepFirst asks what becomes of unsaved work before something takes the plan off the desk.
func (w *window) keepFirst(then func()) {
	if !w.desk.Unsaved() {
		then()
		return
	}
	dialogs.Ask(w, "Not saved yet", "The plan \""+w.desk.Plan().Settings.Name+"\" has changes that no file holds.", []dialogs.Choice{
		{Label: "Save", Important: true, Do: func() { w.saveThen(then) }},
		{Label: "Don't save", Do: then},
		{Label: "Cancel"},
	})
}

// close asks for unsaved work, keeps the window's shape and lets the plan go.
func (w *window) close() {
	w.keepTyped()
	w.keepFirst(func() {
		w.settings.SetWindow(w.window.Canvas().Size())
		w.settings.SetSplits(w.across.Offset, w.down.Offset)
		w.settings.SetEquipment(w.left.Offset)
		w.settings.SetDrawer(w.tables.split.Offset)
		w.settings.SetStock(w.column.Offset)
		w.desk.Close()
		if w.manual != nil {
			w.manual.Close()
		}
		w.window.Close()
	})
}

// dropped opens a plan file dropped on the window, or begins to import a list.
func (w *window) dropped(_ fyne.Position, uris []fyne.URI) {
	if len(uris) > 0 && stock.ListFile(uris[0]) {
		w.stockDialogs.ImportStock(w.stockDialogs.OfPlan(), uris[0].Path())
		return
	}
	if len(uris) > 0 {
		w.keepFirst(func() { w.open(uris[0].Path()) })
	}
}
