package ui

import (
	"errors"
	"fmt"
	"slices"

	"fyne.io/fyne/v2"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/patching"
	"stageloom/ui/table/sources"
	"stageloom/ui/text"
)

// patchChosen returns what is selected, where the open table is one of the patch.
func (w *window) patchChosen() (c patching.Chosen, patches bool) {
	grid := w.tables.grid()
	if grid == nil || !slices.Contains([]string{"patch", "sockets"}, w.tables.open) {
		return c, false
	}
	act := w.actNow()
	for _, ref := range grid.Sheet().Refs() {
		if ref.Table == plan.InputsTable {
			c.Inputs = append(c.Inputs, plan.InputID(ref.Key))
		}
		socket, found := sources.SocketAt(ref)
		if !found {
			continue
		}
		c.Sockets = append(c.Sockets, socket)
		for _, line := range act.Lines {
			if line.At == socket && !line.Struck {
				c.Inputs = append(c.Inputs, line.Input.ID)
			}
		}
	}
	if row, column := grid.Sheet().Cursor(); row >= 0 {
		c.Console, _ = sources.ConsoleOf(w.desk.Assessment(), w.actShown(), grid.Sheet().Columns()[column].Name)
	}
	return c, true
}

// newPatching hands the dialogs of the patch what they ask of the window.
func (w *window) newPatching() *patching.Dialogs {
	return &patching.Dialogs{
		Host: w, ActShown: w.actShown, Listed: w.listedInputs, ChannelsFollow: w.settings.ChannelsFollow,
		Leave: func() { w.tables.grid().Focus() },
	}
}

// listedInputs are the inputs of the open table as it is sorted and filtered, where it lists them, else those of the act.
func (w *window) listedInputs() (list []plan.InputID) {
	if w.tables.open == "patch" {
		sheet := w.tables.grid().Sheet()
		for row := range sheet.Len() {
			list = append(list, plan.InputID(sheet.Ref(row).Key))
		}
		return list
	}
	for _, line := range w.actNow().Lines {
		list = append(list, line.Input.ID)
	}
	return list
}

// askFill plugs inputs in order from what is selected on.
func (w *window) askFill() {
	chosen, patches := w.patchChosen()
	if !patches || len(chosen.Inputs) == 0 && len(chosen.Sockets) == 0 {
		w.notice.Say("Select the first input, or all of them, in the table of the patch first: Ctrl 7.")
		return
	}
	w.patching.Fill(chosen)
}

// askRehome moves the patch of a device, the selected one where there is one.
func (w *window) askRehome() {
	var of plan.DeviceID
	if devices := w.selectedDevices(); len(devices) > 0 {
		of = devices[0]
	}
	w.patching.Rehome(of)
}

// actNow is the patch of the act that is shown.
func (w *window) actNow() *patch.Act {
	act, _ := w.desk.Assessment().Patch.Act(w.actShown())
	return act
}

// channelNumbers are the channels of a console that have the chosen inputs.
func (w *window) channelNumbers(c patching.Chosen) (numbers []int) {
	act := w.actNow()
	for _, id := range c.Inputs {
		line, _ := act.Line(id)
		for _, channel := range line.Channels() {
			if channel.Console == c.Console && !slices.Contains(numbers, channel.Number) {
				numbers = append(numbers, channel.Number)
			}
		}
	}
	return numbers
}

// patchDo makes a step on what is selected in a table of the patch, or says what to select.
func (w *window) patchDo(name string, least int, edit func(e *plan.Edit, act plan.ActID, c patching.Chosen) error) {
	c, patches := w.patchChosen()
	if !patches || len(c.Inputs) < least {
		w.notice.Say(map[int]string{
			1: "Select inputs in the table of the patch first: Ctrl 7.", 2: "Select two inputs in the table of the patch first: Ctrl 7.",
		}[least])
		return
	}
	if grid := w.tables.grid(); !grid.Keep() {
		return
	}
	w.do(name+" "+w.inputsNamed(c.Inputs), func(e *plan.Edit) error { return edit(e, w.actShown(), c) })
}

// inputsNamed are inputs in the name of a step: "Kick in", "16 inputs".
func (w *window) inputsNamed(ids []plan.InputID) string {
	if len(ids) == 1 {
		input, _ := w.desk.Plan().Inputs.Get(plan.Key(ids[0]))
		return input.Name
	}
	return fmt.Sprintf("%d inputs", len(ids))
}

func (w *window) swapPatch() {
	w.patchDo("Swap", 2, func(e *plan.Edit, act plan.ActID, c patching.Chosen) error {
		if len(c.Inputs) != 2 {
			return fmt.Errorf("select two inputs to swap; %d are selected", len(c.Inputs))
		}
		if numbers := w.channelNumbers(c); c.Console != "" {
			if len(numbers) != 2 {
				return errors.New("one of the two has no channel there; type the number instead")
			}
			return patch.SwapChannels(e, act, c.Console, numbers[0], numbers[1])
		}
		return patch.Swap(e, act, c.Inputs[0], c.Inputs[1], w.settings.ChannelsFollow())
	})
}

// shiftPatch moves the selected inputs by sockets, or in the column of a console by channels.
func (w *window) shiftPatch(by int) {
	w.patchDo("Shift", 1, func(e *plan.Edit, act plan.ActID, c patching.Chosen) error {
		if c.Console != "" {
			return patch.ShiftChannels(e, act, c.Console, w.channelNumbers(c), by)
		}
		return patch.Shift(e, act, c.Inputs, by, w.settings.ChannelsFollow())
	})
}

func (w *window) sortPatch() {
	w.patchDo("Sort", 2, func(e *plan.Edit, act plan.ActID, c patching.Chosen) error {
		return patch.Sort(e, act, c.Inputs, w.settings.ChannelsFollow())
	})
}

// clearPatch lets an act have the selected inputs as the house has them; in the house it unplugs them.
func (w *window) clearPatch() {
	w.patchDo(w.clearLabel(), 1, func(e *plan.Edit, act plan.ActID, c patching.Chosen) error {
		if c.Console != "" {
			patch.ClearChannels(e, act, c.Console, w.channelNumbers(c)...)
			return nil
		}
		patch.Clear(e, act, c.Inputs...)
		return nil
	})
}

func (w *window) clearLabel() string {
	if w.actShown() == "" {
		return "Unplug"
	}
	return "As in the house"
}

func (w *window) strikePatch() {
	w.patchDo("Strike", 1, func(e *plan.Edit, act plan.ActID, c patching.Chosen) error {
		switch {
		case act == "":
			return errors.New("an act strikes what the house has; in the house it is unplugged")
		case c.Console != "":
			patch.StrikeChannels(e, act, c.Console, w.channelNumbers(c)...)
		default:
			patch.Strike(e, act, c.Inputs...)
		}
		return nil
	})
}

// giveOut gives slots to every channel that lacks them, and says what had none left.
func (w *window) giveOut() {
	given, refused := 0, []error(nil)
	w.do("Give out slots", func(e *plan.Edit) error {
		given, refused = patch.GiveOut(e)
		return nil
	})
	switch {
	case len(refused) > 0:
		w.notice.Warn(fmt.Sprintf("%d slots given out. %s", given, words.Sentence(refused[0])))
	case given == 0:
		w.notice.Say("Every channel has its slots already.")
	default:
		w.notice.Say(fmt.Sprintf("%d slots given out. Ctrl Z takes them back.", given))
	}
}

// patchMenu is what can be done to the patch.
func (w *window) patchMenu() *fyne.Menu {
	follow := fyne.NewMenuItem("Channels stay with their inputs", func() {
		w.settings.SetChannelsFollow(!w.settings.ChannelsFollow())
		w.tables.outdate()
		w.tables.fill()
		w.window.SetMainMenu(w.menu())
	})
	follow.Checked = w.settings.ChannelsFollow()
	menu := fyne.NewMenu("Patch", w.actItems()...)
	menu.Items = append(menu.Items, w.patchItems()...)
	menu.Items = append(menu.Items,
		fyne.NewMenuItemSeparator(),
		follow,
		fyne.NewMenuItem("Give out slots", w.giveOut),
		fyne.NewMenuItem("Move the patch of a device…", w.askRehome),
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
		item := fyne.NewMenuItem(text.ActLabel(act), func() { w.showAct(act.Act.ID) })
		item.Checked = act.Act.ID == w.actShown()
		choose.ChildMenu.Items = append(choose.ChildMenu.Items, item)
	}
	return []*fyne.MenuItem{
		choose,
		w.item("Next act", key(fyne.KeyPageDown, control), func() { w.nextAct(1) }),
		w.item("Previous act", key(fyne.KeyPageUp, control), func() { w.nextAct(-1) }),
		fyne.NewMenuItemSeparator(),
	}
}

// patchItems are what can be done to the selected rows of the patch.
func (w *window) patchItems() []*fyne.MenuItem {
	items := []*fyne.MenuItem{
		w.item("In order from here…", key(fyne.KeyK, control|shift), w.askFill),
		fyne.NewMenuItem("Swap the two", w.swapPatch),
		fyne.NewMenuItem("One socket or channel further", func() { w.shiftPatch(1) }),
		fyne.NewMenuItem("One socket or channel back", func() { w.shiftPatch(-1) }),
		fyne.NewMenuItem("Sort by number", w.sortPatch),
		fyne.NewMenuItem(w.clearLabel(), w.clearPatch),
	}
	if w.actShown() != "" {
		items = append(items, fyne.NewMenuItem("Strike from this act", w.strikePatch))
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
	w.tables.show("sockets")
	w.tables.grid().SetFilter(w.desk.Assessment().Patch.Name(id))
	w.tables.grid().Focus()
}
