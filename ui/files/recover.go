package files

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"stageloom/model/desk"
	"stageloom/model/journal"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
)

// OfferLeft offers what a program that ended without saving left behind, the latest first. Nothing is overwritten and
// nothing deleted without a yes.
func (f *Dialogs) OfferLeft(all []*journal.Left) {
	if len(all) == 0 {
		return
	}
	left := all[0]
	dialogs.Ask(f, "Work that was not saved", leftWords(left), []dialogs.Choice{
		{Label: "Recover", Important: true, Do: func() {
			if err := f.Desk().Recover(left); err != nil {
				f.Warn(words.Sentence(err))
				f.OfferLeft(all[1:])
				return
			}
			_ = f.Desk().Note() // what the house cannot say now, the save tells
			f.Say("Recovered " + left.Plan().Settings.Name + ". It is not saved yet; Ctrl Z goes back step by step.")
		}},
		{Label: "Keep for later", Do: func() { f.OfferLeft(all[1:]) }},
		{Label: "Discard", Meant: true, Do: func() { f.discardLeft(all) }},
	})
}

// discardLeft asks again before the only copy of somebody's work goes.
func (f *Dialogs) discardLeft(all []*journal.Left) {
	dialogs.Ask(f, "Discard for good?", "There is no other copy of these edits.", []dialogs.Choice{
		{Label: "Keep for later", Important: true, Do: func() { f.OfferLeft(all[1:]) }},
		{Label: "Discard", Meant: true, Do: func() {
			if err := all[0].Remove(); err != nil {
				f.Warn(words.Sentence(err))
			}
			f.OfferLeft(all[1:])
		}},
	})
}

// shownSteps is how many names of the last edits the offer shows.
const shownSteps = 4

// leftWords say what was left behind: the plan, its file, when, how much, the last edits.
func leftWords(left *journal.Left) string {
	where := "It was never saved to a file."
	if left.Path != "" {
		where = "Its file is " + filepath.Base(left.Path) + " in " + filepath.Dir(left.Path) + "."
		if changed, err := left.Stamp.Changed(left.Path); err == nil && changed {
			where += " Something else has changed that file since; saving will ask first."
		}
	}
	edits := "one edit"
	if n := left.Edits(); n != 1 {
		edits = fmt.Sprintf("%d edits", n)
	}
	var names []string
	for i := max(0, len(left.Steps)-shownSteps); i < len(left.Steps); i++ {
		names = append(names, left.Steps[i].Name)
	}
	if len(names) == 0 {
		names = []string{"they are one step now"}
	}
	text := fmt.Sprintf("%q holds %s, the last at %s: %s. %s", left.Plan().Settings.Name, edits,
		left.Last.Format("2006-01-02 15:04"), strings.Join(names, ", "), where)
	if left.Fault != nil {
		text += " What came after could not be read: " + left.Fault.Error() + "."
	}
	return text
}

// TellUnread tells of journals that cannot be read; the damaged ones are kept under another name and not told of again.
func (f *Dialogs) TellUnread(all []*journal.Unread) {
	for _, unread := range all {
		_ = unread.SetAside() // told again at the next start where it cannot be
		f.WarnAlso(words.Sentence(unread))
	}
}

// WarnAlso warns without taking the place of what was just said.
func (f *Dialogs) WarnAlso(text string) {
	if said := f.Notice.Text(); said != "" && !strings.Contains(said, text) {
		text = said + " " + text
	}
	f.Warn(text)
}

// CheckDisk tells when something else changed the plan's file, and asks for a plan that another window held; a save asks
// before it writes over anything.
func (f *Dialogs) CheckDisk() {
	_ = f.Desk().Note() // another window may have changed the house's stock
	name := filepath.Base(f.Desk().Path())
	switch _, err := os.Lstat(f.Desk().Path()); {
	case f.retake() || !f.Desk().ChangedOnDisk():
	case errors.Is(err, fs.ErrNotExist):
		f.Warn(name + " lies in its folder no more: something else has deleted it, moved it or given it another name. " +
			"Saving asks before it makes it again.")
	default:
		f.Warn(name + " was changed on disk by something else. Saving asks before it writes over that; " +
			"open it again to see the other version.")
	}
}

// retake takes a plan for editing that another window held and has given up, and reports whether it did.
func (f *Dialogs) retake() bool {
	taken, err := f.Desk().Retake()
	if err != nil {
		f.Warn(words.Sentence(err))
	}
	if taken {
		f.Say("The other window has given " + filepath.Base(f.Desk().Path()) + " up: it can be edited here now, as it was saved last.")
	}
	return taken
}

// offerTakeOver asks whether a plan that another computer has not given back shall be edited here all the same.
func (f *Dialogs) offerTakeOver() {
	held := f.Desk().HeldBy()
	if held == nil || !held.Stale {
		return
	}
	dialogs.Ask(f, "In use on another computer?", held.Error(), []dialogs.Choice{
		{Label: "Take it over", Do: func() {
			if taken, err := f.Desk().TakeOver(); err != nil || !taken {
				f.Warn(words.Sentence(&desk.ReadOnly{Reason: f.Desk().ReadOnly()}))
				return
			}
			f.Say(filepath.Base(f.Desk().Path()) + " can be edited here now.")
		}},
		{Label: "Stay read-only", Important: true},
	})
}

// Refused says why an edit was refused; one that only another window stood in the way of can be made again.
func (f *Dialogs) Refused(err error) {
	var readOnly *desk.ReadOnly
	if errors.Is(err, desk.ErrAsked) || errors.As(err, &readOnly) && f.retake() { // the question tells
		return
	}
	f.Warn(words.Sentence(err))
}

// TellTrouble tells once that the journal cannot be kept, that it is kept again, and that it had to be made again.
func (f *Dialogs) TellTrouble() {
	trouble, before := f.Desk().JournalTrouble(), f.trouble
	f.trouble = trouble
	switch {
	case trouble != "" && trouble != before:
		f.WarnAlso(words.Sentence(fmt.Errorf("%s; save often until that is put right", trouble)))
	case trouble == "" && before != "" && f.Desk().Unsaved():
		f.Say("Unsaved work is kept again, with all edits since the last save.")
	}
	if f.Desk().JournalRenewed() {
		f.Warn("The journal of unsaved work was deleted by something else. It was made again and holds all edits since the last save.")
	}
}
