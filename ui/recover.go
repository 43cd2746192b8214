package ui

import (
	"fmt"
	"path/filepath"
	"strings"

	"stageloom/model/journal"
)

// discard is the answer that Escape never gives.
const discard = "Discard"

// offerLeft offers what a program that ended without saving left behind, the latest first. Nothing is overwritten and
// nothing deleted without a yes.
func (w *window) offerLeft(all []*journal.Left) {
	if len(all) == 0 {
		return
	}
	left := all[0]
	w.ask("Work that was not saved", leftWords(left), []choice{
		{label: "Recover", important: true, do: func() {
			w.desk.Recover(left)
			w.notice.Say("Recovered " + left.Plan().Settings.Name + ". It is not saved yet; Ctrl Z goes back step by step.")
		}},
		{label: "Keep for later", do: func() { w.offerLeft(all[1:]) }},
		{label: discard, do: func() { w.discardLeft(all) }},
	})
}

// discardLeft asks again before the only copy of somebody's work goes.
func (w *window) discardLeft(all []*journal.Left) {
	w.ask("Discard for good?", "There is no other copy of these edits.", []choice{
		{label: "Keep for later", important: true, do: func() { w.offerLeft(all[1:]) }},
		{label: discard, do: func() {
			if err := all[0].Remove(); err != nil {
				w.notice.Warn(sentence(err))
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
	if n := len(left.Steps); n != 1 {
		edits = fmt.Sprintf("%d edits", n)
	}
	var names []string
	for i := max(0, len(left.Steps)-shownSteps); i < len(left.Steps); i++ {
		names = append(names, left.Steps[i].Name)
	}
	text := fmt.Sprintf("%q holds %s, the last at %s: %s. %s", left.Plan().Settings.Name, edits,
		left.Last.Format("2006-01-02 15:04"), strings.Join(names, ", "), where)
	if left.Fault != nil {
		text += " What came after could not be read: " + left.Fault.Error() + "."
	}
	return text
}

// checkDisk tells when something else changed the plan's file; a save asks before it writes over that.
func (w *window) checkDisk() {
	if w.desk.ChangedOnDisk() {
		w.notice.Warn(filepath.Base(w.desk.Path()) + " was changed on disk by something else. Saving asks before it writes over that; " +
			"open it again to see the other version.")
	}
}

// tellTrouble tells once that the journal cannot be kept.
func (w *window) tellTrouble() {
	if trouble := w.desk.JournalTrouble(); trouble != "" && trouble != w.trouble {
		w.notice.Warn(sentence(fmt.Errorf("%s; save often until there is room again", trouble)))
	}
	w.trouble = w.desk.JournalTrouble()
}
