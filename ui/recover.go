package ui

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

// offerLeft offers what a program that ended without saving left behind, the latest first. Nothing is overwritten and
// nothing deleted without a yes.
func (w *window) offerLeft(all []*journal.Left) {
	if len(all) == 0 {
		return
	}
	left := all[0]
	dialogs.Ask(w, "Work that was not saved", leftWords(left), []dialogs.Choice{
		{Label: "Recover", Important: true, Do: func() {
			if err := w.desk.Recover(left); err != nil {
				w.notice.Warn(words.Sentence(err))
				w.offerLeft(all[1:])
				return
			}
			w.notice.Say("Recovered " + left.Plan().Settings.Name + ". It is not saved yet; Ctrl Z goes back step by step.")
		}},
		{Label: "Keep for later", Do: func() { w.offerLeft(all[1:]) }},
		{Label: "Discard", Meant: true, Do: func() { w.discardLeft(all) }},
	})
}

// discardLeft asks again before the only copy of somebody's work goes.
func (w *window) discardLeft(all []*journal.Left) {
	dialogs.Ask(w, "Discard for good?", "There is no other copy of these edits.", []dialogs.Choice{
		{Label: "Keep for later", Important: true, Do: func() { w.offerLeft(all[1:]) }},
		{Label: "Discard", Meant: true, Do: func() {
			if err := all[0].Remove(); err != nil {
				w.notice.Warn(words.Sentence(err))
			}
			w.offerLeft(all[1:])
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

// tellUnread tells of journals that cannot be read; the damaged ones are kept under another name and not told of again.
func (w *window) tellUnread(all []*journal.Unread) {
	for _, unread := range all {
		_ = unread.SetAside() // told again at the next start where it cannot be
		w.warnAlso(words.Sentence(unread))
	}
}

// warnAlso warns without taking the place of what was just said.
func (w *window) warnAlso(text string) {
	if said := w.notice.Text(); said != "" && !strings.Contains(said, text) {
		text = said + " " + text
	}
	w.notice.Warn(text)
}

// checkDisk tells when something else changed the plan's file, and asks for a plan that another window held; a save asks
// before it writes over anything.
func (w *window) checkDisk() {
	name := filepath.Base(w.desk.Path())
	switch _, err := os.Lstat(w.desk.Path()); {
	case w.retake() || !w.desk.ChangedOnDisk():
	case errors.Is(err, fs.ErrNotExist):
		w.notice.Warn(name + " lies in its folder no more: something else has deleted it, moved it or given it another name. " +
			"Saving asks before it makes it again.")
	default:
		w.notice.Warn(name + " was changed on disk by something else. Saving asks before it writes over that; " +
			"open it again to see the other version.")
	}
}

// retake takes a plan for editing that another window held and has given up, and reports whether it did.
func (w *window) retake() bool {
	taken, err := w.desk.Retake()
	if err != nil {
		w.notice.Warn(words.Sentence(err))
	}
	if taken {
		w.notice.Say("The other window has given " + filepath.Base(w.desk.Path()) + " up: it can be edited here now, as it was saved last.")
	}
	return taken
}

// offerTakeOver asks whether a plan that another computer has not given back shall be edited here all the same.
func (w *window) offerTakeOver() {
	held := w.desk.HeldBy()
	if held == nil || !held.Stale {
		return
	}
	dialogs.Ask(w, "In use on another computer?", held.Error(), []dialogs.Choice{
		{Label: "Take it over", Do: func() {
			if taken, err := w.desk.TakeOver(); err != nil || !taken {
				w.notice.Warn(words.Sentence(&desk.ReadOnly{Reason: w.desk.ReadOnly()}))
				return
			}
			w.notice.Say(filepath.Base(w.desk.Path()) + " can be edited here now.")
		}},
		{Label: "Stay read-only", Important: true},
	})
}

// refused says why an edit was refused; one that only another window stood in the way of can be made again.
func (w *window) refused(err error) {
	var readOnly *desk.ReadOnly
	if errors.Is(err, desk.ErrAsked) || errors.As(err, &readOnly) && w.retake() { // the question tells
		return
	}
	w.notice.Warn(words.Sentence(err))
}

// tellTrouble tells once that the journal cannot be kept, that it is kept again, and that it had to be made again.
func (w *window) tellTrouble() {
	trouble, before := w.desk.JournalTrouble(), w.trouble
	w.trouble = trouble
	switch {
	case trouble != "" && trouble != before:
		w.warnAlso(words.Sentence(fmt.Errorf("%s; save often until that is put right", trouble)))
	case trouble == "" && before != "" && w.desk.Unsaved():
		w.notice.Say("Unsaved work is kept again, with all edits since the last save.")
	}
	if w.desk.JournalRenewed() {
		w.notice.Warn("The journal of unsaved work was deleted by something else. It was made again and holds all edits since the last save.")
	}
}
