package exchange

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/plan"
)

// Coming is what an input list comes to in a plan. Known rows bear the number of an input that is there: these become what
// the list says and keep their patch. New ones are added. In an act, Same rows are as the house has them, Struck are
// the inputs of the house that go from the act, since the list has their number otherwise or is all that the act has, and
// Left are those that stay since the list says nothing of them.
type Coming struct{ Known, New, Same, Struck, Left int }

// Coming reckons what the list comes to: for all acts where act is blank, else as the list of that act.
func (in Inputs) Coming(p *plan.Plan, act plan.ActID) Coming {
	entry := newEntry(p, act)
	var c Coming
	for _, row := range in.Rows {
		switch {
		case entry.own[row.Input.Number] != "":
			c.Known++
		case entry.same(row.Input):
			c.Same++
		default:
			c.New++
		}
	}
	c.Struck = len(entry.struck(in.Rows, in.Strike))
	c.Left = len(entry.struck(in.Rows, true)) - c.Struck
	return c
}

// Add puts the inputs into a plan: for all acts where act is blank, else as the list of that act. Then a row that reads as
// the house has it stays the house's; every other is an input of the act alone, plugged in where the house has its number,
// and takes its place; what the house has besides stays, or is struck from the act if [Inputs.Strike] says so. Sockets and
// channels that the list names are patched in the act; [Inputs.Patching] says which are not. A list with faults is refused
// as a whole.
func (in Inputs) Add(e *plan.Edit, act plan.ActID) error {
	_, err := in.put(e, act)
	return err
}

func (in Inputs) put(e *plan.Edit, act plan.ActID) (Patching, error) {
	switch {
	case len(in.Faults) > 0:
		return Patching{}, fmt.Errorf("%w: %d rows have faults, of which the first is %v", plan.ErrRefused, BadRows(in.Faults), in.Faults[0])
	case act != "" && !e.Now().Acts.Has(plan.Key(act)):
		return Patching{}, fmt.Errorf("%w: there is no such act any more", plan.ErrRefused)
	}
	entry := newEntry(e.Now(), act)
	struck := entry.struck(in.Rows, in.Strike)
	ids := make([]plan.InputID, len(in.Rows))
	for i, row := range in.Rows {
		switch id := entry.own[row.Input.Number]; {
		case id != "":
			old, _ := e.Now().Inputs.Get(plan.Key(id))
			plan.Put(e, in.merged(old, row.Input))
			ids[i] = id
		case entry.same(row.Input):
			entry.takeBack(e, row.Input.Number)
			ids[i] = entry.house[row.Input.Number].ID
		default:
			ids[i] = entry.add(e, row.Input)
		}
	}
	for _, id := range struck {
		plan.Put(e, plan.StagePatch{Act: act, Input: id, Strike: true})
	}
	return in.patch(e, act, ids)
}

// merged is an input of the plan with what the columns of the list say; what they don't say stays.
func (in Inputs) merged(old, row plan.Input) plan.Input {
	old.Name = row.Name
	for field, set := range map[string]func(){
		Source: func() { old.Source = row.Source }, Stand: func() { old.Stand = row.Stand }, Riser: func() { old.Riser = row.Riser },
		Phantom: func() { old.Phantom = row.Phantom }, Note: func() { old.Note = row.Note },
	} {
		if in.sheet.layout.column(field) >= 0 {
			set()
		}
	}
	return old
}

// entry is where the rows of a list go: the inputs that they become, and the house's list beside that of an act.
type entry struct {
	act   plan.ActID
	plan  *plan.Plan
	own   map[int]plan.InputID
	house map[int]plan.Input
}

func newEntry(p *plan.Plan, act plan.ActID) *entry {
	en := &entry{act: act, plan: p, own: map[int]plan.InputID{}, house: map[int]plan.Input{}}
	for input := range p.Inputs.All() {
		switch {
		case input.Act == act:
			en.own[input.Number] = input.ID
		case input.Act == "":
			en.house[input.Number] = input
		}
	}
	return en
}

// same reports whether the house has an input of this number and name.
func (en *entry) same(row plan.Input) bool {
	house, found := en.house[row.Number]
	return found && strings.EqualFold(house.Name, row.Name)
}

// struck are the inputs of the house that an act with this list does without: those whose number the list has otherwise,
// and if it is all that the act has, those that it lacks. For all acts none is.
func (en *entry) struck(rows []InputRow, all bool) (ids []plan.InputID) {
	if en.act == "" {
		return nil
	}
	kept, said := map[int]bool{}, map[int]bool{}
	for _, row := range rows {
		said[row.Input.Number] = true
		kept[row.Input.Number] = en.own[row.Input.Number] == "" && en.same(row.Input)
	}
	for number, house := range en.house {
		if !kept[number] && (all || said[number]) {
			ids = append(ids, house.ID)
		}
	}
	slices.Sort(ids)
	return ids
}

// takeBack lets the act have an input of the house again that it struck.
func (en *entry) takeBack(e *plan.Edit, number int) {
	key := plan.StagePatch{Act: en.act, Input: en.house[number].ID}.Key()
	if row, found := e.Now().StagePatches.Get(key); found && row.Strike {
		plan.Drop[plan.StagePatch](e, key)
	}
}

// add adds an input, in an act plugged in where the house has its number.
func (en *entry) add(e *plan.Edit, row plan.Input) plan.InputID {
	row.Act = en.act
	house := en.house[row.Number]
	row.Snake, row.SnakeWay = house.Snake, house.SnakeWay
	id := e.AddInput(row)
	if patched, found := en.plan.StagePatches.Get(plan.StagePatch{Input: house.ID}.Key()); en.act != "" && found && patched.Device != "" {
		plan.Put(e, plan.StagePatch{Act: en.act, Input: id, Device: patched.Device, Socket: patched.Socket})
	}
	return id
}
