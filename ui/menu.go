package ui

import (
	"fmt"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stageloom/model/plan"
	"stageloom/ui/find"
	"stageloom/ui/manual"
	"stageloom/ui/settings"
)

const (
	control = fyne.KeyModifierShortcutDefault
	shift   = fyne.KeyModifierShift
)

// key is a shortcut with modifiers.
func key(name fyne.KeyName, modifier fyne.KeyModifier) fyne.Shortcut {
	return &desktop.CustomShortcut{KeyName: name, Modifier: modifier}
}

// item is a menu item with its shortcut. Menu shortcuts come before the focused field and even under a dialog, so
// each is routed: to the field where it has such a command, to nothing under a dialog, else to the plan.
func (w *window) item(label string, shortcut fyne.Shortcut, do func()) *fyne.MenuItem {
	m := fyne.NewMenuItem(label, w.routed(shortcut, do))
	m.Shortcut = shortcut
	return m
}

// keyItem is a menu item that names the key which does the same on the plan, where no menu has to ask for it.
func keyItem(label string, name fyne.KeyName, do func()) *fyne.MenuItem {
	m := fyne.NewMenuItem(label, do)
	m.Shortcut = key(name, 0)
	return m
}

func (w *window) routed(shortcut fyne.Shortcut, do func()) func() {
	return func() {
		w.tips.Dismiss()
		focused := w.window.Canvas().Focused()
		if field, ok := focused.(interface{ SelectedText() string }); ok && shortcut != nil {
			if takes, ok := field.(fyne.Shortcutable); ok && isFieldCommand(shortcut) {
				takes.TypedShortcut(w.withClipboard(shortcut))
				return
			}
		}
		if len(w.window.Canvas().Overlays().List()) > 0 {
			return
		}
		if own, ok := focused.(interface{ Command(fyne.Shortcut) bool }); ok && shortcut != nil && own.Command(shortcut) {
			return
		}
		w.keepTyped()
		w.beforeCommand(shortcut)
		do()
	}
}

// functionKey does what a function key says. The toolkit gives keys without Ctrl to what has the focus and to no menu.
func (w *window) functionKey(name fyne.KeyName) {
	if name == fyne.KeyF1 {
		w.showManual()
		return
	}
	if len(w.window.Canvas().Overlays().List()) > 0 {
		switch {
		case name == fyne.KeyEscape:
			w.Keys().GiveUp()
		case name == fyne.KeyReturn || name == fyne.KeyEnter:
			w.Keys().Submit()
		default:
			w.Keys().Own(name)
		}
		return
	}
	switch name {
	case fyne.KeyF2:
		w.rename()
	case fyne.KeyF4:
		w.focusCard()
	case fyne.KeyF5:
		w.askCommand()
	case fyne.KeyF6:
		w.focusStrip()
	case fyne.KeyF8:
		w.showStudy()
	case fyne.KeyF7:
		w.preferences.AskShown()
	case fyne.KeyF9:
		w.toggleDay()
	case fyne.KeyF11:
		w.drawer.TakeWhole()
	}
}

// undo takes the last step back, and with it what the notice said of it.
func (w *window) undo() {
	w.notice.Clear()
	w.desk.Undo()
}

// isFieldCommand reports whether a text field has this command of its own.
func isFieldCommand(shortcut fyne.Shortcut) bool {
	switch shortcut.(type) {
	case *fyne.ShortcutUndo, *fyne.ShortcutRedo, *fyne.ShortcutSelectAll, *fyne.ShortcutCopy, *fyne.ShortcutCut, *fyne.ShortcutPaste:
		return true
	}
	return false
}

func (w *window) menu() *fyne.MainMenu {
	return fyne.NewMainMenu(w.planMenu(), w.editMenu(), w.linksMenu(), w.stockMenu(), w.patchMenu(), w.tablesMenu(), w.viewMenu(), w.helpMenu())
}

func (w *window) planMenu() *fyne.Menu {
	recent := fyne.NewMenuItem("Recent", nil)
	recent.ChildMenu = fyne.NewMenu("")
	for _, path := range w.settings.Recent() {
		label := filepath.Base(path) + "   in " + filepath.Dir(path)
		recent.ChildMenu.Items = append(recent.ChildMenu.Items, fyne.NewMenuItem(label, func() {
			w.files.KeepFirst(func() { w.files.Open(path) })
		}))
	}
	recent.Disabled = len(recent.ChildMenu.Items) == 0
	quit := fyne.NewMenuItem("Quit", nil) // a nil action goes through the close intercept, which asks
	quit.IsQuit = true
	quit.Shortcut = key(fyne.KeyQ, control)
	return fyne.NewMenu("Plan",
		w.item("New", key(fyne.KeyN, control), w.files.New),
		w.item("Open…", key(fyne.KeyO, control), w.files.AskOpen),
		recent,
		fyne.NewMenuItem("Open the demo plan", w.files.OpenDemo),
		fyne.NewMenuItemSeparator(),
		w.item("Save", key(fyne.KeyS, control), w.files.Save),
		w.item("Save as…", key(fyne.KeyS, control|shift), w.files.SaveAs),
		fyne.NewMenuItemSeparator(),
		w.item("Print to PDF…", key(fyne.KeyP, control), w.printing.Print),
		w.item("Save as spreadsheet…", nil, w.printing.SaveSpreadsheet),
		w.item("Issue a revision…", nil, w.printing.Issue),
		fyne.NewMenuItemSeparator(),
		w.item("Settings…", key(fyne.KeyComma, control), w.preferences.AskSettings),
		fyne.NewMenuItemSeparator(),
		quit,
	)
}

func (w *window) editMenu() *fyne.Menu {
	undo := w.item("Undo "+w.desk.NextUndo(), &fyne.ShortcutUndo{}, w.undo)
	undo.Disabled = w.desk.NextUndo() == ""
	redo := w.item("Redo "+w.desk.NextRedo(), &fyne.ShortcutRedo{}, func() { w.desk.Redo() })
	redo.Disabled = w.desk.NextRedo() == ""
	return fyne.NewMenu("Edit", undo, redo,
		w.item("History…", key(fyne.KeyH, control), func() { find.Step(w) }),
		fyne.NewMenuItemSeparator(),
		w.item("Find…", key(fyne.KeyF, control), func() { find.Row(w, w.show) }),
		w.item("Find a kind of equipment", key(fyne.KeyE, control), func() { w.equipment.Focus(w.window.Canvas()) }),
		fyne.NewMenuItem("Import a list of devices…", w.stockDialogs.ImportDevices),
		w.item("Cut", &fyne.ShortcutCut{}, w.cutSelection),
		w.item("Copy", &fyne.ShortcutCopy{}, func() { w.copySelection() }),
		w.item("Paste", &fyne.ShortcutPaste{}, w.pasteClip),
		w.devices.ArrangeMenu(),
		fyne.NewMenuItem("Own kind from this…", w.devices.OwnKind),
		fyne.NewMenuItem("Position round the selection", w.devices.Gather),
		fyne.NewMenuItem("Take in the devices inside", w.takeIn),
		fyne.NewMenuItem("Take off the plan, into the list", w.devices.TakeOff),
		keyItem("Rename…", fyne.KeyF2, w.rename),
		keyItem("Fields of the card", fyne.KeyF4, w.focusCard),
		fyne.NewMenuItem("Delete", w.remove),
		fyne.NewMenuItemSeparator(),
		w.item("Select all devices", &fyne.ShortcutSelectAll{}, w.selectAll),
		w.laying.ChooseMenu(),
		w.item("Select none", key(fyne.KeyA, control|shift), func() { w.desk.Select() }),
		fyne.NewMenuItemSeparator(),
		w.item("Next link", key(fyne.KeyL, control), func() { w.step(plan.LinksTable, 1) }),
		w.item("Previous link", key(fyne.KeyL, control|shift), func() { w.step(plan.LinksTable, -1) }),
		w.item("Next device", key(fyne.KeyD, control), func() { w.step(plan.DevicesTable, 1) }),
		w.item("Previous device", key(fyne.KeyD, control|shift), func() { w.step(plan.DevicesTable, -1) }),
		w.item("Next position", key(fyne.KeyT, control), func() { w.step(plan.PositionsTable, 1) }),
		w.item("Next finding", key(fyne.KeyG, control), w.nextFinding),
	)
}

// linksMenu is what can be done to links beside the gestures on the plan.
func (w *window) linksMenu() *fyne.Menu {
	return fyne.NewMenu("Links",
		w.item("Link two ports…", key(fyne.KeyK, control), w.laying.LinkPorts),
		w.item("Figures of the link…", key(fyne.KeyI, control), w.editLink),
		w.item("Lay cable…", key(fyne.KeyJ, control), w.laying.LayCable),
		w.item("Replace cable…", key(fyne.KeyR, control|shift), w.laying.ReplaceCable),
		keyItem("Cables in the run strip", fyne.KeyF6, w.focusStrip),
		keyItem("Curves, reach and cures…", fyne.KeyF8, w.showStudy),
		w.item("Take last cable off", key(fyne.KeyJ, control|shift), w.laying.TakeLastOff),
		fyne.NewMenuItemSeparator(),
		w.item("Add way point", nil, w.plan.AddWayPoint),
		w.item("Straighten", nil, w.laying.Straighten),
		w.item("Reverse", key(fyne.KeyR, control), w.laying.Reverse),
		w.laying.LoomMenu(),
		w.item("Double", key(fyne.KeyU, control), w.laying.Double),
		fyne.NewMenuItem("Renumber", w.laying.Renumber),
		w.item("Pair as main and backup", key(fyne.KeyB, control), w.laying.Pair),
		fyne.NewMenuItemSeparator(),
		w.item("Lay a spare beside it", key(fyne.KeyU, control|shift), w.laying.AddSpare),
		w.item("Make it a laid spare", nil, w.laying.MakeSpare),
		w.item("Let a laid spare take over…", key(fyne.KeyB, control|shift), w.laying.AskTakeOver),
		w.item("Turn a take-over back…", nil, w.laying.AskTurnBack),
	)
}

func (w *window) viewMenu() *fyne.Menu {
	looks := fyne.NewMenuItem("Look", nil)
	looks.ChildMenu = fyne.NewMenu("")
	for _, look := range []string{settings.Light, settings.Dark, settings.Contrast} {
		m := fyne.NewMenuItem(look, func() { w.setLook(look) })
		m.Checked = w.settings.Look() == look
		looks.ChildMenu.Items = append(looks.ChildMenu.Items, m)
	}
	return fyne.NewMenu("View",
		w.item("Whole plan", key(fyne.Key0, control), w.plan.Fit),
		w.item("Larger", key(fyne.KeyPlus, control), func() { w.plan.Zoom(1.25) }),
		w.item("Smaller", key(fyne.KeyMinus, control), func() { w.plan.Zoom(0.8) }),
		w.item("Measure", nil, w.plan.Measure),
		w.snapItem(),
		w.levelMenu(),
		w.leftMenu(),
		keyItem("What is shown…", fyne.KeyF7, w.preferences.AskShown),
		fyne.NewMenuItem("Show everything", w.preferences.ShowAll),
		keyItem("Day view", fyne.KeyF9, w.toggleDay),
		fyne.NewMenuItemSeparator(),
		looks,
		w.unitMenu("Lengths", w.settings.Length(), w.settings.SetLength, settings.Metres, settings.Feet),
		w.unitMenu("Temperatures", w.settings.Temperature(), w.settings.SetTemperature, settings.Celsius, settings.Fahrenheit),
	)
}

func (w *window) unitMenu(label, now string, keep func(string), units ...string) *fyne.MenuItem {
	item := fyne.NewMenuItem(label, nil)
	item.ChildMenu = fyne.NewMenu("")
	for _, unit := range units {
		m := fyne.NewMenuItem(unit, func() {
			keep(unit)
			w.unitsChanged()
		})
		m.Checked = unit == now
		item.ChildMenu.Items = append(item.ChildMenu.Items, m)
	}
	return item
}

// snapItem switches snapping on and off: half a metre, or a foot.
func (w *window) snapItem() *fyne.MenuItem {
	label := "Snap to 0.5 m"
	if w.settings.Length() == settings.Feet {
		label = "Snap to 1 ft"
	}
	item := fyne.NewMenuItem(label, func() {
		w.settings.SetSnap(!w.settings.Snap())
		w.unitsChanged()
	})
	item.Checked = w.settings.Snap()
	return item
}

// levelMenu shows all levels alike, or one with the others faded.
func (w *window) levelMenu() *fyne.MenuItem {
	item := fyne.NewMenuItem("Level", nil)
	item.ChildMenu = fyne.NewMenu("")
	add := func(label string, id plan.LevelID) {
		m := fyne.NewMenuItem(label, func() {
			w.level = id
			w.plan.SetLevel(id)
			w.window.SetMainMenu(w.menu())
		})
		m.Checked = w.level == id
		item.ChildMenu.Items = append(item.ChildMenu.Items, m)
	}
	add("All levels", "")
	for level := range w.desk.Plan().Levels.All() {
		add(fmt.Sprintf("%s, %s", level.Name, w.units().Metres(level.Height)), level.ID)
	}
	item.Disabled = len(item.ChildMenu.Items) == 1
	return item
}

func (w *window) helpMenu() *fyne.Menu {
	return fyne.NewMenu("Help",
		keyItem("Find a command…", fyne.KeyF5, w.askCommand),
		keyItem("Manual", fyne.KeyF1, w.showManual),
		fyne.NewMenuItem("Pointer and keys", func() { w.manual.Show("keys") }),
		fyne.NewMenuItem("Cautions", func() { manual.ShowCautions(w) }),
		fyne.NewMenuItem("About Stageloom", func() { manual.ShowAbout(w, w.app.Metadata().Version) }),
	)
}
