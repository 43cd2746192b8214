package ui

import (
	"fmt"

	"fyne.io/fyne/v2"

	"stageloom/model/budget"
	"stageloom/model/catalogue"
	"stageloom/model/plan"
	"stageloom/ui/text"
)

// chooseMenu selects by what rows have in common.
func (w *window) chooseMenu() *fyne.MenuItem {
	item := fyne.NewMenuItem("Select links", nil)
	item.ChildMenu = fyne.NewMenu("")
	add := func(label string, picked func(plan.Link, budget.Budget) bool) {
		item.ChildMenu.Items = append(item.ChildMenu.Items, fyne.NewMenuItem(label, func() { w.chooseLinks(picked) }))
	}
	for _, grade := range append(budget.Standings(), budget.Ungraded) {
		add(text.GradeWord(grade), func(_ plan.Link, b budget.Budget) bool { return b.Standing() == grade })
	}
	item.ChildMenu.Items = append(item.ChildMenu.Items, fyne.NewMenuItemSeparator())
	named := map[plan.TransportID]bool{}
	for _, b := range w.desk.Assessment().Budgets {
		if !named[b.Transport] {
			named[b.Transport] = true
			add(b.TransportName, func(link plan.Link, _ budget.Budget) bool { return link.Transport == b.Transport })
		}
	}
	item.ChildMenu.Items = append(item.ChildMenu.Items, fyne.NewMenuItemSeparator())
	add("too short", func(_ plan.Link, b budget.Budget) bool { return b.TooShort() })
	add("at the selected devices", func(link plan.Link, _ budget.Budget) bool {
		return w.desk.Selected(plan.Ref{Table: plan.DevicesTable, Key: plan.Key(link.From)}) || w.desk.Selected(plan.Ref{Table: plan.DevicesTable, Key: plan.Key(link.To)})
	})
	for loom := range w.desk.Plan().Looms.All() {
		add("in loom "+loom.Name, func(link plan.Link, _ budget.Budget) bool { return link.Loom == loom.ID })
	}
	return item
}

func (w *window) chooseLinks(picked func(plan.Link, budget.Budget) bool) {
	var refs []plan.Ref
	for _, link := range w.desk.Assessment().Links() {
		if b, found := w.desk.Assessment().Budget(link.ID); found && picked(link, b) {
			refs = append(refs, plan.RefOf(link))
		}
	}
	if len(refs) == 0 {
		w.notice.Say("No link is like that.")
		return
	}
	w.desk.Select(refs...)
}

// alignMenu brings the selected devices into line.
func (w *window) alignMenu() *fyne.MenuItem {
	item := fyne.NewMenuItem("Arrange devices", nil)
	item.ChildMenu = fyne.NewMenu("")
	add := func(label string, edit func(*plan.Edit, []plan.DeviceID) error) {
		item.ChildMenu.Items = append(item.ChildMenu.Items, fyne.NewMenuItem(label, func() {
			devices := w.selectedDevices()
			w.do("Arrange: "+label, func(e *plan.Edit) error { return edit(e, devices) })
		}))
	}
	for _, each := range []struct {
		label string
		how   plan.Alignment
	}{
		{"in a row", plan.AlignRow},
		{"in a column", plan.AlignColumn},
		{"to the left one", plan.AlignLeft},
		{"to the right one", plan.AlignRight},
		{"to the top one", plan.AlignTop},
		{"to the bottom one", plan.AlignBottom},
	} {
		add(each.label, func(e *plan.Edit, devices []plan.DeviceID) error { return e.Align(devices, each.how) })
	}
	add("evenly spaced", func(e *plan.Edit, devices []plan.DeviceID) error { return e.Distribute(devices) })
	return item
}

func (w *window) selectedDevices() (devices []plan.DeviceID) {
	for _, ref := range w.desk.Selection() {
		if ref.Table == plan.DevicesTable {
			devices = append(devices, plan.DeviceID(ref.Key))
		}
	}
	return devices
}

// renumber names the selected links, or all, L01, L02, … in the order they are read.
func (w *window) renumber() {
	links := w.selectedLinks()
	if len(links) == 0 {
		for _, link := range w.desk.Assessment().Links() {
			links = append(links, link.ID)
		}
	}
	kept := 0
	for _, id := range links {
		if link, found := w.desk.Plan().Link(id); found && w.desk.Plan().WasIssued(link) {
			kept++
		}
	}
	if err := w.desk.Do("Renumber links", func(e *plan.Edit) error { return e.Renumber(links) }); err != nil {
		w.refused(err)
	} else if kept > 0 {
		w.notice.Say(fmt.Sprintf("%d of these links stood on an issued revision and kept their names, which are on the crew's paper.", kept))
	}
}

// duplicate makes a second link between the devices of the selected one, on the next ports that fit, with its way and
// its cables by kind and length.
func (w *window) duplicate() {
	links := w.selectedLinks()
	if len(links) != 1 {
		w.notice.Say("Select one link to double it.")
		return
	}
	p := w.desk.Plan()
	link, _ := p.Link(links[0])
	twin, found := catalogue.TwinOf(p, link)
	if !found {
		w.notice.Say("No two free ports of " + nameOf(p, plan.Ref{Table: plan.DevicesTable, Key: plan.Key(link.From)}) + " and " +
			nameOf(p, plan.Ref{Table: plan.DevicesTable, Key: plan.Key(link.To)}) + " fit each other.")
		return
	}
	var id plan.LinkID
	w.do("Double "+link.Name, func(e *plan.Edit) error {
		id = e.AddLink(twin)
		e.SetPoints(id, append([]plan.LinkPoint(nil), p.PointsOf(link.ID)...))
		var segments []plan.Segment
		for _, segment := range p.SegmentsOf(link.ID) {
			if reel, found := p.Reels.Get(plan.Key(segment.Reel)); found {
				segment.Reel, segment.Kind, segment.Length = "", reel.Kind, reel.Length
			}
			if segment.HouseLine == "" {
				segments = append(segments, segment)
			}
		}
		e.SetSegments(id, segments)
		return nil
	})
	w.desk.Select(plan.Ref{Table: plan.LinksTable, Key: plan.Key(id)})
}
