package ui

import (
	"fmt"
	"slices"

	"stageloom/model/plan"
)

// rows lists a table's rows in the order the crew reads them.
func (w *window) rows(table string) []plan.Ref {
	var refs []plan.Ref
	switch table {
	case plan.LinksTable:
		for _, link := range w.desk.Assessment().Links() {
			refs = append(refs, plan.RefOf(link))
		}
	case plan.DevicesTable:
		for _, device := range w.desk.Assessment().Devices() {
			refs = append(refs, plan.RefOf(device))
		}
	case plan.PositionsTable:
		for position := range w.desk.Plan().Positions.All() {
			refs = append(refs, plan.RefOf(position))
		}
	}
	return refs
}

// step shows the next or previous row of a table, from the selected one on, round and round.
func (w *window) step(table string, by int) {
	refs := w.rows(table)
	if len(refs) == 0 {
		w.notice.Say("This plan has no " + table + " yet.")
		return
	}
	at := -1
	if selection := w.desk.Selection(); len(selection) == 1 {
		at = slices.Index(refs, selection[0])
	}
	if at < 0 && by < 0 {
		at = 0
	}
	w.show(refs[(at+by+len(refs))%len(refs)])
}

func (w *window) nextFinding() {
	findings := w.desk.Assessment().Findings
	if len(findings) == 0 {
		w.notice.Say("There is nothing to report on this plan.")
		return
	}
	w.finding = (w.finding + 1) % len(findings)
	f := findings[w.finding]
	if len(f.Where) > 0 {
		if ref := (plan.Ref{Table: f.Where[0].Table, Key: f.Where[0].Key}); ref.Exists(w.desk.Plan()) {
			w.show(ref)
		}
	}
	w.notice.Tell(f)
}

func (w *window) selectAll() {
	var refs []plan.Ref
	for device := range w.desk.Plan().Devices.All() {
		refs = append(refs, plan.RefOf(device))
	}
	w.desk.Select(refs...)
}

// takeIn makes the devices inside the selected position's outline belong to it, as one step. Which they are is told as
// for a device that is moved in.
func (w *window) takeIn() {
	position, found := w.selectedPosition()
	if !found {
		w.notice.Say("Select one position: devices inside its outline then belong to it and move with it.")
		return
	}
	var taken []plan.DeviceID
	err := w.desk.Do("Take devices into "+position.Name, func(e *plan.Edit) error { taken = e.TakeIn(position.ID); return nil })
	switch {
	case err != nil:
		w.refused(err)
	case len(taken) == 0:
		w.notice.Say(fmt.Sprintf("There is nothing to take in: each device inside %s belongs to it, or stands inside the position that it belongs to.", position.Name))
	}
}

// selectedPosition is the one position that is selected.
func (w *window) selectedPosition() (plan.Position, bool) {
	selection := w.desk.Selection()
	if len(selection) != 1 || selection[0].Table != plan.PositionsTable {
		return plan.Position{}, false
	}
	return w.desk.Plan().Positions.Get(selection[0].Key)
}

// tellTaken says how many devices a position took in when it was placed; nothing where none.
func (w *window) tellTaken(position string, taken []plan.DeviceID) {
	switch len(taken) {
	case 0:
		return
	case 1:
		device, _ := w.desk.Plan().Device(taken[0])
		w.notice.Say(fmt.Sprintf("%s stands inside %s and moves with it from now on.", device.Name, position))
	default:
		w.notice.Say(fmt.Sprintf("%d devices stand inside %s and move with it from now on.", len(taken), position))
	}
}
