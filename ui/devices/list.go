package devices

import (
	"fmt"

	"stageloom/model/plan"
	"stageloom/ui/text"
)

// list adds a device or a position that has no place on the ground, and selects it.
func (k *Dialogs) list(row text.EquipmentRow) {
	ref := plan.Ref{}
	k.Do("Add "+row.Name, func(e *plan.Edit) error {
		if row.Position {
			ref = plan.Ref{Table: plan.PositionsTable, Key: plan.Key(e.ListPosition())}
			return nil
		}
		if err := k.Use(e, row.Kind); err != nil {
			return err
		}
		ref = plan.Ref{Table: plan.DevicesTable, Key: plan.Key(e.AddDevice(plan.Device{Kind: row.Kind, Unplaced: true}))}
		return nil
	})
	if ref == (plan.Ref{}) {
		return
	}
	k.Desk().Select(ref)
	name := text.NameOf(k.Desk().Plan(), ref)
	if row.Position {
		k.Say(name + " is a position without a place: devices belong to it by the field Position of theirs.")
		return
	}
	k.Ground.Reveal(ref)
	k.Say(name + " is in the list, without a place on the ground: type the metres of its links. Dragging it gives it a place.")
}

// TakeOff takes the selected devices off the plan, back into the list.
func (k *Dialogs) TakeOff() {
	var placed []plan.DeviceID
	for _, id := range k.Desk().SelectedDevices() {
		if device, _ := k.Desk().Plan().Device(id); !device.Unplaced {
			placed = append(placed, id)
		}
	}
	if len(placed) == 0 {
		k.Say("Select devices that stand on the plan: they go back into the list, with their links.")
		return
	}
	first, _ := k.Desk().Plan().Device(placed[0])
	what := first.Name
	if len(placed) > 1 {
		what = fmt.Sprintf("%d devices", len(placed))
	}
	err := k.Desk().Do("Take "+what+" off the plan", func(e *plan.Edit) error { return e.TakeOff(placed...) })
	if err != nil {
		k.Refused(err)
		return
	}
	k.Say(what + map[bool]string{false: " is", true: " are"}[len(placed) > 1] + " in the list now, without a place. Links keep the metres that were typed; the others want them.")
}
