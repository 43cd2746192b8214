package ui

import (
	"errors"
	"path/filepath"
	"strings"

	"stageloom/model/desk"
	"stageloom/model/plan"
	"stageloom/model/planfile"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
)

func (w *window) save() {
	w.saveThen(func() {})
}

// saveThen saves, asking for a name where there is none, and goes on when that is done.
func (w *window) saveThen(then func()) {
	err := w.desk.Save()
	var readOnly *desk.ReadOnly
	switch {
	case errors.Is(err, desk.ErrNoPath):
		w.saveAsThen(w.planName(), then)
	case errors.As(err, &readOnly):
		w.saveAsThen(w.otherName(), then)
	default:
		w.settled(w.desk.Path(), err, func(told planfile.Stamp) error { return w.desk.SaveOver(w.desk.Path(), told) }, then)
	}
}

// settled says what came of a save to a path, and goes on when it is done. Where something else wrote there, or took the
// file away, the user chooses; over does what is chosen, and what came after the question is asked about anew.
func (w *window) settled(path string, err error, over func(told planfile.Stamp) error, then func()) {
	var overwrite *planfile.Overwrite
	var gone *planfile.Gone
	again := func(told planfile.Stamp) func() {
		return func() { w.settled(path, over(told), over, then) }
	}
	other := dialogs.Choice{Label: "Save under another name", Important: true, Do: func() { w.saveAsThen(w.otherName(), then) }}
	switch {
	case err == nil:
		w.settings.Used(w.desk.Path())
		w.saySaved()
		then()
	case errors.As(err, &overwrite) && overwrite.New:
		dialogs.Ask(w, "Replace the file?", filepath.Base(path)+" lies in this folder already.", []dialogs.Choice{
			{Label: "Replace", Do: again(overwrite.Found)},
			{Label: "Cancel", Important: true},
		})
	case errors.As(err, &overwrite):
		dialogs.Ask(w, "The file changed meanwhile", overwrite.Error(), []dialogs.Choice{
			other, {Label: "Write over it", Do: again(overwrite.Found)}, {Label: "Cancel"},
		})
	case errors.As(err, &gone):
		dialogs.Ask(w, "The file is gone", gone.Error(), []dialogs.Choice{
			other, {Label: "Save it here again", Do: again(planfile.Stamp{})}, {Label: "Cancel"},
		})
	default:
		w.notice.Warn(words.Sentence(err) + " The plan stays in this window.")
	}
}

// saySaved says where the plan lies, and once what could not be kept of the file that was there.
func (w *window) saySaved() {
	lost := w.desk.Lost()
	if len(lost) == 0 {
		w.notice.Say("Saved " + w.desk.Path())
		return
	}
	w.notice.Warn("Saved, but " + strings.Join(lost, "; ") + ".")
}

func (w *window) saveAs() { w.saveAsThen(w.planName(), func() {}) }

// planName is the file name that the plan's own name gives.
func (w *window) planName() string {
	return dialogs.FileName(w.desk.Plan().Settings.Name) + planfile.Extension
}

// otherName is a name that no file bears, after that of the plan's file.
func (w *window) otherName() string {
	stem := strings.TrimSuffix(filepath.Base(w.desk.Path()), planfile.Extension)
	if w.desk.Path() == "" {
		stem = dialogs.FileName(w.desk.Plan().Settings.Name)
	}
	name := dialogs.FreeName(w.Folder(), stem, planfile.Extension)
	if name == filepath.Base(w.desk.Path()) { // its file is gone, and its name is what is not wanted
		name = dialogs.FreeName(w.Folder(), stem+" 2", planfile.Extension)
	}
	return name
}

// saveAsThen asks for a name and saves under it.
func (w *window) saveAsThen(name string, then func()) {
	dialogs.AskPath(w, "Save as", name, planfile.Extension, "Save", func(path string) {
		save := func(with func() error) error {
			named := w.nameAfter(path)
			err := with()
			if err != nil && named && w.desk.Path() != path {
				w.desk.Undo() // it is not that file's
			}
			return err
		}
		err := save(func() error { return w.desk.SaveAs(path, false) })
		w.settled(path, err, func(told planfile.Stamp) error {
			return save(func() error { return w.desk.SaveOver(path, told) })
		}, then)
	})
}

// newName is what a plan is called that nobody has named.
const newName = "New plan"

// nameAfter gives a plan that nobody has named the name of the file that it is saved to first, and reports whether it did.
func (w *window) nameAfter(path string) bool {
	settings := w.desk.Plan().Settings
	name := strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
	if settings.Name != newName || name == "" {
		return false
	}
	settings.Name = name
	return w.desk.Do("Name the plan "+name, func(e *plan.Edit) error { e.SetSettings(settings); return nil }) == nil
}
