package ui

import (
	"fyne.io/fyne/v2"

	"stageloom/model/checks"
	"stageloom/model/plan"
	"stageloom/ui/table"
	"stageloom/ui/table/sources"
)

// openRow shows a row on the plan and gives the plan the focus; what is not drawn is shown by the link that it lies in
// or the box that it is plugged into.
func (w *window) openRow(source table.Source, row int) {
	for _, ref := range append(append(source.Shows(row), w.linksWith(source.Ref(row))...), w.boxesOf(source.Ref(row))...) {
		if _, drawn := w.plan.Where(ref); drawn {
			w.show(ref)
			return
		}
	}
	w.notice.Say("The " + source.RowName(row) + " is not drawn on the plan.")
}

// linksWith are the links in which a reel or a house line lies.
func (w *window) linksWith(ref plan.Ref) (refs []plan.Ref) {
	for segment := range w.desk.Plan().Segments.All() {
		if ref.Table == plan.ReelsTable && plan.Key(segment.Reel) == ref.Key || ref.Table == plan.HouseLinesTable && plan.Key(segment.HouseLine) == ref.Key {
			refs = append(refs, plan.Ref{Table: plan.LinksTable, Key: plan.Key(segment.Link)})
		}
	}
	return refs
}

// boxesOf is the device into which an input or an output is plugged in the act that is shown.
func (w *window) boxesOf(ref plan.Ref) (refs []plan.Ref) {
	act := w.actNow()
	if line, found := act.Line(plan.InputID(ref.Key)); found && ref.Table == plan.InputsTable && line.Patched() {
		refs = append(refs, plan.Ref{Table: plan.DevicesTable, Key: plan.Key(line.At.Device)})
	}
	for _, line := range act.Outputs {
		if ref == plan.RefOf(line.Output) && line.Patched() {
			refs = append(refs, plan.Ref{Table: plan.DevicesTable, Key: plan.Key(line.Socket.Device)})
		}
	}
	return refs
}

// fixItems are the certain fixes of a finding as items of a menu.
func (w *window) fixItems(finding checks.Finding) (items []*fyne.MenuItem) {
	for _, fix := range w.fixesOf(finding) {
		items = append(items, fyne.NewMenuItem(fix.Label, func() {
			w.fix(finding, fix)
			w.notice.Say(fix.Label + ": done. Ctrl Z takes it back.")
		}))
	}
	return items
}

// rowActions are what the context menu offers about a row before the table's own items.
func (w *window) rowActions(source table.Source, row int) (items []*fyne.MenuItem) {
	if finding, found := sources.FindingAt(source, row); found {
		for _, item := range w.fixItems(finding) {
			item.Label = "Fix: " + item.Label
			items = append(items, item)
		}
		return items
	}
	if _, patches := w.patchChosen(); patches {
		return w.patchItems()
	}
	if source.Ref(row).Table == plan.LinksTable {
		return []*fyne.MenuItem{
			fyne.NewMenuItem("Lay cable…", w.laying.LayCable),
			fyne.NewMenuItem("Figures of the link…", w.editLink),
			fyne.NewMenuItem("Reverse", w.laying.Reverse),
		}
	}
	return nil
}
