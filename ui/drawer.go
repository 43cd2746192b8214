package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stageloom/model/plan"
	"stageloom/ui/drawer"
	"stageloom/ui/table/sources"
)

// newDrawer puts the drawer of the tables, closed yet, under the plan and its strip.
func (w *window) newDrawer(above fyne.CanvasObject) *drawer.Drawer {
	return drawer.New(drawer.Joined{
		Host: w, Settings: w.settings, Tips: w.tips, Plan: w.plan, Reveal: w.show, Patch: w.patching,
		Leave: func() { w.window.Canvas().Focus(w.plan) },
		Key:   w.functionKey, Shortcut: w.unclaimed, Remove: w.remove,
		NewRow: map[string]func(func(plan.Ref)){
			"house lines": w.askHouseLine, // only the venue knows their kinds and lengths
			"devices":     w.devices.Ask,  // only the user knows their kinds
		},
		Fixes: w.fixes.items, Fix: w.fixes.first,
		LinkItems: func() []*fyne.MenuItem {
			return []*fyne.MenuItem{
				fyne.NewMenuItem("Lay cable…", w.laying.LayCable),
				fyne.NewMenuItem("Figures of the link…", w.editLink),
				fyne.NewMenuItem("Reverse", w.laying.Reverse),
			}
		},
		PatchItems: w.patchItems,
		Changed: func() {
			w.footWanted = false
			w.showSelection()
		},
		ActChanged: func() { w.window.SetMainMenu(w.menu()) },
	}, above)
}

// unclaimed are key combinations that neither the menu nor the table has.
func (w *window) unclaimed(shortcut fyne.Shortcut) {
	if sh, ok := shortcut.(*desktop.CustomShortcut); ok && sh.KeyName == fyne.KeyZ && sh.Modifier == control|shift {
		w.desk.Redo()
	}
}

// tablesMenu opens and closes the tables.
func (w *window) tablesMenu() *fyne.Menu {
	digits := []fyne.KeyName{fyne.Key1, fyne.Key2, fyne.Key3, fyne.Key4, fyne.Key5, fyne.Key6, fyne.Key7, fyne.Key8, fyne.Key9}
	menu := fyne.NewMenu("Tables")
	for i, sheet := range sources.All() {
		open := func() { w.drawer.Toggle(sheet.Name) }
		item := fyne.NewMenuItem(sheet.Title, open)
		if i < 2*len(digits) { // the first nine by Ctrl, the others by Ctrl and Shift
			item = w.item(sheet.Title, key(digits[i%len(digits)], []fyne.KeyModifier{control, control | shift}[i/len(digits)]), open)
		}
		menu.Items = append(menu.Items, item)
	}
	filter := fyne.NewMenuItem("Filter rows   Ctrl F in a table", w.drawer.FocusFilter)
	whole := fyne.NewMenuItem("Over the whole middle   F11", w.drawer.TakeWhole)
	whole.Checked = w.drawer.Whole()
	menu.Items = append(menu.Items, fyne.NewMenuItemSeparator(), filter, whole, fyne.NewMenuItem("Close the tables", w.drawer.Shut))
	return menu
}
