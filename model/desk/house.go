package desk

import (
	"errors"
	"io/fs"

	"stageloom/model/assess"
	"stageloom/model/plan"
	"stageloom/model/planfile"
)

// House lends plans the cables of its stock; the desk knows no more of it.
type House interface {
	// Save lets write put a plan at a path, marked with what the house does not let it have, and then makes the house agree
	// with it. told are ends of the sentence "Saved, but …", warned whole sentences of what the show may not have on its days
	// although the house lets it. An error is why the plan was not written.
	Save(p *plan.Plan, path string, write func(marked *plan.Plan) error) (told, warned []string, err error)
	// Marks returns what marks a plan as the house stands now.
	Marks() (mark func(*plan.Plan) *plan.Plan, err error)
}

// SettleWith has every save settled with the house; without one a save writes the plan's file and nothing else.
func (d *Desk) SettleWith(house House) { d.house = house }

// settle lets write put the plan as it stands, and the house know of it.
func (d *Desk) settle(path string, write func(*plan.Plan) error) error {
	if d.house == nil {
		return write(d.Plan())
	}
	told, warned, err := d.house.Save(d.Plan(), path, write)
	d.file.warned = warned
	for _, sentence := range told {
		d.file.tell(sentence)
	}
	return err
}

// Note marks the plan, in all steps of the history, with what the house does not let it have now. That is no step and nothing
// to save: it is what the house says. An error is why the house cannot be asked; the marks then stay as they are.
func (d *Desk) Note() error {
	if d.house == nil {
		return nil
	}
	mark, err := d.house.Marks()
	if err != nil {
		return err
	}
	if old := d.everywhere(mark); old != d.Plan() {
		d.tell(Event{Old: old})
	}
	return nil
}

// everywhere changes the plan in all steps and the saved state, without a step of its own, and returns the plan before.
func (d *Desk) everywhere(change func(*plan.Plan) *plan.Plan) (old *plan.Plan) {
	old = d.Plan()
	known := map[*plan.Plan]*plan.Plan{}
	once := func(p *plan.Plan) *plan.Plan {
		if known[p] == nil {
			known[p] = change(p)
		}
		return known[p]
	}
	for i := range d.steps {
		d.steps[i].plan = once(d.steps[i].plan)
	}
	if d.file.saved != nil {
		d.file.saved = once(d.file.saved)
	}
	if d.Plan() != old {
		d.assessment = assess.Next(d.assessment, d.Plan())
	}
	return old
}

// OwnIdentity makes of a copied plan one of its own, in all steps of the history: what it says that it has of the house's stock
// is asked for anew when it is saved. Its file has the identity of the other until then.
func (d *Desk) OwnIdentity() {
	saved, identity := d.file.saved, d.ids.Identity()
	old := d.everywhere(func(p *plan.Plan) *plan.Plan { return p.WithIdentity(identity) })
	d.file.saved = saved
	if d.file.readOnly == "" {
		d.note("A plan of its own", old, d.Plan())
	}
	d.tell(Event{Old: old, File: true})
}

// identified is a plan as it comes to the desk: one of before plans had identities gets one, which its next save writes.
func (d *Desk) identified(p *plan.Plan) *plan.Plan {
	if p.Settings.Identity != "" {
		return p
	}
	return p.WithIdentity(d.ids.Identity())
}

// leavesCopy reports whether the plan still lies in its file when it is saved elsewhere: else it moves there.
func (d *Desk) leavesCopy() bool {
	if d.file.path == "" {
		return false
	}
	left, _, err := planfile.Open(d.file.path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return false
	case err != nil: // nobody can say what that is
		return true
	}
	return left.Settings.Identity == "" || left.Settings.Identity == d.Plan().Settings.Identity
}

// sameWork reports whether two plans hold the same work, whatever the house lets them have; a file of before plans had
// identities holds none.
func sameWork(file, p *plan.Plan) bool {
	if file == p {
		return true
	}
	if file.Settings.Identity == "" {
		p = p.WithIdentity("")
	}
	return plan.Equal(file.WithoutLacking(), p.WithoutLacking())
}
