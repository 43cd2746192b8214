package planfile

import (
	"cmp"
	"errors"
	"slices"

	"stageloom/model/plan"
)

// placed is a row and where it stands in the file.
type placed struct {
	row   any
	key   plan.Key
	index int
	at    int
	raw   rawRow
}

// contents are the rows of a file, sound in themselves but not yet seen together.
type contents struct {
	version  int
	settings placed
	tables   map[string][]placed
}

// fieldAt is the offset of a field's value, or of the row where the field is left out.
func (p placed) fieldAt(field string) int {
	for _, m := range p.raw.members {
		if m.name == field {
			return m.at
		}
	}
	return p.at
}

// place joins the place of the table, the row's number and the field; the settings have no number.
func (p placed) place(table, field string) string {
	place := table
	if p.index >= 0 {
		place = nth(table, p.index)
	}
	if field != "" {
		place = under(place, field)
	}
	return place
}

// nothing is a plan whose settings differ from all settings, so that a Commit on it checks every field.
var nothing = &plan.Plan{Settings: plan.Settings{Standards: -1}}

// plan puts the rows together; the problems are those of plan.Check.
func (c *contents) plan() (*plan.Plan, []plan.Problem) {
	e := plan.NewEdit(nothing, nil)
	e.SetSettings(c.settings.row.(plan.Settings))
	for _, table := range plan.Tables() {
		rows := c.tables[table.Name]
		slices.SortStableFunc(rows, byKey)
		for _, row := range rows {
			table.Put(e, row.row)
		}
	}
	p, err := e.Commit()
	var invalid *plan.Invalid
	if errors.As(err, &invalid) {
		return nil, invalid.Problems
	}
	return p, nil
}

// faults gives problems their places in the file, and adds the rows that stand there twice.
func (c *contents) faults(r *reader, problems []plan.Problem) []Fault {
	var faults []Fault
	for _, table := range plan.Tables() {
		rows := c.tables[table.Name]
		for i := 1; i < len(rows); i++ {
			if rows[i].key == rows[i-1].key {
				faults = append(faults, Fault{
					lineOf(r.data, rows[i].at), rows[i].place("/"+table.Name, ""),
					sayRepeated(r.data, rows[i], rows[i-1]),
				})
			}
		}
	}
	for _, problem := range problems {
		row := c.find(problem)
		faults = append(faults, Fault{lineOf(r.data, row.fieldAt(problem.Field)), row.place("/"+problem.Table, problem.Field), problem.Reason})
	}
	slices.SortStableFunc(faults, func(a, b Fault) int { return cmp.Compare(a.Line, b.Line) })
	return faults[:min(len(faults), mostKept)]
}

func (c *contents) find(problem plan.Problem) placed {
	if problem.Table == settingsName {
		row := c.settings
		row.index = -1
		return row
	}
	rows := c.tables[problem.Table]
	i, found := slices.BinarySearchFunc(rows, problem.Key, func(row placed, key plan.Key) int { return cmp.Compare(row.key, key) })
	if !found {
		return placed{index: -1}
	}
	return rows[i]
}
