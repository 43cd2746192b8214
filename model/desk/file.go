package desk

import (
	"errors"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"stageloom/model/atomicfile"
	"stageloom/model/plan"
	"stageloom/model/planfile"
	"stageloom/model/revision"
)

// file is where the plan lies and what is known of it there.
type file struct {
	path     string
	stamp    planfile.Stamp
	saved    *plan.Plan
	lock     *planfile.Lock
	readOnly string
	// held is why another window or computer keeps the plan read-only here, nil where something else does.
	held *planfile.Held
	ops  *atomicfile.Ops
	// mended says what reading took out of the file's texts, blank where nothing was.
	mended string
	// lost are sentences about what saves could not keep of the file, told is which were told.
	lost []string
	told map[string]bool
	// warned are sentences of what the last save heard from the house that nothing was lost by.
	warned []string
}

// Path is the plan's file, blank for a plan never saved.
func (d *Desk) Path() string { return d.file.path }

// Unsaved reports whether the plan differs from what its file holds.
func (d *Desk) Unsaved() bool {
	return d.file.saved == nil || !sameWork(d.file.saved, d.Plan())
}

// ReadOnly is why the plan may not be changed here, blank when it may.
func (d *Desk) ReadOnly() string { return d.file.readOnly }

// Title is the plan's name, how it stands to its revisions, and whether it is saved or read-only, for the window.
func (d *Desk) Title() string {
	parts := []string{d.Plan().Settings.Name, revision.StandingOf(d.Plan()).String()}
	switch {
	case d.file.readOnly != "":
		parts = append(parts, "read-only")
	case d.Unsaved():
		parts = append(parts, "not saved")
	case d.file.path != "":
		parts = append(parts, filepath.Base(d.file.path))
	}
	return strings.Join(parts, " · ")
}

// Mended says what reading the plan's file took out of its texts, blank where nothing was.
func (d *Desk) Mended() string { return d.file.mended }

// UseOps makes saves write through these operations instead of the system's; tests break them.
func (d *Desk) UseOps(ops *atomicfile.Ops) { d.file.ops = ops }

// NewPlan puts a fresh plan on the desk, under an identity of its own.
func (d *Desk) NewPlan(p *plan.Plan) {
	old := d.Plan()
	d.noteEnd()
	d.letGo()
	d.reset(p.WithIdentity(d.ids.Identity()), "New plan")
	d.tell(Event{Old: old, Opened: true, Selection: true, File: true})
}

// Open puts the plan of a file on the desk. When it cannot be read the plan before stays. A plan that is being
// edited elsewhere, or whose lock cannot be made, opens read-only; ReadOnly says why. One whose texts had signs that turn
// letters round opens without them, unsaved; Mended says so.
func (d *Desk) Open(path string) error {
	path, err := filepath.Abs(path)
	if err != nil {
		return err
	}
	p, stamp, mends, err := planfile.OpenMended(path)
	if err != nil {
		return err
	}
	old := d.Plan()
	d.noteEnd()
	if path != d.file.path {
		d.letGo()
	}
	d.reset(d.identified(p), "Open "+filepath.Base(path))
	d.file.path, d.file.stamp, d.file.mended = path, stamp, planfile.TakenOut(mends)
	if d.file.mended != "" {
		d.file.saved = nil
	}
	d.takeLock(planfile.Acquire)
	d.tell(Event{Old: old, Opened: true, Selection: true, File: true})
	return nil
}

// acquire is planfile.Acquire or planfile.TakeOver.
type acquire func(path string, who planfile.Holder) (*planfile.Lock, error)

func (d *Desk) takeLock(take acquire) {
	if d.file.lock != nil {
		return
	}
	lock, err := take(d.file.path, planfile.ThisProcess(time.Now()))
	d.file.lock, d.file.readOnly, d.file.held = lock, "", nil
	if err != nil {
		d.file.lock, d.file.readOnly = nil, err.Error()
		errors.As(err, &d.file.held)
	}
}

// letGo gives up the file.
func (d *Desk) letGo() {
	d.file.release()
	d.file = file{ops: d.file.ops}
}

// release gives the lock back; the error of one that cannot be given back helps nobody.
func (f *file) release() {
	if f.lock != nil {
		_ = f.lock.Release()
	}
}

// Close gives the plan's lock back and ends the journal: what is not saved by now is given up.
func (d *Desk) Close() {
	d.noteEnd()
	d.letGo()
}

// ErrNoPath is the error of a Save of a plan that has no file yet.
var ErrNoPath = errors.New("this plan has no file yet: choose a name for it")

// Save writes the plan to its file. It refuses with *planfile.Overwrite when something else changed the file since
// and with *planfile.Gone when it is there no more; SaveOver then does what the user says.
func (d *Desk) Save() error {
	switch {
	case d.file.path == "":
		return ErrNoPath
	case d.file.readOnly != "":
		return &ReadOnly{Reason: d.file.readOnly}
	}
	return d.write(d.file.path, d.file.stamp)
}

// SaveAs writes the plan to a path and works on that file from then on; replace writes over a file that lies
// there. Without it the path of the plan itself, by whatever name, is saved as by Save: what something else wrote there is
// asked about. The extension is added when the name has none. Where the plan stays in the file that it had, what is worked on
// from then on is another plan, of another identity in all steps of the history. An error leaves desk and file as they were.
func (d *Desk) SaveAs(path string, replace bool) error {
	return d.saveTo(path, func(path string, was planfile.Stamp) error {
		if replace {
			return d.writeBy(path, func(p *plan.Plan, ops *atomicfile.Ops) (planfile.Stamp, error) { return planfile.Replace(path, p, ops) })
		}
		return d.write(path, was)
	})
}

// SaveOver is SaveAs over a file that the user was told of and gave up: over the content of that stamp alone, or, with
// the zero Stamp, where no file is. Anything else that came there meanwhile is refused as ever.
func (d *Desk) SaveOver(path string, told planfile.Stamp) error {
	return d.saveTo(path, func(path string, _ planfile.Stamp) error { return d.write(path, told) })
}

// saveTo lets write put the plan at a path, with the stamp that is known of the file there.
func (d *Desk) saveTo(path string, write func(path string, was planfile.Stamp) error) error {
	path, err := filepath.Abs(withExtension(path))
	if err != nil {
		return err
	}
	if d.file.lock != nil && d.file.lock.Covers(path) {
		was := d.file.path
		d.file.path = path
		err := write(path, d.file.stamp)
		if err != nil && !stands(err) {
			d.file.path = was
		}
		return err
	}
	lock, err := planfile.Acquire(path, planfile.ThisProcess(time.Now()))
	if err != nil {
		return err
	}
	before, steps, reckoned, copied := d.file, slices.Clone(d.steps), d.assessment, d.leavesCopy()
	d.file = file{path: path, lock: lock, saved: before.saved, ops: before.ops}
	old := d.Plan()
	if copied {
		identity := d.ids.Identity()
		d.everywhere(func(p *plan.Plan) *plan.Plan { return p.WithIdentity(identity) })
	}
	err = write(path, planfile.Stamp{})
	if err != nil && !stands(err) {
		d.file, d.steps, d.assessment = before, steps, reckoned
		return errors.Join(err, lock.Release())
	}
	before.release()
	if copied { // listeners know the plan under its identity of before
		d.tell(Event{Old: old, File: true})
	}
	return err
}

func (d *Desk) write(path string, was planfile.Stamp) error {
	return d.writeBy(path, func(p *plan.Plan, ops *atomicfile.Ops) (planfile.Stamp, error) {
		return planfile.Save(path, p, was, ops)
	})
}

// writeBy lets save write the plan, settled with the house, and notes the stamp. A plan that stands there but that the disk did
// not confirm has the new stamp and is not saved yet: saving again is what its error asks for.
func (d *Desk) writeBy(path string, save func(*plan.Plan, *atomicfile.Ops) (planfile.Stamp, error)) error {
	var stamp planfile.Stamp
	var written *plan.Plan
	err := d.settle(path, func(p *plan.Plan) (err error) {
		written = p
		stamp, err = save(p, d.listening())
		return err
	})
	switch {
	case err == nil:
		d.wrote(stamp, written)
	case stands(err):
		d.file.stamp, d.file.saved = stamp, nil
		d.tell(Event{File: true})
	}
	return err
}

// stands reports whether a save that failed has put the plan in its place.
func stands(err error) bool {
	var failure *atomicfile.Failure
	return errors.As(err, &failure) && failure.Replaced
}

// listening are the operations of a save, which tell the desk what could not be kept.
func (d *Desk) listening() *atomicfile.Ops {
	ops := atomicfile.System()
	if d.file.ops != nil {
		ops = *d.file.ops
	}
	ops.Tell = d.file.tell
	return &ops
}

// tell notes a sentence about a save, once for a file.
func (f *file) tell(sentence string) {
	if f.told == nil {
		f.told = map[string]bool{}
	}
	if !f.told[sentence] {
		f.lost = append(f.lost, sentence)
	}
	f.told[sentence] = true
}

// Lost tells, once for a file, what its last save could not keep of it: its group, its owner, its other names; and what the
// house's stock said to it.
func (d *Desk) Lost() []string {
	lost := d.file.lost
	d.file.lost = nil
	return lost
}

// Warned are the sentences about what the show may not have on its days, as the house said when the plan was last saved.
func (d *Desk) Warned() []string { return d.file.warned }

// wrote notes that the plan is in its file as it was written. What the house lets the other steps have is told anew with it.
func (d *Desk) wrote(stamp planfile.Stamp, written *plan.Plan) {
	mark := func(p *plan.Plan) *plan.Plan { return p }
	if d.house != nil {
		if asked, err := d.house.Marks(); err == nil { // why not was told by the save
			mark = asked
		}
	}
	now := d.Plan()
	old := d.everywhere(func(p *plan.Plan) *plan.Plan {
		if p == now {
			return written
		}
		return mark(p)
	})
	d.file.stamp, d.file.saved = stamp, d.Plan()
	d.noteEnd()
	d.tell(Event{Old: old, File: true})
}

func withExtension(path string) string {
	if strings.EqualFold(filepath.Ext(path), planfile.Extension) {
		return path
	}
	return path + planfile.Extension
}

// ChangedOnDisk reports whether something else changed the plan's file since it was opened or saved here.
func (d *Desk) ChangedOnDisk() bool {
	if d.file.path == "" {
		return false
	}
	changed, err := d.file.stamp.Changed(d.file.path)
	return err != nil || changed
}
