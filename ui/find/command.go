package find

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// Commands are all items of a menu with what they do, in the order of the menu; quit is what an item does that quits and
// has nothing of its own to do.
func Commands(menu *fyne.MainMenu, quit func()) (all []text.Command, do []func()) {
	var walk func(in string, items []*fyne.MenuItem)
	walk = func(in string, items []*fyne.MenuItem) {
		for _, item := range items {
			if item.IsSeparator {
				continue
			}
			if item.ChildMenu != nil {
				if !item.Disabled {
					walk(in+", "+item.Label, item.ChildMenu.Items)
				}
				continue
			}
			name, keys, named := strings.Cut(item.Label, "   ")
			if !named || item.Shortcut != nil {
				name, keys = item.Label, shortcutWords(item.Shortcut)
			}
			if item.Checked {
				name = text.Ticked + name
			}
			act := item.Action
			if item.IsQuit && act == nil {
				act = quit
			}
			all = append(all, text.Command{Name: strings.TrimSpace(name), In: in, Keys: keys, Ready: !item.Disabled && act != nil})
			do = append(do, act)
		}
	}
	for _, menu := range menu.Items {
		walk(menu.Label, menu.Items)
	}
	return all, do
}

// shortcutWords names keys as the list of keys does: "Ctrl Shift S".
func shortcutWords(shortcut fyne.Shortcut) string {
	switch sh := shortcut.(type) {
	case *fyne.ShortcutUndo:
		return "Ctrl Z"
	case *fyne.ShortcutRedo:
		return "Ctrl Y"
	case *fyne.ShortcutCut:
		return "Ctrl X"
	case *fyne.ShortcutCopy:
		return "Ctrl C"
	case *fyne.ShortcutPaste:
		return "Ctrl V"
	case *fyne.ShortcutSelectAll:
		return "Ctrl A"
	case *desktop.CustomShortcut:
		words := ""
		if sh.Modifier&fyne.KeyModifierShortcutDefault != 0 {
			words = "Ctrl "
		}
		if sh.Modifier&fyne.KeyModifierShift != 0 {
			words += "Shift "
		}
		return words + map[fyne.KeyName]string{
			fyne.KeyPlus: "+", fyne.KeyMinus: "−", fyne.KeyPageDown: "Page Down", fyne.KeyPageUp: "Page Up",
		}[sh.KeyName] + plainKey(sh.KeyName)
	}
	return ""
}

// plainKey is the name of a key that is called what is printed on it.
func plainKey(name fyne.KeyName) string {
	if strings.HasPrefix(string(name), "F") || name == fyne.KeyDelete {
		return string(name)
	}
	if len(name) == 1 && name != fyne.KeyPlus && name != fyne.KeyMinus {
		return string(name)
	}
	return ""
}

// mostTold is how much of what was typed is said again.
const mostTold = 40

// commandDialog is the list of commands while it is open.
type commandDialog struct {
	dialogs.Host
	all    []text.Command
	do     []func()
	places []int
	at     int
	before fyne.Focusable
	entry  *dialogs.SearchEntry
	list   *dialogs.PickList
	told   *widget.Label
	none   *widget.Label // stands where the list is empty
	dialog *dialogs.Dialog
}

// Command lists commands with what they do; what is typed leaves those that hold it, Enter does the one under the hand.
func Command(host dialogs.Host, all []text.Command, do []func()) {
	d := &commandDialog{Host: host, all: all, do: do, before: host.Window().Canvas().Focused(), told: widget.NewLabel(""), none: widget.NewLabel("")}
	d.places = text.FindCommands(d.all, "")
	d.entry = dialogs.NewSearchEntry(d, d.move)
	d.entry.SetPlaceHolder("what to do: print, loom, feet …")
	d.entry.OnChanged = d.search
	d.entry.OnSubmitted = func(string) { d.run() }
	d.told.Importance = widget.LowImportance
	d.none.Wrapping = fyne.TextWrapWord
	d.list = dialogs.NewPickList(d, func() int { return len(d.places) }, d.row, func(i int) { d.at = i })
	d.list.Shortcut = func(i int) string { return d.all[d.places[i]].Keys }
	d.dialog = dialogs.New(d, "Commands", container.NewBorder(d.entry, d.told, nil, nil, container.NewStack(d.list, d.none)))
	does := dialogs.NewAnswer(d, "Do it", d.run)
	does.Importance = widget.HighImportance
	d.dialog.SetButtons([]fyne.CanvasObject{dialogs.NewAnswer(d, "Close", d.hide), does})
	d.dialog.Fit(dialogs.FormWidth, 520)
	d.Keys().Escapable(d.hide)
	d.dialog.Show()
	d.search("")
	dialogs.Focus(d, d.entry)
}

func (d *commandDialog) row(i int) (words, note string, ready bool) {
	c := d.all[d.places[i]]
	return c.Name, c.In, c.Ready
}

// hide gives the focus back to what had it.
func (d *commandDialog) hide() {
	d.dialog.Hide()
	if d.before != nil {
		dialogs.Focus(d, d.before)
	}
}

// run does the command under the hand, once the list is gone: under a dialog a command does nothing.
func (d *commandDialog) run() {
	if len(d.places) == 0 {
		return
	}
	place := d.places[d.at]
	if !d.all[place].Ready {
		d.told.SetText(d.all[place].Name + " has nothing to work on now.")
		return
	}
	d.hide()
	d.do[place]()
}

func (d *commandDialog) search(typed string) {
	d.places, d.at = text.FindCommands(d.all, typed), 0
	d.list.UnselectAll()
	d.list.Refresh()
	if len(d.places) == 0 {
		d.none.SetText(fmt.Sprintf("No command holds “%s”. Fewer or other words may: a word of its name, of its menu, or its shortcut.", plan.ClippedTo(typed, mostTold)))
		d.told.SetText("")
		return
	}
	d.none.SetText("")
	d.list.Select(0)
	d.told.SetText(fmt.Sprintf("%d of %d. Enter does it.", len(d.places), len(d.all)))
}

func (d *commandDialog) move(by int) {
	if len(d.places) > 0 {
		d.list.Select(max(0, min(d.at+by, len(d.places)-1)))
	}
}
