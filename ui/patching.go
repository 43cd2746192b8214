package ui

import (
	"fyne.io/fyne/v2"

	"stageloom/model/plan"
	"stageloom/ui/patching"
	"stageloom/ui/text"
)

// newPatching hands the dialogs of the patch what they ask of the window.
func (w *window) newPatching() *patching.Dialogs {
	return &patching.Dialogs{
		Host: w, Do: w.do, ChannelsFollow: w.settings.ChannelsFollow,
		ActShown: func() plan.ActID { return w.drawer.ActShown() },
		Listed:   func() []plan.InputID { return w.drawer.Listed() },
		Chosen:   func() (patching.Chosen, bool) { return w.drawer.Chosen() },
		Keep:     func() bool { return w.drawer.Keep() },
		Rows:     func() []plan.Ref { return w.drawer.Rows() },
		Leave:    func() { w.drawer.Focus() },
		RowAt:    func(at fyne.Position) (plan.Ref, bool) { return w.plan.RowAt(at) },
		Carry:    func(words string, at fyne.Position) { w.sign.ShowAbove(words, at) },
		Hide:     func() { w.sign.Hide() },
	}
}

// askRehome moves the patch of a device, the selected one where there is one.
func (w *window) askRehome() { w.patching.Rehome(w.theDevice()) }

// askBoxDead takes everything off a device, the selected one where there is one.
func (w *window) askBoxDead() { w.patching.BoxDead(w.theDevice()) }

// theDevice is the selected one, blank where none is.
func (w *window) theDevice() plan.DeviceID {
	if devices := w.selectedDevices(); len(devices) > 0 {
		return devices[0]
	}
	return ""
}

// patchMenu is what can be done to the patch.
func (w *window) patchMenu() *fyne.Menu {
	follow := fyne.NewMenuItem("Channels stay with their inputs", func() {
		w.settings.SetChannelsFollow(!w.settings.ChannelsFollow())
		w.drawer.Fill()
		w.window.SetMainMenu(w.menu())
	})
	follow.Checked = w.settings.ChannelsFollow()
	menu := fyne.NewMenu("Patch", w.actItems()...)
	menu.Items = append(menu.Items, w.patchItems()...)
	unused := w.item("Hide what is not used", key(fyne.KeyG, control|shift), w.drawer.HideUnused)
	unused.Checked = w.settings.UnusedHidden()
	menu.Items = append(menu.Items,
		fyne.NewMenuItemSeparator(),
	)
	menu.Items = append(menu.Items, w.lineCheckItems()...)
	menu.Items = append(menu.Items,
		fyne.NewMenuItemSeparator(),
		follow,
		unused,
		fyne.NewMenuItem("Assign channels on the links", w.patching.GiveOut),
		fyne.NewMenuItem("Move the patch of a device…", w.askRehome),
		fyne.NewMenuItem("A box is dead…", w.askBoxDead),
		fyne.NewMenuItem("Swap two boxes…", func() { w.patching.SwapBoxes(w.theDevice()) }),
		fyne.NewMenuItem("Import an input list…", w.stockDialogs.ImportInputs),
	)
	return menu
}

// actItems choose the act that is shown, where there are several.
func (w *window) actItems() (items []*fyne.MenuItem) {
	shown := w.desk.Assessment().Patch.Shown()
	if len(shown) < 2 {
		return nil
	}
	choose := fyne.NewMenuItem("Act", nil)
	choose.ChildMenu = fyne.NewMenu("")
	for _, act := range shown {
		item := fyne.NewMenuItem(text.ActLabel(act), func() { w.drawer.ShowAct(act.Act.ID) })
		item.Checked = act.Act.ID == w.drawer.ActShown()
		choose.ChildMenu.Items = append(choose.ChildMenu.Items, item)
	}
	return []*fyne.MenuItem{
		choose,
		w.item("Next act", key(fyne.KeyPageDown, control), func() { w.drawer.NextAct(1) }),
		w.item("Previous act", key(fyne.KeyPageUp, control), func() { w.drawer.NextAct(-1) }),
		fyne.NewMenuItemSeparator(),
	}
}

// patchItems are what can be done to the selected rows of the patch.
func (w *window) patchItems() []*fyne.MenuItem {
	items := []*fyne.MenuItem{
		w.item("In order from here…", key(fyne.KeyK, control|shift), w.patching.FillChosen),
		fyne.NewMenuItem("Swap the two", w.patching.Swap),
		fyne.NewMenuItem("One socket or channel further", func() { w.patching.Shift(1) }),
		fyne.NewMenuItem("One socket or channel back", func() { w.patching.Shift(-1) }),
		w.item("First free socket or channel", key(fyne.KeyF, control|shift), w.patching.FirstFree),
		fyne.NewMenuItem("Move by an offset…", w.patching.Offset),
		w.item("Insert an input here…", key(fyne.KeyV, control|shift), w.patching.Insert),
		fyne.NewMenuItem("Sort by number", w.patching.Sort),
		w.item("Stereo pair, or part it", key(fyne.KeyT, control|shift), w.patching.Stereo),
		fyne.NewMenuItem(w.patching.ClearLabel(), w.patching.Clear),
	}
	if w.drawer.ActShown() != "" {
		items = append(items, fyne.NewMenuItem("Not used in this act", w.patching.Strike))
	}
	return items
}

func (w *window) hasSockets(id plan.DeviceID) bool {
	view := w.desk.Assessment().Patch
	return view.Sockets(id, false)+view.Sockets(id, true) > 0
}

// showSockets opens the sockets of the selected device.
func (w *window) showSockets() {
	id := w.selectedDevices()[0]
	w.drawer.ShowOnly("sockets", w.desk.Assessment().Patch.Name(id))
}
