package ui

import (
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
	w.notice.Tell(f)
	if len(f.Where) > 0 {
		if ref := (plan.Ref{Table: f.Where[0].Table, Key: f.Where[0].Key}); ref.Exists(w.desk.Plan()) {
			w.show(ref)
		}
	}
}

func (w *window) selectAll() {
	var refs []plan.Ref
	for device := range w.desk.Plan().Devices.All() {
		refs = append(refs, plan.RefOf(device))
	}
	w.desk.Select(refs...)
}
