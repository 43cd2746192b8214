package patch

import (
	"slices"

	"stageloom/model/plan"
)

// Unplug takes inputs off their sockets in one act: in the house they are not patched any more; an act strikes what it has
// from the house, and forgets what it says itself where the house has the input nowhere.
func Unplug(e *plan.Edit, act plan.ActID, inputs ...plan.InputID) error {
	for _, id := range inputs {
		w, err := newWork(e, act)
		if err != nil {
			return err
		}
		input, err := w.input(id)
		if err != nil {
			return err
		}
		Clear(e, act, id)
		if house := w.over.house; house != nil && (says(house.stage[id].Device, false) || input.Snake != "") || w.over.house == nil && input.Snake != "" {
			Strike(e, act, id)
		}
	}
	return nil
}

// AddAct adds an act at the end of the running list, on the stage of the one before, and returns it.
func AddAct(e *plan.Edit, name string) plan.ActID {
	row := plan.Act{Name: name, Order: 1}
	for act := range e.Now().Acts.All() {
		if act.Order >= row.Order {
			row.Order, row.Stage = act.Order+1, act.Stage
		}
	}
	row.Order = min(row.Order, mostActs)
	return e.AddAct(row)
}

// mostActs is the highest place in the running list.
const mostActs = 999

// MoveAct puts an act at a place of the running list, counted from 1, and numbers the list anew.
func MoveAct(e *plan.Edit, id plan.ActID, place int) error {
	acts := slices.Collect(e.Now().Acts.All())
	slices.SortStableFunc(acts, func(a, b plan.Act) int { return a.Order - b.Order })
	at := slices.IndexFunc(acts, func(a plan.Act) bool { return a.ID == id })
	if at < 0 {
		return refuse("there is no such act any more")
	}
	moved := acts[at]
	acts = slices.Delete(acts, at, at+1)
	acts = slices.Insert(acts, max(0, min(place-1, len(acts))), moved)
	for i, act := range acts {
		act.Order = i + 1
		plan.Put(e, act)
	}
	return nil
}

// Bring says which guest consoles an act brings, each at a drop or at none; those that it brought before and that are not
// named stay away from then on.
func Bring(e *plan.Edit, act plan.ActID, guests []plan.ActConsole) error {
	if !e.Now().Acts.Has(plan.Key(act)) {
		return refuse("a guest console belongs to an act; there is no such act any more")
	}
	for _, row := range slices.Collect(e.Now().ActConsoles.All()) {
		if row.Act == act {
			plan.Drop[plan.ActConsole](e, row.Key())
		}
	}
	for _, guest := range guests {
		guest.Act = act
		plan.Put(e, guest)
	}
	return nil
}
