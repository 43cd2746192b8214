package sources_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/table"
	"stageloom/ui/table/sources"
)

// page is one table of a plan, read by the names of its columns.
type page struct {
	t *testing.T
	table.Source
	plan *plan.Plan
	at   map[string]int
}

func pageOf(t *testing.T, a *assess.Assessment, name string, act plan.ActID, units words.Units) page {
	t.Helper()
	sheet, found := sources.Named(name)
	require.True(t, found, name)
	s := sheet.Of(a, sources.View{Units: units, Act: act})
	at := map[string]int{}
	for i, column := range s.Columns() {
		at[column.Name] = i
	}
	return page{t, s, a.Plan, at}
}

func houseOf(t *testing.T, p *plan.Plan, name string) page {
	t.Helper()
	return pageOf(t, assess.Of(p), name, "", words.Units{})
}

// says is what stands in a cell, by the row's number.
func (p page) says(row int, column string) string {
	p.t.Helper()
	at, found := p.at[column]
	require.True(p.t, found, "%s of %s", column, p.Name())
	return p.Cell(row, at).Text
}

// row finds a row by the name a person calls it.
func (p page) row(name string) int {
	p.t.Helper()
	for row := range p.Len() {
		if p.RowName(row) == name {
			return row
		}
	}
	p.t.Fatalf("there is no %s among the %s", name, p.Name())
	return -1
}

// of is the row that stands for a row of the plan.
func (p page) of(ref plan.Ref) int {
	p.t.Helper()
	for row := range p.Len() {
		if p.Ref(row) == ref {
			return row
		}
	}
	p.t.Fatalf("%v is not among the %s any more", ref, p.Name())
	return -1
}

// types types into a cell, and returns the plan after it.
func (p page) types(row int, column, typed string) (*plan.Plan, error) {
	p.t.Helper()
	set := p.Setter(p.at[column])
	require.NotNil(p.t, set, "%s of %s", column, p.Name())
	return plan.Do(p.plan, plan.NewIDSource(5, 5), func(e *plan.Edit) error { return set(e, p.Ref(row), typed) })
}

// pastes puts texts into the cells of a column from a row on, as one step; with inOrder the first text counts on.
func (p page) pastes(row int, column string, inOrder bool, typed ...string) (*plan.Plan, []error) {
	p.t.Helper()
	all := p.Source.(table.Joiner).AllSetter(p.at[column])
	require.NotNil(p.t, all, "%s of %s", column, p.Name())
	var cells []table.Typed
	for i, text := range typed {
		cells = append(cells, table.Typed{Ref: p.Ref(row + i), Text: text})
	}
	var errs []error
	next, _ := plan.Do(p.plan, plan.NewIDSource(5, 5), func(e *plan.Edit) error {
		errs = all(e, cells, inOrder)
		for _, err := range errs {
			if err != nil {
				return err
			}
		}
		return nil
	})
	return next, errs
}

// sheetOf is a table as a user sorts and filters it.
func sheetOf(p page) *table.Sheet {
	return table.NewSheet(p.Source, func(string, func(*plan.Edit) error) error { return nil })
}
