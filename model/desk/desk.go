package desk

import (
	"stageloom/model/assess"
	"stageloom/model/plan"
)

// Event tells listeners what is new. Old and New are the same plan when only the selection or the file changed.
type Event struct {
	Old, New *plan.Plan
	// Assessment is the reckoning of New.
	Assessment *assess.Assessment
	// Opened tells that another document took the desk.
	Opened bool
	// Selection tells that the selection changed.
	Selection bool
	// File tells that path, unsaved mark or read-only state changed.
	File bool
}

// PlanChanged reports whether the plan itself changed.
func (e Event) PlanChanged() bool { return e.Old != e.New }

// step is one state in the history with the name of the edit that led to it.
type step struct {
	name string
	plan *plan.Plan
	// again lets the next edit of the same name join this step.
	again bool
}

// mostSteps bounds the history; the oldest steps fall out.
const mostSteps = 1000

// Desk is one open plan.
type Desk struct {
	ids        *plan.IDSource
	steps      []step
	at         int
	assessment *assess.Assessment
	selection  []plan.Ref
	listeners  []func(Event)
	file       file
	unsaved    unsaved
	guard      Guard
	house      House
}

// New returns a desk with an empty plan. ids gives the ids of new rows.
func New(ids *plan.IDSource) *Desk {
	d := &Desk{ids: ids}
	d.reset(d.identified(plan.New("New plan")), "New plan")
	return d
}

func (d *Desk) reset(p *plan.Plan, name string) {
	d.steps, d.at, d.selection = []step{{name: name, plan: p}}, 0, nil
	d.file.saved = p
	d.assess()
}

// assess reckons the plan as it stands from nothing.
func (d *Desk) assess() { d.assessment = assess.Of(d.Plan()) }

// Plan is the plan as it stands.
func (d *Desk) Plan() *plan.Plan { return d.steps[d.at].plan }

// Assessment is the reckoning of the plan as it stands.
func (d *Desk) Assessment() *assess.Assessment { return d.assessment }

// Listen adds a listener; it is called after each change, in the order of adding.
func (d *Desk) Listen(hear func(Event)) { d.listeners = append(d.listeners, hear) }

func (d *Desk) tell(e Event) {
	e.New, e.Assessment = d.Plan(), d.assessment
	if e.Old == nil {
		e.Old = e.New
	}
	for _, hear := range d.listeners {
		hear(e)
	}
}

// Do changes the plan by one named edit, one step of the history. An edit that fails, breaks a rule or is made
// on a read-only plan returns its reason and changes nothing; one that changes nothing makes no step.
func (d *Desk) Do(name string, edit func(*plan.Edit) error) error {
	return d.do(name, edit, false, d.guard)
}

// DoAnyway is Do past the guard, for an edit that a person was asked about already.
func (d *Desk) DoAnyway(name string, edit func(*plan.Edit) error) error {
	return d.do(name, edit, false, nil)
}

// DoAgain is Do for edits that come in rows, such as nudges: while nothing else happens between them, edits of
// the same name are one step of the history.
func (d *Desk) DoAgain(name string, edit func(*plan.Edit) error) error {
	return d.do(name, edit, true, d.guard)
}

func (d *Desk) do(name string, edit func(*plan.Edit) error, again bool, guard Guard) error {
	if d.file.readOnly != "" {
		return &ReadOnly{Reason: d.file.readOnly}
	}
	old := d.Plan()
	next, err := plan.Do(old, d.ids, edit)
	if err != nil {
		return err
	}
	if plan.Between(old, next).Empty() {
		return nil
	}
	if guard != nil {
		if err := guard(name, old, next, func() error { return d.do(name, edit, again, nil) }); err != nil {
			return err
		}
	}
	kept := d.at + 1
	if top := d.steps[d.at]; again && top.again && top.name == name && d.at > 0 && top.plan != d.file.saved {
		kept = d.at
	}
	d.steps = append(d.steps[:kept:kept], step{name, next, again})
	if len(d.steps) > mostSteps {
		d.steps = d.steps[len(d.steps)-mostSteps:]
	}
	d.note(name, old, next)
	d.arrive(old, len(d.steps)-1)
	return nil
}

// ReadOnly is the error of an edit on a plan that this desk may not change.
type ReadOnly struct{ Reason string }

// Error says why.
func (r *ReadOnly) Error() string { return "this plan is read-only here: " + r.Reason }

// arrive makes step n the current one, coming from a plan.
func (d *Desk) arrive(old *plan.Plan, n int) {
	d.at = n
	d.assessment = assess.Next(d.assessment, d.Plan())
	before := len(d.selection)
	d.prune()
	d.tell(Event{Old: old, Selection: len(d.selection) != before, File: true})
}

// Undo goes one step back and reports whether there was one.
func (d *Desk) Undo() bool { return d.GoTo(d.at - 1) }

// Redo goes one step forward and reports whether there was one.
func (d *Desk) Redo() bool { return d.GoTo(d.at + 1) }

// GoTo goes to a step of the history and reports whether it exists and is another one.
func (d *Desk) GoTo(n int) bool {
	if n < 0 || n >= len(d.steps) || n == d.at {
		return false
	}
	old := d.Plan()
	d.steps[d.at].again = false
	d.note("Go to "+d.steps[n].name, old, d.steps[n].plan)
	d.arrive(old, n)
	return true
}

// History returns the names of the steps, the oldest first, and the index of the current one.
func (d *Desk) History() (names []string, at int) {
	names = make([]string, len(d.steps))
	for i, s := range d.steps {
		names[i] = s.name
	}
	return names, d.at
}

// NextUndo returns the name of the edit that Undo takes back, blank for none.
func (d *Desk) NextUndo() string {
	if d.at == 0 {
		return ""
	}
	return d.steps[d.at].name
}

// NextRedo returns the name of the edit that Redo makes again, blank for none.
func (d *Desk) NextRedo() string {
	if d.at+1 >= len(d.steps) {
		return ""
	}
	return d.steps[d.at+1].name
}
