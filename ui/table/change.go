package table

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"stageloom/model/plan"
)

// Misfit is one cell that cannot be what was typed or pasted: row and column in the user's words, and why.
type Misfit struct {
	Row, Column string
	Why         error
}

// Misfits is why nothing was changed.
type Misfits struct{ All []Misfit }

// most is how many misfits are told one by one.
const most = 3

// Error tells the first of them, and how many more there are.
func (m *Misfits) Error() string {
	var lines []string
	for i, misfit := range m.All {
		if i == most {
			lines = append(lines, fmt.Sprintf("and %d more", len(m.All)-most))
			break
		}
		lines = append(lines, fmt.Sprintf("%s, %s: %v", misfit.Row, misfit.Column, misfit.Why))
	}
	return strings.Join(lines, "; ")
}

// Unwrap lets errors.Is and errors.As see the single reasons.
func (m *Misfits) Unwrap() (all []error) {
	for _, misfit := range m.All {
		all = append(all, misfit.Why)
	}
	return all
}

// ErrReckoned is why a cell of a column without a Setter is not changed.
var ErrReckoned = errors.New("it is reckoned from the plan and can't be typed")

// typing is one cell that is to be set; ref and names are kept, since rows move while cells change.
type typing struct {
	ref           plan.Ref
	column        int
	typed         string
	name, heading string
	// fresh counts from 1 the rows that the step adds, of which it is one; 0 is a row that is there.
	fresh int
}

func (s *Sheet) typing(row, column int, typed string) typing {
	at := s.shown[column]
	return typing{ref: s.Ref(row), column: at, typed: typed, name: s.RowName(row), heading: s.columns[at].Title}
}

// same reports whether the cell reads as typed already: then what lies behind a rounded figure stays as it is.
func (s *Sheet) same(row, column int, typed string) bool {
	return strings.TrimSpace(typed) == strings.TrimSpace(s.Cell(row, column).Text)
}

// Target is what an edit in place is about: a column of rows, which may move while one types.
type Target struct {
	Refs   []plan.Ref
	Column string
}

// Target is the cursor's column of the selected rows, or of the cursor's row where it is not selected.
func (s *Sheet) Target() Target {
	if len(s.rows) == 0 {
		return Target{}
	}
	return Target{s.Refs(), s.columns[s.shown[s.column]].Name}
}

// Set sets the cells of a target to what was typed, as one undo step. Cells that read so already stay as they are, but in a
// column that is filled in order, where each gets another text.
func (s *Sheet) Set(target Target, typed string) error {
	column := s.named(target.Column)
	places := make(map[plan.Ref]int, s.source.Len())
	for row := range s.source.Len() {
		places[s.source.Ref(row)] = row
	}
	fills := column >= 0 && s.columns[column].InOrder && len(target.Refs) > 1
	var cells []typing
	for _, ref := range target.Refs {
		row, found := places[ref]
		switch {
		case !found || column < 0:
			return fmt.Errorf("%w: the row is gone", plan.ErrRefused)
		case fills, strings.TrimSpace(s.source.Cell(row, column).Text) != strings.TrimSpace(typed):
			cells = append(cells, typing{ref: ref, column: column, typed: typed, name: s.source.RowName(row), heading: s.columns[column].Title})
		}
	}
	return s.apply(cells, true)
}

// Clear blanks the marked cells that can be typed, as one undo step.
func (s *Sheet) Clear() error {
	var cells []typing
	first, last := s.stretch()
	for _, row := range s.block() {
		for column := first; column <= last; column++ {
			if s.Editable(column) && s.Cell(row, column).Text != "" {
				cells = append(cells, s.typing(row, column, ""))
			}
		}
	}
	if len(cells) == 0 && first == last && len(s.shown) > 0 && !s.Editable(first) {
		return ErrReckoned
	}
	return s.apply(cells, false)
}

// apply sets cells as one undo step: all of them or none. With once, one text was typed into all of them.
func (s *Sheet) apply(cells []typing, once bool) error {
	if len(cells) == 0 {
		return nil
	}
	return s.do(s.stepName(cells), func(e *plan.Edit) error {
		var misfits Misfits
		cells, err := s.withRows(e, cells)
		if err != nil {
			return err
		}
		for _, some := range s.joined(cells) {
			for i, err := range s.setAll(e, some, once) {
				if err != nil {
					misfits.All = append(misfits.All, Misfit{some[i].name, some[i].heading, err})
				}
			}
		}
		switch {
		case len(misfits.All) == 0:
			return nil
		case len(cells) == 1:
			return misfits.All[0].Why
		}
		return &misfits
	})
}

// withRows adds the rows that cells ask for, behind the last one that is shown, and returns the cells with them.
func (s *Sheet) withRows(e *plan.Edit, cells []typing) ([]typing, error) {
	var behind plan.Ref
	if len(s.rows) > 0 {
		behind = s.Ref(len(s.rows) - 1)
	}
	all := slices.Clone(cells)
	added := map[int]plan.Ref{}
	for i, cell := range all {
		if cell.fresh == 0 {
			continue
		}
		if _, there := added[cell.fresh]; !there {
			ref, err := s.source.(Grower).Adder()(e, behind)
			if err != nil {
				return nil, fmt.Errorf("%s: %w", cell.name, err)
			}
			added[cell.fresh], behind = ref, ref
		}
		all[i].ref = added[cell.fresh]
	}
	return all, nil
}

// freshCell is a cell of a row that the step adds; a reckoned or a blank one has nothing to set.
func (s *Sheet) freshCell(fresh, column int, typed, name string) (typing, bool) {
	return typing{ref: plan.Ref{Part: fmt.Sprint("new row ", fresh)}, column: column, typed: typed, name: name, heading: s.columns[column].Title, fresh: fresh},
		strings.TrimSpace(typed) != "" && s.source.Setter(column) != nil
}

// joined gathers the cells of columns that are changed together; every other cell stands alone.
func (s *Sheet) joined(cells []typing) (all [][]typing) {
	at := map[int]int{}
	for _, cell := range cells {
		if s.allSetter(cell.column) == nil {
			all = append(all, []typing{cell})
			continue
		}
		place, found := at[cell.column]
		if !found {
			place = len(all)
			at[cell.column], all = place, append(all, nil)
		}
		all[place] = append(all[place], cell)
	}
	return all
}

func (s *Sheet) allSetter(column int) SetAll {
	if joiner, is := s.source.(Joiner); is {
		return joiner.AllSetter(column)
	}
	return nil
}

// setAll sets cells that belong together and returns what is wrong with each.
func (s *Sheet) setAll(e *plan.Edit, cells []typing, once bool) []error {
	if all := s.allSetter(cells[0].column); all != nil {
		typed := make([]Typed, len(cells))
		for i, cell := range cells {
			typed[i] = Typed{cell.ref, cell.typed}
		}
		return all(e, typed, once && len(cells) > 1)
	}
	set := s.source.Setter(cells[0].column)
	if set == nil {
		return []error{ErrReckoned}
	}
	return []error{set(e, cells[0].ref, cells[0].typed)}
}

// stepName is what the history calls the step: "Slack of L01", "Slack of 5 links", "Edit 12 cells".
func (s *Sheet) stepName(cells []typing) string {
	rows, columns := map[plan.Ref]bool{}, map[int]bool{}
	for _, cell := range cells {
		rows[cell.ref], columns[cell.column] = true, true
	}
	_, many := s.source.Words()
	what := cells[0].heading
	if len(columns) > 1 {
		what = fmt.Sprintf("Edit %d columns", len(columns))
	}
	if len(rows) == 1 {
		return what + " of " + cells[0].name
	}
	return fmt.Sprintf("%s of %d %s", what, len(rows), many)
}

// Grows reports whether rows can be added and removed here.
func (s *Sheet) Grows() (adds, removes bool) {
	grower, ok := s.source.(Grower)
	return ok && grower.Adder() != nil, ok && grower.Remover() != nil
}

// Add adds a row behind the cursor's, as one undo step, and returns it. The cursor goes there with the next source.
func (s *Sheet) Add() (added plan.Ref, err error) {
	if adds, _ := s.Grows(); !adds {
		return plan.Ref{}, fmt.Errorf("%w: no row is added here", plan.ErrRefused)
	}
	one, _ := s.source.Words()
	err = s.do("New "+one, func(e *plan.Edit) (err error) {
		added, err = s.source.(Grower).Adder()(e, s.cursor)
		return err
	})
	if err == nil {
		s.SetFilter("")
		s.jump(added)
	}
	return added, err
}

// jump puts the cursor on a row that is shown now or with the next source.
func (s *Sheet) jump(ref plan.Ref) {
	s.cursor, s.anchor = ref, ref
	clear(s.selected)
	s.selected[ref] = true
	for view := range s.rows {
		if s.Ref(view) == ref {
			s.row = view
		}
	}
}

// RemoveRows removes the selected rows, or the cursor's, as one undo step.
func (s *Sheet) RemoveRows() error {
	if _, removes := s.Grows(); !removes {
		return fmt.Errorf("%w: no row is removed here", plan.ErrRefused)
	}
	one, many := s.source.Words()
	rows := s.block()
	if len(rows) == 0 {
		return nil
	}
	refs, what := s.Refs(), one+" "+s.RowName(rows[0])
	if len(rows) > 1 {
		what = fmt.Sprintf("%d %s", len(rows), many)
	}
	return s.do("Delete "+what, func(e *plan.Edit) error { return s.source.(Grower).Remover()(e, refs) })
}
