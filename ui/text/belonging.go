package text

import (
	"fmt"

	"stageloom/model/plan"
	"stageloom/model/words"
)

// Belonging says which devices an edit put into another position than before, by being moved into or out of its outline;
// blank where none, and where the position itself came or went.
func Belonging(before, after *plan.Plan) string {
	if before.Devices == after.Devices {
		return ""
	}
	var first string
	more := -1
	for device := range after.Devices.All() {
		old, stood := before.Device(device.ID)
		if !stood || old.Position == device.Position {
			continue
		}
		words := belongs(before, after, old, device)
		if words == "" {
			continue
		}
		if more++; more == 0 {
			first = words
		}
	}
	if more > 0 {
		first += fmt.Sprintf(" So it is with %s.", words.Counted(more, "more device", "more devices"))
	}
	return first
}

func belongs(before, after *plan.Plan, old, device plan.Device) string {
	into, in := after.Positions.Get(plan.Key(device.Position))
	from, was := after.Positions.Get(plan.Key(old.Position))
	switch {
	case in && device.Position != "" && before.Positions.Has(into.Key()):
		return fmt.Sprintf("%s now belongs to %s and moves with it.", device.Name, into.Name)
	case device.Position == "" && was:
		return fmt.Sprintf("%s no longer belongs to %s.", device.Name, from.Name)
	}
	return ""
}
