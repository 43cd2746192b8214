package desk

import (
	"time"

	"stageloom/model/journal"
	"stageloom/model/plan"
	"stageloom/model/planfile"
)

// unsaved is the journal of the edits that no file holds yet.
type unsaved struct {
	folder  string
	journal *journal.Journal
	// trouble is why the journal cannot be kept, told once.
	trouble string
}

// KeepJournal makes the desk write its edits into a journal in this folder until they are saved. Without it nothing
// is kept, which is what a program without a window wants.
func (d *Desk) KeepJournal(folder string) { d.unsaved.folder = folder }

// JournalTrouble is why the journal cannot be kept, blank while it can.
func (d *Desk) JournalTrouble() string { return d.unsaved.trouble }

// note writes one step into the journal, which begins with the first step after a save. A journal that cannot be
// kept never stops the work; the reason is told.
func (d *Desk) note(name string, from, to *plan.Plan) {
	if d.unsaved.folder == "" || d.unsaved.trouble != "" {
		return
	}
	if d.unsaved.journal == nil {
		info := journal.Info{Path: d.file.path, Stamp: d.file.stamp, Began: time.Now()}
		begun, err := journal.Create(d.unsaved.folder, info, from)
		if err != nil {
			d.unsaved.trouble = err.Error()
			return
		}
		d.unsaved.journal = begun
	}
	if err := d.unsaved.journal.Append(name, plan.Between(from, to)); err != nil {
		d.unsaved.trouble = err.Error()
	}
}

// noteEnd ends the journal: what it holds is saved, or was given up. One that cannot be removed is offered at the
// next start, where nothing is lost by it.
func (d *Desk) noteEnd() {
	_ = d.unsaved.journal.Remove()
	d.unsaved.journal, d.unsaved.trouble = nil, ""
}

// LeftBehind lists what programs that ended without saving left in the journal's folder, the latest first. One that
// ended between a save and the end of its journal left nothing that its file does not hold: that journal goes.
func (d *Desk) LeftBehind() []*journal.Left {
	if d.unsaved.folder == "" {
		return nil
	}
	var lost []*journal.Left
	for _, left := range journal.LeftBehind(d.unsaved.folder) {
		saved, _, err := planfile.Open(left.Path)
		if err == nil && plan.Equal(saved, left.Plan()) {
			_ = left.Remove() // offered again where it cannot be removed, which costs nothing
			continue
		}
		lost = append(lost, left)
	}
	return lost
}

// stampOf is the stamp of the file that the journal builds on: the one it began with, or a later save of one of its
// own steps. Any other content is somebody else's, and a save will ask.
func stampOf(left *journal.Left) planfile.Stamp {
	saved, stamp, err := planfile.Open(left.Path)
	if err != nil {
		return left.Stamp
	}
	for _, s := range left.Steps {
		if plan.Equal(saved, s.Plan) {
			return stamp
		}
	}
	return left.Stamp
}

// Recover puts what was left behind on the desk, unsaved, with its steps as history. Saving it writes to its file as
// ever, and asks first when something else changed that file since. The old journal goes once a new one holds the
// same.
func (d *Desk) Recover(left *journal.Left) {
	old := d.Plan()
	d.noteEnd()
	d.letGo()
	d.reset(left.Base, "Recovered")
	for _, s := range left.Steps {
		d.steps = append(d.steps, step{name: s.Name, plan: s.Plan})
	}
	d.at = len(d.steps) - 1
	d.assess()
	d.file.path, d.file.stamp, d.file.saved = left.Path, stampOf(left), nil
	if d.file.path != "" {
		d.takeLock()
	}
	d.note("Recover", left.Base, d.Plan())
	if d.unsaved.journal != nil || d.unsaved.folder == "" {
		_ = left.Remove() // a second journal holds it now
	}
	d.tell(Event{Old: old, Opened: true, Selection: true, File: true})
}
