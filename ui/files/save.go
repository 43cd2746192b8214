package files

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

// Save saves the plan, asking for a name where there is none.
func (f *Dialogs) Save() {
	f.saveThen(func() {})
}

// saveThen saves, asking for a name where there is none, and goes on when that is done.
func (f *Dialogs) saveThen(then func()) {
	err := f.Desk().Save()
	var readOnly *desk.ReadOnly
	switch {
	case f.copied(err, func() { f.saveThen(then) }):
	case errors.Is(err, desk.ErrNoPath):
		f.saveAsThen(f.planName(), then)
	case errors.As(err, &readOnly):
		f.saveAsThen(f.otherName(), then)
	default:
		f.settled(f.Desk().Path(), err, func(told planfile.Stamp) error { return f.Desk().SaveOver(f.Desk().Path(), told) }, then)
	}
}

// settled says what came of a save to a path, and goes on when it is done. Where something else wrote there, or took the
// file away, the user chooses; over does what is chosen, and what came after the question is asked about anew.
func (f *Dialogs) settled(path string, err error, over func(told planfile.Stamp) error, then func()) {
	var overwrite *planfile.Overwrite
	var gone *planfile.Gone
	again := func(told planfile.Stamp) func() {
		return func() { f.settled(path, over(told), over, then) }
	}
	other := dialogs.Choice{Label: "Save under another name", Important: true, Do: func() { f.saveAsThen(f.otherName(), then) }}
	switch {
	case err == nil:
		f.Settings.Used(f.Desk().Path())
		f.saySaved()
		then()
	case errors.As(err, &overwrite) && overwrite.New:
		dialogs.Ask(f, "Replace the file?", filepath.Base(path)+" lies in this folder already.", []dialogs.Choice{
			{Label: "Replace", Do: again(overwrite.Found)},
			{Label: "Cancel", Important: true},
		})
	case errors.As(err, &overwrite):
		dialogs.Ask(f, "The file changed meanwhile", overwrite.Error(), []dialogs.Choice{
			other, {Label: "Write over it", Do: again(overwrite.Found)}, {Label: "Cancel"},
		})
	case errors.As(err, &gone):
		dialogs.Ask(f, "The file is gone", gone.Error(), []dialogs.Choice{
			other, {Label: "Save it here again", Do: again(planfile.Stamp{})}, {Label: "Cancel"},
		})
	default:
		f.Warn(words.Sentence(err) + " The plan stays in this window.")
	}
}

// saySaved says where the plan lies, once what could not be kept of the file that was there, and what is overdue elsewhere.
func (f *Dialogs) saySaved() {
	lost, warned := f.Desk().Lost(), f.Desk().Warned()
	switch said := strings.Join(append([]string{""}, warned...), " "); {
	case len(lost) > 0:
		f.Warn("Saved, but " + strings.Join(lost, "; ") + "." + said)
	case len(warned) > 0:
		f.Warn("Saved." + said)
	default:
		f.Say("Saved " + f.Desk().Path())
	}
}

// SaveAs asks for a name and saves under it.
func (f *Dialogs) SaveAs() { f.saveAsThen(f.planName(), func() {}) }

// planName is the file name that the plan's own name gives.
func (f *Dialogs) planName() string {
	return dialogs.FileName(f.Desk().Plan().Settings.Name) + planfile.Extension
}

// otherName is a name that no file bears, after that of the plan's file.
func (f *Dialogs) otherName() string {
	stem := strings.TrimSuffix(filepath.Base(f.Desk().Path()), planfile.Extension)
	if f.Desk().Path() == "" {
		stem = dialogs.FileName(f.Desk().Plan().Settings.Name)
	}
	name := dialogs.FreeName(f.Folder(), stem, planfile.Extension)
	if name == filepath.Base(f.Desk().Path()) { // its file is gone, and its name is what is not wanted
		name = dialogs.FreeName(f.Folder(), stem+" 2", planfile.Extension)
	}
	return name
}

// saveAsThen asks for a name and saves under it.
func (f *Dialogs) saveAsThen(name string, then func()) {
	dialogs.AskPath(f, "Save as", name, planfile.Extension, "Save", func(path string) { f.saveTo(path, then) })
}

// saveTo saves to a path that was chosen.
func (f *Dialogs) saveTo(path string, then func()) {
	save := func(with func() error) error {
		named := f.nameAfter(path)
		err := with()
		if err != nil && named && f.Desk().Path() != path {
			f.Desk().Undo() // it is not that file's
		}
		return err
	}
	err := save(func() error { return f.Desk().SaveAs(path, false) })
	if f.copied(err, func() { f.saveTo(path, then) }) {
		return
	}
	f.settled(path, err, func(told planfile.Stamp) error {
		return save(func() error { return f.Desk().SaveOver(path, told) })
	}, then)
}

// nameAfter gives a plan that nobody has named the name of the file that it is saved to first, and reports whether it did.
func (f *Dialogs) nameAfter(path string) bool {
	settings := f.Desk().Plan().Settings
	name := strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
	if settings.Name != NewName || name == "" {
		return false
	}
	settings.Name = name
	return f.Desk().Do("Name the plan "+name, func(e *plan.Edit) error { e.SetSettings(settings); return nil }) == nil
}
