package find

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// Row searches the plan as one types; Enter shows what is found first, a click any of it.
func Row(host dialogs.Host, shows func(plan.Ref)) {
	var hits []text.Hit
	entry := dialogs.NewEntry(host)
	entry.SetPlaceHolder("name of a device, link, position or area, or tag of a cable")
	list := widget.NewList(
		func() int { return len(hits) },
		func() fyne.CanvasObject { return widget.NewLabel("") },
		func(i int, object fyne.CanvasObject) { object.(*widget.Label).SetText(hits[i].Words) },
	)
	d := dialogs.New(host, "Find", container.NewBorder(entry, nil, nil, nil, list))
	d.Closes(d.Hide)
	show := func(i int) {
		d.Hide()
		shows(hits[i].Row)
	}
	entry.OnChanged = func(typed string) {
		hits = text.Find(host.Desk().Plan(), typed)
		list.UnselectAll()
		list.Refresh()
	}
	entry.OnSubmitted = func(string) {
		if len(hits) > 0 {
			show(0)
		}
	}
	list.OnSelected = show
	d.Fit(dialogs.QuestionWidth, 420)
	host.Keys().Escapable(d.Hide)
	d.Show()
	dialogs.Focus(host, entry)
}
