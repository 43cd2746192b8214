package ui

import (
	"fyne.io/fyne/v2"

	"stageloom/model/plan"
)

// leftMenu makes what is done on site faint, up to a step, so that what is left stands out.
func (w *window) leftMenu() *fyne.MenuItem {
	item := fyne.NewMenuItem("Left on site", nil)
	item.ChildMenu = fyne.NewMenu("")
	add := func(label, step string) {
		m := fyne.NewMenuItem(label, func() {
			w.undone = step
			w.plan.SetUndone(step)
			w.window.SetMainMenu(w.menu())
		})
		m.Checked = w.undone == step
		item.ChildMenu.Items = append(item.ChildMenu.Items, m)
	}
	add("All links", "")
	for _, step := range plan.Steps() {
		add("What is not "+step+" yet", step)
	}
	return item
}
