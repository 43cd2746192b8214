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

	"stageloom/model/desk"
	"stageloom/model/plan"
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
	w.window.SetMainMenu(w.menu())
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

func (w *window) save() {
	w.saveThen(func() {})
}

// saveThen saves, asking for a name where there is none, and goes on when that is done.
func (w *window) saveThen(then func()) {
	err := w.desk.Save()
	var overwrite *planfile.Overwrite
	var readOnly *desk.ReadOnly
	switch {
	case err == nil:
		w.notice.Say("Saved " + w.desk.Path())
		then()
	case errors.Is(err, desk.ErrNoPath), errors.As(err, &readOnly):
		w.saveAsThen(then)
	case errors.As(err, &overwrite):
		w.askOverwrite(overwrite, then)
	default:
		w.notice.Warn(sentence(err) + " The plan stays in this window.")
	}
}

// askOverwrite lets the user choose between the two versions; neither is lost without a word.
func (w *window) askOverwrite(overwrite *planfile.Overwrite, then func()) {
	w.ask("The file changed meanwhile", overwrite.Error(), []choice{
		{label: "Save under another name", important: true, do: func() { w.saveAsThen(then) }},
		{label: "Write over it", do: func() {
			if err := w.desk.SaveAs(w.desk.Path(), true); err != nil {
				w.notice.Warn(sentence(err))
				return
			}
			w.notice.Say("Saved " + w.desk.Path())
			then()
		}},
		{label: "Cancel"},
	})
}

func (w *window) saveAs() { w.saveAsThen(func() {}) }

// saveAsThen asks for a name and saves under it.
func (w *window) saveAsThen(then func()) {
	name := fileName(w.desk.Plan().Settings.Name) + planfile.Extension
	w.askName("Save as", name, planfile.Extension, "Save", func(path string) {
		w.nameAfter(path)
		if err := w.desk.SaveAs(path, true); err != nil {
			w.notice.Warn(sentence(err) + " The plan stays in this window.")
			return
		}
		w.settings.Used(w.desk.Path())
		w.notice.Say("Saved " + w.desk.Path())
		then()
	})
}

// newName is what a plan is called that nobody has named.
const newName = "New plan"

// nameAfter gives a plan that nobody has named the name of the file that it is saved to first.
func (w *window) nameAfter(path string) {
	settings := w.desk.Plan().Settings
	name := strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
	if settings.Name != newName || name == "" {
		return
	}
	settings.Name = name
	w.do("Name the plan "+name, func(e *plan.Edit) error { e.SetSettings(settings); return nil })
}

// fileName makes a plan's name a file's: signs that some system forbids become hyphens.
func fileName(name string) string {
	clean := strings.Map(func(sign rune) rune {
		if strings.ContainsRune(`/\:*?"<>|`, sign) || sign < ' ' {
			return '-'
		}
		return sign
	}, strings.TrimSpace(name))
	if clean == "" || strings.Trim(clean, ".") == "" {
		return "plan"
	}
	return clean
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
