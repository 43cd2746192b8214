package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/plan"
	"stageloom/model/standards"
)

// wireStrip makes the run strip edit the cables of the selected link.
func (w *window) wireStrip() {
	w.strip.Reorder = func(order, place int) {
		w.onChain("Reorder cables", func(e *plan.Edit, link plan.LinkID) error { return e.MoveSegment(link, order, place) })
	}
	w.strip.Remove = func(order int) {
		w.onChain("Take a cable off", func(e *plan.Edit, link plan.LinkID) error { return e.RemoveSegment(link, order) })
	}
	w.strip.Menu = w.cableMenu
	w.strip.Leave = func() { w.window.Canvas().Focus(w.plan) }
}

// onChain edits the chain of the one selected link.
func (w *window) onChain(name string, edit func(*plan.Edit, plan.LinkID) error) {
	links := w.selectedLinks()
	if len(links) != 1 {
		return
	}
	w.do(name+" of "+w.linkNames(links), func(e *plan.Edit) error { return edit(e, links[0]) })
}

// cableMenu is what can be done to one cable of the strip.
func (w *window) cableMenu(order int, at fyne.Position) {
	item := func(label string, edit func(*plan.Edit, plan.LinkID) error) *fyne.MenuItem {
		return fyne.NewMenuItem(label, func() { w.onChain(label, edit) })
	}
	coupler := fyne.NewMenuItem("Coupler before it", nil)
	coupler.ChildMenu = fyne.NewMenu("", item("the plan's", func(e *plan.Edit, link plan.LinkID) error { return e.SetCoupler(link, order, "") }))
	for _, hardware := range standards.AllHardware() {
		coupler.ChildMenu.Items = append(coupler.ChildMenu.Items, item(hardware.Name, func(e *plan.Edit, link plan.LinkID) error {
			return e.SetCoupler(link, order, plan.HardwareID(hardware.Slug))
		}))
	}
	coupler.Disabled = order < 2
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu(fmt.Sprintf("Cable %d", order),
		item("Nearer", func(e *plan.Edit, link plan.LinkID) error { return e.MoveSegment(link, order, order-2) }),
		item("Further", func(e *plan.Edit, link plan.LinkID) error { return e.MoveSegment(link, order, order) }),
		coupler,
		item("Cut in the middle", func(e *plan.Edit, link plan.LinkID) error {
			return e.SplitSegment(link, order, e.Now().SegmentsOf(link)[order-1].Length/2)
		}),
		item("Join with the next", func(e *plan.Edit, link plan.LinkID) error { return e.JoinSegments(link, order) }),
		item("Take off", func(e *plan.Edit, link plan.LinkID) error { return e.RemoveSegment(link, order) }),
	), w.window.Canvas(), at)
}
