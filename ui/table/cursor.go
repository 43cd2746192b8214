package table

import (
	"slices"

	"stageloom/model/plan"
)

// Cursor is the cell that a key acts on; -1, -1 where there is none.
func (s *Sheet) Cursor() (row, column int) {
	if len(s.rows) == 0 {
		return -1, -1
	}
	return s.row, s.column
}

// Go puts the cursor on a cell, brought into the table, and selects its row; with extend all rows and columns from
// where the stretch began.
func (s *Sheet) Go(row, column int, extend bool) {
	if len(s.rows) == 0 {
		return
	}
	row, column = max(0, min(row, len(s.rows)-1)), max(0, min(column, len(s.shown)-1))
	first := s.anchorRow()
	within := row == s.row && s.selected[s.cursor] && len(s.selected) > 1
	s.row, s.column, s.cursor = row, column, s.Ref(row)
	s.whole = false
	if within && !extend {
		s.side = column // to the side, the rows stay selected: one column after the other is filled
		return
	}
	clear(s.selected)
	if !extend {
		s.anchor, s.side = s.cursor, column
		s.selected[s.cursor] = true
		return
	}
	s.anchor = s.Ref(first)
	for view := min(first, row); view <= max(first, row); view++ {
		s.selected[s.Ref(view)] = true
	}
}

// Move is Go by rows and columns.
func (s *Sheet) Move(rows, columns int, extend bool) { s.Go(s.row+rows, s.column+columns, extend) }

// anchorRow is the row where a stretch began: the cursor's where that row is not shown any more.
func (s *Sheet) anchorRow() int {
	for view := range s.rows {
		if s.Ref(view) == s.anchor {
			return view
		}
	}
	return s.row
}

// Aim puts the cursor on a cell and leaves the selected rows as they are.
func (s *Sheet) Aim(row, column int) {
	if len(s.rows) == 0 {
		return
	}
	s.row, s.column = max(0, min(row, len(s.rows)-1)), max(0, min(column, len(s.shown)-1))
	s.cursor, s.side, s.whole = s.Ref(s.row), s.column, false
}

// Toggle adds a row to the selected ones or takes it out, and puts the cursor there.
func (s *Sheet) Toggle(row, column int) {
	if row < 0 || row >= len(s.rows) {
		return
	}
	s.Aim(row, column)
	s.anchor = s.cursor
	if s.selected[s.cursor] {
		delete(s.selected, s.cursor)
		return
	}
	s.selected[s.cursor] = true
}

// SelectAll selects all rows that are shown and all columns. The cursor stays in its cell.
func (s *Sheet) SelectAll() {
	s.SelectColumn()
	s.SelectRow()
}

// SelectColumn selects the cursor's column over all rows that are shown.
func (s *Sheet) SelectColumn() {
	for view := range s.rows {
		s.selected[s.Ref(view)] = true
	}
}

// SelectRow selects all columns of the selected rows. The cursor stays in its cell.
func (s *Sheet) SelectRow() {
	if len(s.rows) == 0 {
		return
	}
	s.selected[s.cursor] = true
	s.whole = true
}

// Pick puts the cursor on a row and selects it alone.
func (s *Sheet) Pick(row, column int) {
	clear(s.selected)
	s.Go(row, column, false)
}

// WholeRows reports whether all columns are marked.
func (s *Sheet) WholeRows() bool { return s.whole }

// Selected reports whether a row is selected.
func (s *Sheet) Selected(row int) bool { return s.selected[s.Ref(row)] }

// Marked reports whether a cell is of the block that is copied and cleared: selected rows, columns from where the stretch
// began to the cursor.
func (s *Sheet) Marked(row, column int) bool {
	first, last := s.stretch()
	return column >= first && column <= last && (s.Selected(row) || row == s.row)
}

// stretch is the first and the last column of the block.
func (s *Sheet) stretch() (first, last int) {
	if s.whole {
		return 0, len(s.shown) - 1
	}
	return min(s.side, s.column), max(s.side, s.column)
}

// block is the rows that an edit is about: the selected ones in the order shown, or the cursor's where it is not
// selected.
func (s *Sheet) block() (rows []int) {
	if len(s.rows) == 0 {
		return nil
	}
	if !s.selected[s.cursor] {
		return []int{s.row}
	}
	for view := range s.rows {
		if s.Selected(view) {
			rows = append(rows, view)
		}
	}
	return rows
}

// Refs are the rows that an edit is about: the selected ones, or the cursor's where none is.
func (s *Sheet) Refs() (refs []plan.Ref) {
	for _, row := range s.block() {
		refs = append(refs, s.Ref(row))
	}
	return refs
}

// Shows are the rows of the plan that the selected rows are about, each once.
func (s *Sheet) Shows() (refs []plan.Ref) {
	for view, row := range s.rows {
		if !s.Selected(view) {
			continue
		}
		for _, ref := range s.source.Shows(row) {
			if !slices.Contains(refs, ref) {
				refs = append(refs, ref)
			}
		}
	}
	return refs
}

// ShowSelection selects the rows that are about what the plan has selected and puts the cursor on the first of them,
// unless it stands on one. It reports whether the cursor moved.
func (s *Sheet) ShowSelection(refs []plan.Ref) (moved bool) {
	chosen := make(map[plan.Ref]bool, len(refs))
	for _, ref := range refs {
		chosen[ref] = true
	}
	clear(s.selected)
	first := -1
	for view, row := range s.rows {
		if !slices.ContainsFunc(s.source.Shows(row), func(ref plan.Ref) bool { return chosen[ref] }) {
			continue
		}
		s.selected[s.Ref(view)] = true
		if first < 0 {
			first = view
		}
	}
	if first < 0 || s.selected[s.cursor] {
		return false
	}
	s.row, s.cursor = first, s.Ref(first)
	s.anchor = s.cursor
	return true
}
