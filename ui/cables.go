package ui

import (
	"errors"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/plan"
	"stageloom/model/standards"
	"stageloom/model/words"
	"stageloom/ui/strip"
	"stageloom/ui/text"
)

// wireStrip makes the run strip edit the cables of the selected link.
func (w *window) wireStrip() {
	w.strip.Do = w.change
	w.strip.Try = w.try
	w.strip.Menu = w.cableMenu
	w.strip.Couplers = w.couplerMenu
	w.strip.Choose = w.askCableFor
	w.strip.Open = func(c strip.Change) { w.soon(func() { w.askCableFor(c) }) }
	w.strip.Leave = func() { w.window.Canvas().Focus(w.plan) }
	w.strip.Key = w.functionKey
}

// onChain edits the chain of the one selected link.
func (w *window) onChain(name string, edit func(*plan.Edit, plan.LinkID) error) {
	links := w.selectedLinks()
	if len(links) != 1 {
		return
	}
	w.do(name+" of "+w.linkNames(links), func(e *plan.Edit) error { return edit(e, links[0]) })
}

// change makes a change of the strip in the selected link.
func (w *window) change(c strip.Change) { w.onChain(c.Name(), c.Make) }

// try shows the figures of the selected link as they would be after a change, and says them in few words; the zero
// change shows the plan's again.
func (w *window) try(c strip.Change) string {
	links := w.selectedLinks()
	if len(links) != 1 {
		return ""
	}
	return w.tryIn(links[0], c)
}

func (w *window) tryIn(link plan.LinkID, c strip.Change) string {
	w.preview = text.Preview{}
	said := ""
	if c.Doing != strip.Nothing {
		b, err := c.Try(w.desk.Plan(), link)
		if err != nil {
			said = words.Sentence(reason(err))
		} else {
			w.preview.Budgets = append(w.preview.Budgets, b)
			said = strip.Words(b, w.units().Length)
		}
	}
	w.tellWhole(w.desk.Assessment())
	w.showCard()
	return said
}

// reason is a refusal without the words that nothing was changed: nothing was tried in earnest yet.
func reason(err error) error {
	if text, refused := strings.CutPrefix(err.Error(), plan.ErrRefused.Error()+": "); refused {
		return errors.New(text)
	}
	return err
}

// cableMenu is what can be done to one cable of the strip.
func (w *window) cableMenu(order int, at fyne.Position) {
	item := func(label string, do func()) *fyne.MenuItem { return fyne.NewMenuItem(label, do) }
	doing := func(label string, c strip.Change) *fyne.MenuItem { return item(label, func() { w.change(c) }) }
	asking := func(label string, c strip.Change) *fyne.MenuItem { return item(label, func() { w.askCableFor(c) }) }
	coupler := item("Coupler before it   C", nil)
	coupler.ChildMenu = w.couplersOf(order)
	coupler.Disabled = order < 2
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu(fmt.Sprintf("Cable %d", order),
		asking("Replace…   R", strip.Change{Doing: strip.Replace, Order: order}),
		asking("Lay one before it…   B", strip.Change{Doing: strip.Insert, Place: order - 1}),
		asking("Lay one after it…   A", strip.Change{Doing: strip.Insert, Place: order}),
		fyne.NewMenuItemSeparator(),
		doing("Nearer   Up", strip.Change{Doing: strip.Move, Order: order, Place: order - 2}),
		doing("Further   Down", strip.Change{Doing: strip.Move, Order: order, Place: order}),
		coupler,
		item("Cut…   S", func() { w.focusStrip(); w.strip.BeginCut(order) }),
		doing("Join with the next   J", strip.Change{Doing: strip.Join, Order: order}),
		doing("Take off   Delete", strip.Change{Doing: strip.Remove, Order: order}),
	), w.window.Canvas(), at)
}

// couplerMenu offers the couplers before a cable.
func (w *window) couplerMenu(order int, at fyne.Position) {
	widget.ShowPopUpMenuAtPosition(w.couplersOf(order), w.window.Canvas(), at)
}

func (w *window) couplersOf(order int) *fyne.Menu {
	now := plan.HardwareID("")
	if links := w.selectedLinks(); len(links) == 1 {
		if chain := w.desk.Plan().SegmentsOf(links[0]); order <= len(chain) {
			now = chain[order-1].Coupler
		}
	}
	item := func(label string, id plan.HardwareID) *fyne.MenuItem {
		m := fyne.NewMenuItem(label, func() {
			w.onChain("Coupler", func(e *plan.Edit, link plan.LinkID) error { return e.SetCoupler(link, order, id) })
		})
		m.Checked = id == now
		return m
	}
	menu := fyne.NewMenu("Coupler before cable "+fmt.Sprint(order), item("the plan's", ""))
	for _, hardware := range standards.AllHardware() {
		menu.Items = append(menu.Items, item(hardware.Name, plan.HardwareID(hardware.Slug)))
	}
	return menu
}
