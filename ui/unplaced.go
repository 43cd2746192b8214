package ui

import (
	"fmt"

	"stageloom/model/plan"
	"stageloom/ui/text"
)

// placeOrList puts a row on the plan, or into the list alone, as the equipment list says.
func (w *window) placeOrList(row text.EquipmentRow) {
	if w.equipment.InList() {
		w.list(row)
		return
	}
	w.placeInMiddle(row)
}

// list adds a device or a position that has no place on the ground, and selects it.
func (w *window) list(row text.EquipmentRow) {
	ref := plan.Ref{}
	w.do("Add "+row.Name, func(e *plan.Edit) error {
		if row.Position {
			ref = plan.Ref{Table: plan.PositionsTable, Key: plan.Key(e.AddPosition(plan.Position{Name: freePositionName(e.Now()), Unplaced: true}))}
			return nil
		}
		if err := w.use(e, row.Kind); err != nil {
			return err
		}
		ref = plan.Ref{Table: plan.DevicesTable, Key: plan.Key(e.AddDevice(plan.Device{Kind: row.Kind, Unplaced: true}))}
		return nil
	})
	if ref == (plan.Ref{}) {
		return
	}
	w.desk.Select(ref)
	name := nameOf(w.desk.Plan(), ref)
	if row.Position {
		w.notice.Say(name + " is a position without a place: devices belong to it by the field Position of theirs.")
		return
	}
	w.plan.Reveal(ref)
	w.notice.Say(name + " is in the list, without a place on the ground: type the metres of its links. Dragging it gives it a place.")
}

// takeOff takes the selected devices off the plan, back into the list.
func (w *window) takeOff() {
	var placed []plan.DeviceID
	for _, id := range w.selectedDevices() {
		if device, _ := w.desk.Plan().Device(id); !device.Unplaced {
			placed = append(placed, id)
		}
	}
	if len(placed) == 0 {
		w.notice.Say("Select devices that stand on the plan: they go back into the list, with their links.")
		return
	}
	first, _ := w.desk.Plan().Device(placed[0])
	what := first.Name
	if len(placed) > 1 {
		what = fmt.Sprintf("%d devices", len(placed))
	}
	err := w.desk.Do("Take "+what+" off the plan", func(e *plan.Edit) error { return e.TakeOff(placed...) })
	if err != nil {
		w.refused(err)
		return
	}
	w.notice.Say(what + map[bool]string{false: " is", true: " are"}[len(placed) > 1] + " in the list now, without a place. Links keep the metres that were typed; the others want them.")
}
