package find

import (
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
	d := dialogs.New(host, "History: a click goes there", list)
	d.Closes(d.Hide)
	d.Fit(dialogs.QuestionWidth, 460)
	host.Keys().Escapable(d.Hide)
	d.Show()
	dialogs.Focus(host, list)
}
