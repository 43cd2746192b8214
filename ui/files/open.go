package files

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
)

// Open puts a file on the desk; one that cannot be read leaves the plan before and says place and reason.
func (f *Dialogs) Open(path string) {
	if err := f.Desk().Open(path); err != nil {
		if errors.Is(err, os.ErrNotExist) {
			f.Settings.Forget(path)
		}
		f.Warn(words.Sentence(err))
		return
	}
	f.Settings.Used(f.Desk().Path())
	f.Notice.Clear()
	if reason := f.Desk().ReadOnly(); reason != "" {
		f.Warn(words.Sentence(errors.New(reason)))
	}
	if said := f.Desk().Mended(); said != "" {
		f.WarnAlso(words.Sentence(errors.New(said)))
	}
	f.Opened()
	f.offerTakeOver()
	f.noteHouse()
}

// New puts a fresh plan on the desk.
func (f *Dialogs) New() {
	f.KeepFirst(func() {
		f.Notice.Clear()
		f.Desk().NewPlan(FreshPlan(f.Settings))
	})
}

// OpenDemo puts the demo on the desk, as a plan without a file.
func (f *Dialogs) OpenDemo() {
	f.KeepFirst(func() {
		f.Notice.Clear()
		f.Desk().NewPlan(demo.Weekender())
	})
}

// AskOpen asks for the file to open.
func (f *Dialogs) AskOpen() {
	f.KeepFirst(func() {
		d := dialog.NewFileOpen(func(reader fyne.URIReadCloser, err error) {
			if err != nil {
				f.Warn(words.Sentence(err))
				return
			}
			if reader == nil {
				return
			}
			path := reader.URI().Path()
			_ = reader.Close() // the desk opens it by itself
			f.Open(path)
		}, f.Window())
		d.SetFilter(storage.NewExtensionFileFilter([]string{planfile.Extension}))
		dialogs.Prepare(f, d)
		d.Show()
	})
}

// KeepFirst asks what becomes of unsaved work before something takes the plan off the desk.
func (f *Dialogs) KeepFirst(then func()) {
	if !f.Desk().Unsaved() {
		then()
		return
	}
	dialogs.Ask(f, "Not saved yet", "The plan \""+f.Desk().Plan().Settings.Name+"\" has changes that no file holds.", []dialogs.Choice{
		{Label: "Save", Important: true, Do: func() { f.saveThen(then) }},
		{Label: "Don't save", Do: then},
		{Label: "Cancel"},
	})
}
