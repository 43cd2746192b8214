package devices

import (
	"fyne.io/fyne/v2"

	"stageloom/model/plan"
)

// ArrangeMenu brings the selected devices into line.
func (k *Dialogs) ArrangeMenu() *fyne.MenuItem {
	item := fyne.NewMenuItem("Arrange devices", nil)
	item.ChildMenu = fyne.NewMenu("")
	add := func(label string, edit func(*plan.Edit, []plan.DeviceID) error) {
		item.ChildMenu.Items = append(item.ChildMenu.Items, fyne.NewMenuItem(label, func() {
			devices := k.Desk().SelectedDevices()
			k.Do("Arrange: "+label, func(e *plan.Edit) error { return edit(e, devices) })
		}))
	}
	for _, each := range []struct {
		label string
		how   plan.Alignment
	}{
		{"in a row", plan.AlignRow},
		{"in a column", plan.AlignColumn},
		{"to the left one", plan.AlignLeft},
		{"to the right one", plan.AlignRight},
		{"to the top one", plan.AlignTop},
		{"to the bottom one", plan.AlignBottom},
	} {
		add(each.label, func(e *plan.Edit, devices []plan.DeviceID) error { return e.Align(devices, each.how) })
	}
	add("evenly spaced", func(e *plan.Edit, devices []plan.DeviceID) error { return e.Distribute(devices) })
	return item
}

// Gather makes a position round the selected devices, which move with it from then on.
func (k *Dialogs) Gather() {
	devices := k.Desk().SelectedDevices()
	if len(devices) == 0 {
		k.Say("Select the devices that stand together.")
		return
	}
	var id plan.PositionID
	k.Do("New position", func(e *plan.Edit) (err error) {
		id, err = e.Gather(devices...)
		return err
	})
	k.Desk().Select(plan.Ref{Table: plan.PositionsTable, Key: plan.Key(id)})
}
