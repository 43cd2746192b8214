package drawer

import (
	"cmp"

	"fyne.io/fyne/v2"

	"stageloom/model/plan"
)

// pressed opens the table of a tab; the second press of a double click gives it the whole middle, or gives that back.
func (t *Drawer) pressed(name string, second bool) {
	if second && t.open == name {
		t.TakeWhole()
		return
	}
	t.Show(name)
}

// Whole reports whether the table that is open has the whole middle.
func (t *Drawer) Whole() bool { return t.open != "" && !t.split.Leading.Visible() }

// TakeWhole gives the table that is open the whole middle of the window, the second time it gives that back. Without one, it
// opens the table that was open last.
func (t *Drawer) TakeWhole() {
	if t.open == "" {
		t.Show(cmp.Or(t.last, plan.LinksTable))
	}
	t.setWhole(!t.Whole())
	t.Focus()
}

func (t *Drawer) setWhole(whole bool) {
	if t.open == "" || whole == t.Whole() {
		return
	}
	setShown(t.split.Leading, !whole)
	t.split.Refresh()
	t.changed()
}

func setShown(object fyne.CanvasObject, shown bool) {
	if shown {
		object.Show()
		return
	}
	object.Hide()
}

// changed tells that the drawer was opened, closed, or made another size.
func (t *Drawer) changed() {
	if t.Changed != nil {
		t.Changed()
	}
}
