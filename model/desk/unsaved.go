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
	ops     *journal.Ops
	journal *journal.Journal
	unread  []*journal.Unread
	// without is why no journal is kept at all, trouble why that of this plan cannot be kept.
	without, trouble string
}

// KeepJournal makes the desk write its edits into a journal in this folder until they are saved. Without it nothing
// is kept, which is what a program without a window wants.
func (d *Desk) KeepJournal(folder string) { d.unsaved.folder = folder }

// NoJournal tells why there is no folder for a journal, in a program that wants one.
func (d *Desk) NoJournal(reason string) {
	d.unsaved.without = "unsaved work is not kept, so a crash would lose it: " + reason
}

// UseJournalOps makes journals use these operations instead of the system's; tests break them.
func (d *Desk) UseJournalOps(ops *journal.Ops) { d.unsaved.ops = ops }

// JournalTrouble is why the journal cannot be kept, blank while it can.
func (d *Desk) JournalTrouble() string {
	if err := d.unsaved.journal.Trouble(); err != nil {
		return err.Error()
	}
	if d.unsaved.trouble != "" {
		return d.unsaved.trouble
	}
	return d.unsaved.without
}

// JournalRenewed tells once that the journal was deleted by something else while the program ran, and was made again.
func (d *Desk) JournalRenewed() bool { return d.unsaved.journal.Renewed() }

// note writes one step into the journal, which begins with the first step after a save. A journal that cannot be
// kept never stops the work; the reason is told, and each step tries again.
func (d *Desk) note(name string, from, to *plan.Plan) {
	if d.unsaved.folder == "" {
		return
	}
	if d.unsaved.journal == nil {
		d.beginJournal(from, 0)
	}
	d.unsaved.told(d.unsaved.journal.Append(name, to))
}

func (d *Desk) beginJournal(base *plan.Plan, before int) {
	info := journal.Info{Path: d.file.path, Stamp: d.file.stamp, Began: time.Now(), Before: before}
	d.unsaved.journal = journal.Begin(d.unsaved.folder, info, base, d.unsaved.ops)
}

func (u *unsaved) told(err error) {
	u.trouble = ""
	if err != nil {
		u.trouble = err.Error()
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
	all, unread := journal.Look(d.unsaved.folder)
	d.unsaved.unread = unread
	var lost []*journal.Left
	for _, left := range all {
		saved, _, err := planfile.Open(left.Path)
		if err == nil && sameWork(saved, left.Plan()) {
			_ = left.Remove() // offered again where it cannot be removed, which costs nothing
			continue
		}
		lost = append(lost, left)
	}
	return lost
}

// Unread lists the journals that LeftBehind found and could not read.
func (d *Desk) Unread() []*journal.Unread { return d.unsaved.unread }

// stampOf is the stamp of the file that the journal builds on: the one it began with, or a later save of one of its
// own steps. Any other content is somebody else's, and a save will ask.
func stampOf(left *journal.Left) planfile.Stamp {
	saved, stamp, err := planfile.Open(left.Path)
	if err != nil {
		return left.Stamp
	}
	for _, s := range left.Steps {
		if sameWork(saved, s.Plan) {
			return stamp
		}
	}
	if left.Before > 0 && sameWork(saved, left.Base) {
		return stamp
	}
	return left.Stamp
}

// Recover puts what was left behind on the desk, unsaved, with its steps as history. Saving it writes to its file as
// ever, and asks first when something else changed that file since. The old journal goes once a new one holds the
// same, step by step. It refuses with journal.ErrTaken when another window was first; the plan before then stays.
func (d *Desk) Recover(left *journal.Left) error {
	if err := left.Claim(); err != nil {
		return err
	}
	old := d.Plan()
	d.noteEnd()
	d.letGo()
	identity := d.identified(left.Plan()).Settings.Identity // in all steps, as it was when the program ended
	d.reset(left.Base, "Recovered")
	for _, s := range left.Steps {
		d.steps = append(d.steps, step{name: s.Name, plan: s.Plan})
	}
	for i := range d.steps {
		d.steps[i].plan = d.steps[i].plan.WithIdentity(identity)
	}
	d.at = len(d.steps) - 1
	d.assess()
	d.file.path, d.file.stamp, d.file.saved = left.Path, stampOf(left), nil
	if d.file.path != "" {
		d.takeLock(planfile.Acquire)
	}
	d.passOn(left)
	d.tell(Event{Old: old, Opened: true, Selection: true, File: true})
	return nil
}

// passOn moves what was recovered into a journal of this program; where that cannot be kept, the old one stays.
func (d *Desk) passOn(left *journal.Left) {
	if d.unsaved.folder != "" {
		d.beginJournal(left.Base, left.Before)
		err := d.unsaved.journal.Resume(left.Steps)
		d.unsaved.told(err)
		if err != nil {
			left.Release()
			return
		}
	}
	_ = left.Remove() // offered again where it cannot be removed, which costs nothing
}
