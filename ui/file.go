package ui

import (
	"errors"
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/planfile"
)

// sentence makes an error a sentence for the notice.
func sentence(err error) string {
	text := strings.TrimRight(err.Error(), ".")
	if text == "" {
		return "Something went wrong."
	}
	if first, _, _ := strings.Cut(text, " "); strings.Contains(first, ".") {
		return text + "." // it begins with a file's name
	}
	first := []rune(text)
	return strings.ToUpper(string(first[0])) + string(first[1:]) + "."
}

// Open puts a file on the desk; one that cannot be read leaves the plan before and says place and reason.
func (w *window) open(path string) {
	if err := w.desk.Open(path); err != nil {
		if errors.Is(err, os.ErrNotExist) {
			w.settings.Forget(path)
		}
		w.notice.Warn(sentence(err))
		return
	}
	w.settings.Used(w.desk.Path())
	w.notice.Clear()
	if reason := w.desk.ReadOnly(); reason != "" {
		w.notice.Warn(sentence(errors.New(reason)))
	}
	if said := w.desk.Mended(); said != "" {
		w.warnAlso(sentence(errors.New(said)))
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

func (w *window) openDialog() {
	w.keepFirst(func() {
		d := dialog.NewFileOpen(func(reader fyne.URIReadCloser, err error) {
			if err != nil {
				w.notice.Warn(sentence(err))
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
		w.prepare(d)
		d.Show()
	})
}

// prepare makes a file dialog large, starts it where the plan lies and lets Escape do what its Cancel does. The toolkit's
// lists and buttons keep Escape to themselves once Tab has gone to them.
func (w *window) prepare(d *dialog.FileDialog) {
	below := w.escapable(d.Dismiss)
	d.SetOnClosed(func() { w.escape = below })
	size := w.window.Canvas().Size()
	d.Resize(fyne.NewSize(size.Width*0.85, size.Height*0.85))
	d.SetView(dialog.ListView)
	if at, err := storage.ListerForURI(storage.NewFileURI(w.folder())); err == nil {
		d.SetLocation(at)
	}
}

// folder is where the plan lies, or the file used last.
func (w *window) folder() string {
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

// keepFirst asks what becomes of unsaved work before something takes the plan off the desk.
func (w *window) keepFirst(then func()) {
	if !w.desk.Unsaved() {
		then()
		return
	}
	w.ask("Not saved yet", "The plan \""+w.desk.Plan().Settings.Name+"\" has changes that no file holds.", []choice{
		{label: "Save", important: true, do: func() { w.saveThen(then) }},
		{label: "Don't save", do: then},
		{label: "Cancel"},
	})
}

// choice is one answer of a question.
type choice struct {
	label     string
	important bool
	do        func()
}

// ask shows a question with answers; Escape is the last one.
func (w *window) ask(title, text string, choices []choice) {
	label := widget.NewLabel(text)
	label.Wrapping = fyne.TextWrapWord
	buttons := container.NewHBox()
	d := dialog.NewCustomWithoutButtons(title, container.NewPadded(label), w.window)
	for _, c := range choices {
		button := widget.NewButton(c.label, func() {
			d.Hide()
			if c.do != nil {
				c.do()
			}
		})
		if c.important {
			button.Importance = widget.HighImportance
		}
		buttons.Add(button)
	}
	d.SetButtons(buttons.Objects)
	d.Resize(fyne.NewSize(460, 170))
	last := choices[len(choices)-1]
	w.escapable(func() {
		d.Hide()
		if last.do != nil && last.label != discard {
			last.do()
		}
	})
	d.Show()
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
	if len(uris) > 0 && listFile(uris[0]) {
		w.importStock(w.planStock(), uris[0].Path())
		return
	}
	if len(uris) > 0 {
		w.keepFirst(func() { w.open(uris[0].Path()) })
	}
}
