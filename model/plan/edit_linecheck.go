package plan

import (
	"slices"
	"time"
)

// What is heard of an input in a line check. What is not OK is a fault.
const (
	HeardOK = "OK"
	Dead    = "dead"
	Noisy   = "noisy"
	Wrong   = "wrong"
)

// Heard lists what can be heard of an input in a line check.
func Heard() []string { return []string{HeardOK, Dead, Noisy, Wrong} }

// Fault reports whether the row tells of a fault that nobody cleared. Only the latest row of an input in an act counts.
func (r LineCheck) Fault() bool { return r.Result != HeardOK && r.Cleared == "" }

// When reads the time of a line check; a time that cannot be read, as a file may have it, is before all others.
func (r LineCheck) When() time.Time { return moment(r.At) }

// ClearedAt reads the time at which a fault was cleared; it is zero where it was not.
func (r LineCheck) ClearedAt() time.Time { return moment(r.Cleared) }

func moment(text string) time.Time {
	at, err := time.Parse(time.RFC3339, text)
	if err != nil {
		return time.Time{}
	}
	return at
}

// ChecksOf lists what was heard of an input in an act, the latest last. The slice is the caller's own.
func (p *Plan) ChecksOf(act ActID, input InputID) []LineCheck {
	rows := slices.Clone(p.LineChecks.Under(Key(string(act) + "/" + string(input))))
	slices.SortStableFunc(rows, func(a, b LineCheck) int { return a.When().Compare(b.When()) })
	return rows
}

// Checked is what was heard last of an input in an act.
func (p *Plan) Checked(act ActID, input InputID) (LineCheck, bool) {
	rows := p.ChecksOf(act, input)
	if len(rows) == 0 {
		return LineCheck{}, false
	}
	return rows[len(rows)-1], true
}

// SetLineCheck notes what was heard of an input in an act at a time, and returns the row. It takes the place of what was
// heard there before; OK clears the faults of the input in this act. A result comes after those before it, so one within
// the same second, or of a clock that was set back, is noted one second after the last.
func (e *Edit) SetLineCheck(r LineCheck) (LineCheck, error) {
	input, err := e.heardInput(r.Act, r.Input)
	at := r.When()
	switch {
	case err != nil:
		return r, err
	case !slices.Contains(Heard(), r.Result):
		return r, refuse("%s is OK, dead, noisy or wrong, not %q", input.Name, Clipped(r.Result))
	case at.IsZero():
		return r, refuse("%q is no date and time of a line check; 2027-06-18T16:20:00+02:00 is one", Clipped(r.At))
	}
	at = at.Truncate(time.Second)
	if last, found := e.next.Checked(r.Act, r.Input); found && !at.After(last.When()) {
		at = last.When().Truncate(time.Second).Add(time.Second)
	}
	r.At, r.Cleared = at.Format(time.RFC3339), ""
	if r.Result == HeardOK {
		e.clearFaults(r.Act, r.Input, r.At)
	}
	Put(e, r)
	return r, nil
}

// ClearLineCheck says that the fault of an input in an act is cleared since a time: what was heard last, and what stood open
// before it.
func (e *Edit) ClearLineCheck(act ActID, input InputID, cleared string) error {
	row, err := e.heardInput(act, input)
	if err != nil {
		return err
	}
	if moment(cleared).IsZero() {
		return refuse("%q is no date and time; 2027-06-18T16:20:00+02:00 is one", Clipped(cleared))
	}
	if last, found := e.next.Checked(act, input); !found || !last.Fault() {
		return refuse("%s has no open fault there", row.Name)
	}
	e.clearFaults(act, input, moment(cleared).Truncate(time.Second).Format(time.RFC3339))
	return nil
}

// NoteLineCheck writes a note beside what was heard last of an input in an act.
func (e *Edit) NoteLineCheck(act ActID, input InputID, note string) error {
	row, err := e.heardInput(act, input)
	if err != nil {
		return err
	}
	last, found := e.next.Checked(act, input)
	if !found {
		return refuse("nothing was heard of %s there yet", row.Name)
	}
	last.Note = note
	Put(e, last)
	return nil
}

// heardInput is an input that an act can have.
func (e *Edit) heardInput(act ActID, id InputID) (Input, error) {
	input, found := e.next.Inputs.Get(Key(id))
	owner, _ := e.next.Acts.Get(Key(input.Act))
	switch {
	case !found:
		return input, refuse("there is no such input any more")
	case act != "" && !e.next.Acts.Has(Key(act)):
		return input, refuse("there is no such act any more")
	case input.Act != "" && input.Act != act:
		return input, refuse("%s is an input of %s alone", input.Name, owner.Name)
	}
	return input, nil
}

// clearFaults clears what is open of an input in an act. One that was noted later than it is cleared, by a clock that was set
// back, keeps the order of its times.
func (e *Edit) clearFaults(act ActID, input InputID, cleared string) {
	for _, row := range e.next.ChecksOf(act, input) {
		if !row.Fault() {
			continue
		}
		row.Cleared = cleared
		if row.ClearedAt().Before(row.When()) {
			row.Cleared = row.At
		}
		Put(e, row)
	}
}
