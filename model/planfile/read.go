package planfile

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"

	"stageloom/model/plan"
)

// Read reads a whole plan file. A file that is not one, or whose rows cannot stand together, is refused with
// *Unreadable, which names every place, and nothing is guessed.
func Read(r io.Reader) (*plan.Plan, error) {
	data, err := readAll(r)
	if err != nil {
		return nil, err
	}
	p, _, err := decode(data)
	return p, err
}

// readAll reads one byte more than a plan may have, so that look can tell that there is too much.
func readAll(r io.Reader) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, MaxBytes+1))
	if err != nil {
		return nil, fmt.Errorf("read the plan: %w", err)
	}
	return data, nil
}

// decode also returns the version the file was written in.
func decode(data []byte) (*plan.Plan, int, error) {
	file, r, refusal := parse(data, Version, steps)
	if refusal != nil {
		return nil, 0, refusal
	}
	p, problems := file.plan()
	r.faults = append(r.faults, file.faults(r, problems)...)
	if len(r.faults) > 0 {
		return nil, 0, &Unreadable{Faults: r.faults, Remedy: remedyRepair, Repairable: true}
	}
	return p, file.version, nil
}

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

// parse reads the rows of a file and upgrades them to version.
func parse(data []byte, version int, steps []step) (*contents, *reader, *Unreadable) {
	if unreadable := look(data); unreadable != nil {
		return nil, nil, unreadable
	}
	r := &reader{data: data}
	file := &contents{tables: map[string][]placed{}}
	if refusal := r.header(file, version); refusal != nil {
		return nil, nil, refusal
	}
	r.steps = steps[file.version-1:]
	w := r.walkThrough(data, 0)
	w.object("", func(name string) { w.part(name, file) })
	if file.settings.row == nil && len(r.faults) == 0 {
		r.fault(len(data), under("", settingsName), "is missing")
	}
	if len(r.faults) > 0 {
		return nil, nil, &Unreadable{Faults: r.faults, Remedy: remedyEdit}
	}
	return file, r, nil
}

// header reads the version, which must stand first: it decides how all else is read.
func (r *reader) header(file *contents, version int) *Unreadable {
	first := true
	var refusal *Unreadable
	w := r.walkThrough(r.data, 0)
	w.object("", func(name string) {
		value, at := w.value()
		if !first {
			return
		}
		first = false
		if name != header {
			refusal = notPlan(fmt.Sprintf("it does not begin with %q and a version number as a Stageloom plan does", header), remedyOther)
			return
		}
		n, err := strconv.Atoi(string(value))
		if err != nil {
			refusal = &Unreadable{Faults: []Fault{{lineOf(r.data, at), "/" + header, "is " + brief(value) + ", but must be the version of the file, a whole number"}}, Remedy: remedyEdit}
			return
		}
		file.version = n
		refusal = refuseVersionUpTo(n, version)
	})
	if first {
		refusal = notPlan("it is an empty object {}", remedyCopy)
	}
	return refusal
}

func refuseVersion(n int) error {
	if refusal := refuseVersionUpTo(n, Version); refusal != nil {
		return refusal
	}
	return nil
}

func refuseVersionUpTo(n, version int) *Unreadable {
	switch {
	case n < 1:
		return notPlan(fmt.Sprintf("%d is no version of the file: they count from 1", n), remedyEdit)
	case n > version:
		refusal := notPlan(fmt.Sprintf("it was made by a newer Stageloom (version %d of the file; this one reads up to %d)", n, version), remedyUpdate)
		refusal.Newer = true
		return refusal
	}
	return nil
}

// part reads one member of the file's object.
func (w *walk) part(name string, file *contents) {
	place := under("", name)
	table, found := plan.TableNamed(name)
	switch {
	case name == header:
		w.skip()
	case name == settingsName:
		raw, ok := w.readRow(place)
		if !ok {
			return
		}
		if row, ok := w.decode(settingsShape, raw, place); ok {
			file.settings = placed{row: row, at: raw.at, raw: raw}
		}
	case !found:
		w.fault(w.here(), place, unknown(name, tableNames()))
		w.skip()
	default:
		w.rows(place, table, func(row placed) { file.tables[name] = append(file.tables[name], row) })
	}
}

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
		slices.SortStableFunc(rows, func(a, b placed) int { return cmp.Compare(a.key, b.key) })
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
					fmt.Sprintf("is %s again, which line %d holds already", rows[i].key, lineOf(r.data, rows[i-1].at)),
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
