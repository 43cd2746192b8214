package exchange

import (
	"fmt"

	"stageloom/model/plan"
)

// Coming is what an input list comes to in a plan. Known rows are inputs that are there: these become what the list says and
// keep their patch. New ones are added. In an act, Same rows are as the house has them in every field that the list has, Own
// are inputs of the house of which the list says something else and which become the act's own, Struck are the inputs of the
// house that go from the act, since the list has them otherwise or is all that the act has, and Left are those that stay
// since the list says nothing of them. Gone are the inputs of the list's own that leave the plan, Kept those that the list
// lacks and that stay.
type Coming struct{ Known, New, Own, Same, Struck, Left, Gone, Kept int }

// Coming reckons what the list comes to: for all acts where act is blank, else as the list of that act.
func (in Inputs) Coming(p *plan.Plan, act plan.ActID) Coming {
	m := in.match(p, act)
	c := Coming{Struck: len(m.struck)}
	same := 0
	for i := range m.rows {
		switch row := &m.rows[i]; {
		case row.own:
			c.Known++
		case row.same:
			same++
		case row.isNew():
			c.New++
		default:
			c.Own++
		}
	}
	if c.Same = same; act != "" {
		c.Left = len(m.house) - len(m.struck) - same
	}
	if c.Kept = len(m.gone); in.Drop {
		c.Gone, c.Kept = c.Kept, 0
	}
	return c
}

// Add puts the inputs into a plan: for all acts where act is blank, else as the list of that act. Then a row that reads as
// the house has it, in every field that the list has, stays the house's; every other is an input of the act alone. What the
// house has besides stays, or is struck from the act if [Inputs.Strike] says so; what the list itself had before and lacks
// now stays, or leaves with its patch if [Inputs.Drop] says so. Sockets and channels that the list names are patched in the
// act; [Inputs.Patching] says which are not. A list with faults is refused as a whole.
func (in Inputs) Add(e *plan.Edit, act plan.ActID) error {
	_, _, err := in.put(e, act)
	return err
}

// put puts the list in and returns the input of each row.
func (in Inputs) put(e *plan.Edit, act plan.ActID) (got Patching, ids []plan.InputID, err error) {
	switch {
	case len(in.Faults) > 0:
		return got, nil, fmt.Errorf("%w: %d rows have faults, of which the first is %v", plan.ErrRefused, BadRows(in.Faults), in.Faults[0])
	case act != "" && !e.Now().Acts.Has(plan.Key(act)):
		return got, nil, fmt.Errorf("%w: there is no such act any more", plan.ErrRefused)
	}
	m := in.match(e.Now(), act)
	homes := m.homes()
	if in.Drop {
		for _, input := range m.gone {
			e.RemoveInput(input.ID)
		}
	}
	ids = make([]plan.InputID, len(m.rows))
	for i := range m.rows {
		ids[i] = m.enter(e, &m.rows[i])
	}
	m.pair(e, ids)
	for _, house := range m.struck {
		plan.Put(e, plan.StagePatch{Act: act, Input: house.ID, Strike: true})
	}
	if act != "" {
		m.place(e, ids, homes)
	}
	got, err = in.patch(e, act, ids)
	got.Left = append(m.told, got.Left...)
	return got, ids, err
}

// enter brings one row into the plan and returns its input.
func (m *match) enter(e *plan.Edit, row *matched) plan.InputID {
	switch {
	case row.same:
		key := plan.StagePatch{Act: m.act, Input: row.base.ID}.Key()
		if struck, found := e.Now().StagePatches.Get(key); found && struck.Strike {
			plan.Drop[plan.StagePatch](e, key)
		}
		return row.base.ID
	case row.own:
		plan.Put(e, row.want)
		if row.want.Snake != "" && (row.want.Snake != row.base.Snake || row.want.SnakeWay != row.base.SnakeWay) {
			plan.Drop[plan.StagePatch](e, plan.StagePatch{Act: m.act, Input: row.base.ID}.Key()) // it goes where the sub-snake leads
		}
		return row.base.ID
	}
	return e.AddInput(row.want)
}
