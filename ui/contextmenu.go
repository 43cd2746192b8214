package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// deviceItems are what a right click on devices offers.
func (w *window) deviceItems() (items []*fyne.MenuItem) {
	devices := w.selectedDevices()
	switch {
	case len(devices) > 1:
		items = append(items, w.devices.ArrangeMenu(), fyne.NewMenuItem("Position round the selection", w.devices.Gather))
	case len(devices) == 1:
		items = append(items, fyne.NewMenuItem("Own kind from this…", w.devices.OwnKind))
		if w.hasSockets(devices[0]) {
			items = append(items, fyne.NewMenuItem("Sockets and patch", w.showSockets), fyne.NewMenuItem("Move its patch…", w.askRehome), fyne.NewMenuItem("It is dead: free sockets for its patch…", w.askBoxDead))
		}
	}
	if len(devices) > 0 {
		items = append(items, fyne.NewMenuItem("Take off the plan, into the list", w.devices.TakeOff))
	}
	return items
}

// contextMenu is what a right click on the plan offers about the selection.
func (w *window) contextMenu(at fyne.Position) {
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", w.contextItems()...), w.window.Canvas(), at)
}

// contextItems are the items of that menu in groups: figures, the way, looms and devices, names and copies, the plan.
func (w *window) contextItems() (items []*fyne.MenuItem) {
	group := func(more ...*fyne.MenuItem) {
		if len(more) > 0 && len(items) > 0 {
			items = append(items, fyne.NewMenuItemSeparator())
		}
		items = append(items, more...)
	}
	one := len(w.selectedLinks()) == 1
	if one {
		group(w.item("Lay cable…", key(fyne.KeyJ, control), w.laying.LayCable), w.item("Figures of the link…", key(fyne.KeyI, control), w.editLink))
	}
	group(w.wayItems(one)...)
	devices := w.deviceItems()
	if _, position := w.selectedPosition(); position {
		devices = append(devices, fyne.NewMenuItem("Take in the devices inside", w.takeIn))
	}
	group(devices...)
	if len(w.desk.Selection()) > 0 {
		group(keyItem("Rename…", fyne.KeyF2, w.rename), w.item("Copy", &fyne.ShortcutCopy{}, func() { w.copySelection() }),
			keyItem("Delete", fyne.KeyDelete, w.remove))
	}
	group(w.planItems()...)
	return items
}

// wayItems are what a right click offers about the way of a link and about looms.
func (w *window) wayItems(one bool) (items []*fyne.MenuItem) {
	add := func(label string, shortcut fyne.Shortcut, do func()) {
		items = append(items, w.item(label, shortcut, do))
	}
	if w.plan.OnWayPoint() {
		add("Remove way point", nil, w.plan.RemoveWayPoint)
	}
	if one {
		add("Add way point", nil, w.plan.AddWayPoint)
		add("Straighten", nil, w.laying.Straighten)
		add("Reverse", key(fyne.KeyR, control), w.laying.Reverse)
		add("Double", key(fyne.KeyU, control), w.laying.Double)
	}
	if w.laying.AboutLooms() {
		items = append(items, w.laying.LoomMenu())
	}
	return items
}

// planItems are what a right click offers about the plan itself.
func (w *window) planItems() (items []*fyne.MenuItem) {
	if len(w.desk.Selection()) > 0 {
		items = append(items, w.item("Select none", key(fyne.KeyA, control|shift), func() { w.desk.Select() }))
	}
	items = append(items, w.pasteItem(), w.item("Measure", nil, w.plan.Measure), w.item("Whole plan", key(fyne.Key0, control), w.plan.Fit))
	if name := w.desk.NextUndo(); name != "" {
		items = append(items, w.item("Undo "+name, &fyne.ShortcutUndo{}, w.undo))
	}
	return items
}
