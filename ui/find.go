package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// askFind searches the plan as one types; Enter shows what is found first, a click any of it.
func (w *window) askFind() {
	var hits []text.Hit
	entry := dialogs.NewField(w)
	entry.SetPlaceHolder("name of a device, link, position or area, or tag of a cable")
	list := widget.NewList(
		func() int { return len(hits) },
		func() fyne.CanvasObject { return widget.NewLabel("") },
		func(i int, object fyne.CanvasObject) { object.(*widget.Label).SetText(hits[i].Words) },
	)
	d := dialog.NewCustom("Find", "Close", container.NewBorder(entry, nil, nil, nil, list), w.window)
	show := func(i int) {
		d.Hide()
		w.show(hits[i].Row)
	}
	entry.OnChanged = func(typed string) {
		hits = text.Find(w.desk.Plan(), typed)
		list.UnselectAll()
		list.Refresh()
	}
	entry.OnSubmitted = func(string) {
		if len(hits) > 0 {
			show(0)
		}
	}
	list.OnSelected = show
	d.Resize(fyne.NewSize(460, 420))
	w.Keys().Escapable(d.Hide)
	d.Show()
	w.window.Canvas().Focus(entry)
}
