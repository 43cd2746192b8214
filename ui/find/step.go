package find

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"

	"stageloom/ui/dialogs"
)

// Step lists the steps of the history; a click goes there.
func Step(host dialogs.Host) {
	names, at := host.Desk().History()
	note := func(i int) string {
		switch {
		case i == at:
			return "now"
		case i > at:
			return "undone"
		}
		return ""
	}
	list := dialogs.NewPickList(host,
		func() int { return len(names) },
		func(i int) (words, small string, usable bool) { return names[i], note(i), i <= at },
		func(int) {},
	)
	list.Select(at)
	list.ScrollTo(at)
	list.OnSelected = func(i int) {
		host.Desk().GoTo(i)
		_, at = host.Desk().History()
		list.Refresh()
	}
	d := dialog.NewCustom("History: a click goes there", "Close", list, host.Window())
	d.Resize(fyne.NewSize(420, 460))
	host.Keys().Escapable(d.Hide)
	d.Show()
	dialogs.Focus(host, list)
}
