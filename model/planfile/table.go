package planfile

import (
	"fmt"

	"stageloom/model/plan"
)

// rows reads a list of rows; those with a fault are left out.
func (w *walk) rows(place string, table *plan.TableInfo, visit func(placed)) {
	w.array(place, func(i int) {
		switch {
		case i > plan.MaxRows:
			w.skip()
			return
		case i == plan.MaxRows:
			w.fault(w.here(), place, fmt.Sprintf("has more than %d rows", plan.MaxRows))
			w.skip()
			return
		}
		at := nth(place, i)
		raw, ok := w.readRow(at)
		if !ok {
			return
		}
		if row, ok := w.decode(shapes[table.Name], raw, at); ok {
			visit(placed{row, table.KeyOf(row), i, raw.at, raw})
		}
	})
}

// settings reads the settings of a Delta.
func (w *walk) settings(place string) *plan.Settings {
	raw, ok := w.readRow(place)
	if !ok {
		return nil
	}
	row, ok := w.decode(settingsShape, raw, place)
	if !ok {
		return nil
	}
	settings := row.(plan.Settings)
	w.problems(placed{at: raw.at, raw: raw, index: -1}, place, plan.CheckSettings(settings))
	return &settings
}

// problems turns what the plan's own rules say of a row into faults.
func (w *walk) problems(row placed, place string, problems []plan.Problem) {
	for _, problem := range problems {
		w.fault(row.fieldAt(problem.Field), row.place(place, problem.Field), problem.Reason)
	}
}
