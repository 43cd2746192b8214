package desk

import (
	"stageloom/model/planfile"
)

// HeldBy is who keeps the plan read-only here, nil where nobody does.
func (d *Desk) HeldBy() *planfile.Held { return d.file.held }

// Retake takes a plan that another window held and has given up, also by dying, and reports whether it can be edited now.
// What another computer has not given back is left to TakeOver.
func (d *Desk) Retake() (bool, error) { return d.retake(planfile.Acquire) }

// TakeOver is Retake that also takes what another computer has not given back, after the user has said so.
func (d *Desk) TakeOver() (bool, error) { return d.retake(planfile.TakeOver) }

// retake reads the file again where the other window has changed it: nothing was edited here meanwhile.
func (d *Desk) retake(take acquire) (bool, error) {
	if d.file.held == nil {
		return false, nil
	}
	d.takeLock(take)
	if d.file.lock == nil {
		return false, nil
	}
	p, stamp, err := planfile.Open(d.file.path)
	if err != nil {
		d.file.release()
		d.file.lock = nil
		d.file.readOnly = err.Error()
		return false, err
	}
	old := d.Plan()
	d.file.stamp = stamp
	if !sameWork(p, old) {
		d.reset(d.identified(p), "Open again")
	}
	d.tell(Event{Old: old, Opened: d.Plan() != old, Selection: d.Plan() != old, File: true})
	return true, nil
}
