package desk

import (
	"slices"

	"stageloom/model/plan"
)

// Selection returns the selected rows in the order they were selected.
func (d *Desk) Selection() []plan.Ref { return slices.Clone(d.selection) }

// Selected reports whether a row is selected.
func (d *Desk) Selected(ref plan.Ref) bool { return slices.Contains(d.selection, whole(ref)) }

// Select makes these rows the selection; rows that do not exist are left out.
func (d *Desk) Select(refs ...plan.Ref) {
	var next []plan.Ref
	for _, ref := range refs {
		if ref = whole(ref); ref.Exists(d.Plan()) && !slices.Contains(next, ref) {
			next = append(next, ref)
		}
	}
	if slices.Equal(next, d.selection) {
		return
	}
	d.selection = next
	d.steps[d.at].again = false
	d.tell(Event{Selection: true})
}

// SelectedLinks returns the links that are selected, in the order they were selected.
func (d *Desk) SelectedLinks() []plan.LinkID { return selected[plan.LinkID](d, plan.LinksTable) }

// SelectedDevices returns the devices that are selected, in the order they were selected.
func (d *Desk) SelectedDevices() []plan.DeviceID {
	return selected[plan.DeviceID](d, plan.DevicesTable)
}

func selected[ID ~string](d *Desk, table string) (ids []ID) {
	for _, ref := range d.selection {
		if ref.Table == table {
			ids = append(ids, ID(ref.Key))
		}
	}
	return ids
}

// Toggle adds a row to the selection or takes it out.
func (d *Desk) Toggle(ref plan.Ref) {
	ref = whole(ref)
	if i := slices.Index(d.selection, ref); i >= 0 {
		d.Select(slices.Delete(d.Selection(), i, i+1)...)
		return
	}
	d.Select(append(d.Selection(), ref)...)
}

// whole drops the part: rows are selected, not pieces of them.
func whole(ref plan.Ref) plan.Ref {
	ref.Part = ""
	return ref
}

// prune takes rows that are gone out of the selection.
func (d *Desk) prune() {
	d.selection = slices.DeleteFunc(slices.Clone(d.selection), func(ref plan.Ref) bool { return !ref.Exists(d.Plan()) })
}

// SelectedMoving gathers what moves with the selected devices and positions.
func (d *Desk) SelectedMoving() plan.Moving {
	var devices []plan.DeviceID
	var positions []plan.PositionID
	for _, ref := range d.selection {
		switch ref.Table {
		case plan.DevicesTable:
			devices = append(devices, plan.DeviceID(ref.Key))
		case plan.PositionsTable:
			positions = append(positions, plan.PositionID(ref.Key))
		}
	}
	return plan.MovingWith(d.Plan(), devices, positions)
}
