package ui

import (
	"fmt"

	"stageloom/model/plan"
)

// takeIn makes the devices inside the selected position's outline belong to it, as one step. Which they are is told as
// for a device that is moved in.
func (w *window) takeIn() {
	position, found := w.selectedPosition()
	if !found {
		w.notice.Say("Select one position: devices inside its outline then belong to it and move with it.")
		return
	}
	var taken []plan.DeviceID
	err := w.desk.Do("Take devices into "+position.Name, func(e *plan.Edit) error { taken = e.TakeIn(position.ID); return nil })
	switch {
	case err != nil:
		w.refused(err)
	case len(taken) == 0:
		w.notice.Say(fmt.Sprintf("There is nothing to take in: each device inside %s belongs to it, or stands inside the position that it belongs to.", position.Name))
	}
}

// selectedPosition is the one position that is selected.
func (w *window) selectedPosition() (plan.Position, bool) {
	selection := w.desk.Selection()
	if len(selection) != 1 || selection[0].Table != plan.PositionsTable {
		return plan.Position{}, false
	}
	return w.desk.Plan().Positions.Get(selection[0].Key)
}

// tellTaken says how many devices a position took in when it was placed; nothing where none.
func (w *window) tellTaken(position string, taken []plan.DeviceID) {
	switch len(taken) {
	case 0:
		return
	case 1:
		device, _ := w.desk.Plan().Device(taken[0])
		w.notice.Say(fmt.Sprintf("%s stands inside %s and moves with it from now on.", device.Name, position))
	default:
		w.notice.Say(fmt.Sprintf("%d devices stand inside %s and move with it from now on.", len(taken), position))
	}
}
