package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"stageloom/ui/panel"
)

// commands are all items of the menus with what they do, in the order of the menus.
func (w *window) commands() (all []panel.Command, do []func()) {
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
				name = "✓ " + name
			}
			act := item.Action
			if item.IsQuit && act == nil {
				act = w.close
			}
			all = append(all, panel.Command{Name: strings.TrimSpace(name), In: in, Keys: keys, Ready: !item.Disabled && act != nil})
			do = append(do, act)
		}
	}
	for _, menu := range w.menu().Items {
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
		if sh.Modifier&control != 0 {
			words = "Ctrl "
		}
		if sh.Modifier&shift != 0 {
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
	if len(name) == 1 && name != fyne.KeyPlus && name != fyne.KeyMinus {
		return string(name)
	}
	return ""
}

// searchField is a field above a list: Up, Down and the page keys go along the list while one types.
type searchField struct {
	field
	move func(by int)
}

// TypedKey implements fyne.Focusable.
func (f *searchField) TypedKey(event *fyne.KeyEvent) {
	const page = 8
	by, known := map[fyne.KeyName]int{fyne.KeyDown: 1, fyne.KeyUp: -1, fyne.KeyPageDown: page, fyne.KeyPageUp: -page}[event.Name]
	if known {
		f.move(by)
		return
	}
	f.field.TypedKey(event)
}

// askCommand lists what the window can do; what is typed leaves those that hold it, Enter does the one under the hand.
func (w *window) askCommand() {
	before := w.window.Canvas().Focused()
	all, do := w.commands()
	places, at := panel.FindCommands(all, ""), 0
	entry := &searchField{field: field{window: w}}
	entry.ExtendBaseWidget(entry)
	entry.SetPlaceHolder("what to do: print, loom, feet …")
	told := widget.NewLabel("")
	told.Importance = widget.LowImportance
	var d *dialog.CustomDialog
	list := w.newPickList(
		func() int { return len(places) },
		func(i int) (words, note string, ready bool) {
			c := all[places[i]]
			return c.Name, strings.TrimSpace(c.In + "   " + c.Keys), c.Ready
		},
		func(i int) { at = i },
	)
	hide := func() {
		d.Hide()
		if before != nil {
			w.window.Canvas().Focus(before)
		}
	}
	run := func() {
		switch {
		case len(places) == 0:
		case !all[places[at]].Ready:
			told.SetText(all[places[at]].Name + " has nothing to work on now.")
		default:
			hide() // a command does nothing under a dialog
			do[places[at]]()
		}
	}
	tell := func() {
		list.UnselectAll()
		list.Refresh()
		if at = 0; len(places) > 0 {
			list.Select(0)
		}
		told.SetText(map[bool]string{true: "No command holds these words.", false: fmt.Sprintf("%d of %d. Enter does it.", len(places), len(all))}[len(places) == 0])
	}
	entry.move = func(by int) {
		if len(places) > 0 {
			list.Select(max(0, min(at+by, len(places)-1)))
		}
	}
	entry.OnChanged = func(text string) {
		places = panel.FindCommands(all, text)
		tell()
	}
	entry.OnSubmitted = func(string) { run() }
	d = dialog.NewCustomWithoutButtons("Commands", container.NewBorder(entry, told, nil, nil, list), w.window)
	does := w.newAnswer("Do it", run)
	does.Importance = widget.HighImportance
	d.SetButtons([]fyne.CanvasObject{w.newAnswer("Close", hide), does})
	d.Resize(fyne.NewSize(620, 520))
	w.escapable(hide)
	d.Show()
	tell()
	w.window.Canvas().Focus(entry)
}
