package desk

import (
	"errors"
	"path/filepath"
	"strings"
	"time"

	"stageloom/model/atomicfile"
	"stageloom/model/plan"
	"stageloom/model/planfile"
)

// file is where the plan lies and what is known of it there.
type file struct {
	path     string
	stamp    planfile.Stamp
	saved    *plan.Plan
	lock     *planfile.Lock
	readOnly string
	ops      *atomicfile.Ops
}

// Path is the plan's file, blank for a plan never saved.
func (d *Desk) Path() string { return d.file.path }

// Unsaved tells whether the plan differs from what its file holds.
func (d *Desk) Unsaved() bool {
	return d.Plan() != d.file.saved && (d.file.saved == nil || !plan.Equal(d.Plan(), d.file.saved))
}

// ReadOnly is why the plan may not be changed here, blank when it may.
func (d *Desk) ReadOnly() string { return d.file.readOnly }

// Title is the plan's name, its revision, and whether it is saved or read-only, for the window.
func (d *Desk) Title() string {
	settings := d.Plan().Settings
	parts := []string{settings.Name}
	if settings.Revision != "" {
		parts = append(parts, "revision "+settings.Revision)
	}
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

// UseOps makes saves write through these operations instead of the system's; tests break them.
func (d *Desk) UseOps(ops *atomicfile.Ops) { d.file.ops = ops }

// NewPlan puts a fresh plan on the desk.
func (d *Desk) NewPlan(p *plan.Plan) {
	old := d.Plan()
	d.noteEnd()
	d.letGo()
	d.reset(p, "New plan")
	d.tell(Event{Old: old, Opened: true, Selection: true, File: true})
}

// Open puts the plan of a file on the desk. When it cannot be read the plan before stays. A plan that is being
// edited elsewhere, or whose lock cannot be made, opens read-only; ReadOnly says why.
func (d *Desk) Open(path string) error {
	path, err := filepath.Abs(path)
	if err != nil {
		return err
	}
	p, stamp, err := planfile.Open(path)
	if err != nil {
		return err
	}
	old := d.Plan()
	d.noteEnd()
	if path != d.file.path {
		d.letGo()
	}
	d.reset(p, "Open "+filepath.Base(path))
	d.file.path, d.file.stamp = path, stamp
	d.takeLock()
	d.tell(Event{Old: old, Opened: true, Selection: true, File: true})
	return nil
}

func (d *Desk) takeLock() {
	if d.file.lock != nil {
		return
	}
	lock, err := planfile.Acquire(d.file.path, planfile.ThisProcess(time.Now()))
	d.file.lock, d.file.readOnly = lock, ""
	if err != nil {
		d.file.lock, d.file.readOnly = nil, err.Error()
	}
}

// letGo gives up the file; the error of a lock that cannot be given back helps nobody.
func (d *Desk) letGo() {
	if d.file.lock != nil {
		_ = d.file.lock.Release()
	}
	d.file = file{ops: d.file.ops}
}

// Close gives the plan's lock back and ends the journal: what is not saved by now is given up.
func (d *Desk) Close() {
	d.noteEnd()
	d.letGo()
}

// ErrNoPath is the error of a Save of a plan that has no file yet.
var ErrNoPath = errors.New("this plan has no file yet: choose a name for it")

// Save writes the plan to its file. It refuses with *planfile.Overwrite when something else changed the file
// since; SaveAs with replace true writes over it.
func (d *Desk) Save() error {
	switch {
	case d.file.path == "":
		return ErrNoPath
	case d.file.readOnly != "":
		return &ReadOnly{Reason: d.file.readOnly}
	}
	stamp, err := planfile.Save(d.file.path, d.Plan(), d.file.stamp, d.file.ops)
	if err != nil {
		return err
	}
	d.wrote(stamp)
	return nil
}

// SaveAs writes the plan to a path and works on that file from then on; replace writes over a file that lies
// there. The extension is added when the name has none. An error leaves desk and file as they were.
func (d *Desk) SaveAs(path string, replace bool) error {
	path, err := filepath.Abs(withExtension(path))
	if err != nil {
		return err
	}
	if path == d.file.path && d.file.readOnly == "" {
		return d.saveOver(replace)
	}
	lock, err := planfile.Acquire(path, planfile.ThisProcess(time.Now()))
	if err != nil {
		return err
	}
	write := planfile.Save
	if replace {
		write = func(path string, p *plan.Plan, _ planfile.Stamp, ops *atomicfile.Ops) (planfile.Stamp, error) {
			return planfile.Replace(path, p, ops)
		}
	}
	stamp, err := write(path, d.Plan(), planfile.Stamp{}, d.file.ops)
	if err != nil {
		return errors.Join(err, lock.Release())
	}
	d.letGo()
	d.file.path, d.file.lock = path, lock
	d.wrote(stamp)
	return nil
}

func (d *Desk) saveOver(replace bool) error {
	if !replace {
		return d.Save()
	}
	stamp, err := planfile.Replace(d.file.path, d.Plan(), d.file.ops)
	if err != nil {
		return err
	}
	d.wrote(stamp)
	return nil
}

func (d *Desk) wrote(stamp planfile.Stamp) {
	d.file.stamp, d.file.saved = stamp, d.Plan()
	d.noteEnd()
	d.tell(Event{File: true})
}

func withExtension(path string) string {
	if strings.EqualFold(filepath.Ext(path), planfile.Extension) {
		return path
	}
	return path + planfile.Extension
}

// ChangedOnDisk tells whether something else changed the plan's file since it was opened or saved here.
func (d *Desk) ChangedOnDisk() bool {
	if d.file.path == "" {
		return false
	}
	changed, err := d.file.stamp.Changed(d.file.path)
	return err != nil || changed
}
