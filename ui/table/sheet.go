package table

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/settings"
)

// Sheet is what a user does with a Source, without a window: filter, order, columns, cursor, selected rows, edits. Rows
// and columns are counted from 0 as they are shown. The zero Sheet has no rows; make one with NewSheet.
type Sheet struct {
	// Do makes one undo step of the plan.
	do func(name string, edit func(*plan.Edit) error) error

	source  Source
	columns []Column
	shown   []int
	widths  []float32
	// away is how columns are laid that the source has not now.
	away []awayColumn

	filter string
	sort   int
	down   bool
	rows   []int
	// haystack holds the small letters of each row of the source, made when they are first looked through.
	haystack []string

	cursor plan.Ref
	row    int
	column int
	// anchor is where a stretch of selected rows began, side where one of columns did.
	anchor plan.Ref
	side   int
	// whole is that all columns are marked, wherever the cursor stands.
	whole    bool
	selected map[plan.Ref]bool
}

// NewSheet returns a sheet on a source; do makes one undo step.
func NewSheet(source Source, do func(name string, edit func(*plan.Edit) error) error) *Sheet {
	s := &Sheet{do: do, source: source, columns: source.Columns(), sort: -1, selected: map[plan.Ref]bool{}}
	s.usualColumns()
	s.arrange()
	return s
}

// Source is what the sheet shows.
func (s *Sheet) Source() Source { return s.source }

// SetSource shows another state of the same table. Cursor and selected rows stay with their rows; where the cursor's is
// gone, it stands on the row that took its place. Where columns came or went, those that stayed stay as they were laid.
func (s *Sheet) SetSource(source Source) {
	look := s.Look()
	under := ""
	if len(s.shown) > 0 {
		under = s.columns[s.shown[s.column]].Name
	}
	same := slices.EqualFunc(s.columns, source.Columns(), func(a, b Column) bool { return a.Name == b.Name })
	s.source, s.haystack = source, nil
	s.columns = source.Columns()
	if same {
		s.arrange()
		return
	}
	s.usualColumns()
	s.SetLook(look)
	if at := slices.Index(s.shown, s.named(under)); at >= 0 {
		s.column, s.side = at, at
	}
}

// Len is how many rows are shown; Hidden how many the filter hides.
func (s *Sheet) Len() int { return len(s.rows) }

// Hidden is how many rows the filter hides.
func (s *Sheet) Hidden() int { return s.source.Len() - len(s.rows) }

// Ref names a row that is shown.
func (s *Sheet) Ref(row int) plan.Ref { return s.source.Ref(s.rows[row]) }

// RowName is what a person calls a row that is shown.
func (s *Sheet) RowName(row int) string { return s.source.RowName(s.rows[row]) }

// Cell is what stands in a cell that is shown.
func (s *Sheet) Cell(row, column int) Cell { return s.source.Cell(s.rows[row], s.shown[column]) }

// Whole is what a row that is shown says in all of its columns, blank where its cells are short.
func (s *Sheet) Whole(row int) string {
	if reader, is := s.source.(Reader); is {
		return reader.Whole(s.rows[row])
	}
	return ""
}

// Choices are the words that a cell may take.
func (s *Sheet) Choices(row, column int) []string {
	return s.source.Choices(s.rows[row], s.shown[column])
}

// Editable reports whether the cells of a column can be typed.
func (s *Sheet) Editable(column int) bool { return s.source.Setter(s.shown[column]) != nil }

// Filter is what was typed to filter the rows.
func (s *Sheet) Filter() string { return s.filter }

// SetFilter shows only the rows in which every word of text stands in some column, whether shown or not.
func (s *Sheet) SetFilter(text string) {
	if text == s.filter {
		return
	}
	s.filter = text
	s.arrange()
}

// Sorted tells the column, of those shown, that the rows are sorted by, and whether downwards; -1 is the order of reading.
func (s *Sheet) Sorted() (column int, down bool) { return slices.Index(s.shown, s.sort), s.down }

// SortBy sorts by a column: upwards, the next time downwards, the third time in the order of reading again.
func (s *Sheet) SortBy(column int) {
	switch at := s.shown[column]; {
	case s.sort != at:
		s.sort, s.down = at, false
	case !s.down:
		s.down = true
	default:
		s.sort, s.down = -1, false
	}
	s.arrange()
}

// arrange filters and sorts, and finds the cursor's row again.
func (s *Sheet) arrange() {
	s.rows = s.rows[:0]
	words := strings.Fields(strings.ToLower(s.filter))
	for row := range s.source.Len() {
		if len(words) == 0 || s.holds(row, words) {
			s.rows = append(s.rows, row)
		}
	}
	if s.sort >= 0 {
		s.sortRows()
	}
	s.findCursor()
}

// holds reports whether every word stands in some column of a row.
func (s *Sheet) holds(row int, words []string) bool {
	if s.haystack == nil {
		s.haystack = make([]string, s.source.Len())
	}
	if s.haystack[row] == "" {
		var text strings.Builder
		for column := range s.columns {
			text.WriteString(strings.ToLower(s.source.Cell(row, column).Text))
			text.WriteByte('\n')
		}
		s.haystack[row] = text.String()
	}
	for _, word := range words {
		if !strings.Contains(s.haystack[row], word) {
			return false
		}
	}
	return true
}

func (s *Sheet) sortRows() {
	cells := make(map[int]Cell, len(s.rows))
	for _, row := range s.rows {
		cells[row] = s.source.Cell(row, s.sort)
	}
	order := func(a, b Cell) int { return words.Natural(a.Text, b.Text) }
	blank := func(c Cell) bool { return c.Text == "" }
	if kind := s.columns[s.sort].Kind; kind == Number || kind == Ranked {
		order = func(a, b Cell) int { return cmp.Compare(a.Value, b.Value) }
		blank = func(c Cell) bool { return math.IsNaN(c.Value) }
	}
	slices.SortStableFunc(s.rows, func(a, b int) int {
		x, y := cells[a], cells[b]
		switch {
		case blank(x) && blank(y):
			return 0
		case blank(x):
			return 1
		case blank(y):
			return -1
		case s.down:
			return order(y, x)
		}
		return order(x, y)
	})
}

// findCursor puts the cursor on its row, or near where that was, and drops what is not shown from the selection.
func (s *Sheet) findCursor() {
	held := make(map[plan.Ref]bool, len(s.selected))
	found := -1
	for view, row := range s.rows {
		ref := s.source.Ref(row)
		if s.selected[ref] {
			held[ref] = true
		}
		if ref == s.cursor {
			found = view
		}
	}
	s.selected = held
	if found < 0 {
		found = max(0, min(s.row, len(s.rows)-1))
	}
	s.row, s.cursor = found, plan.Ref{}
	if len(s.rows) > 0 {
		s.cursor = s.Ref(found)
	}
	s.column = max(0, min(s.column, len(s.shown)-1))
	s.side = max(0, min(s.side, len(s.shown)-1))
}

// Look is how the table is laid out, to be kept in the preferences.
func (s *Sheet) Look() settings.TableLook {
	look := settings.TableLook{Down: s.down}
	if s.sort >= 0 {
		look.Sort = s.columns[s.sort].Name
	}
	add := func(column int, hidden bool) {
		look.Columns = append(look.Columns, settings.ColumnLook{Name: s.columns[column].Name, Width: s.widths[column], Hidden: hidden})
	}
	for _, column := range s.shown {
		add(column, false)
	}
	for column := range s.columns {
		if !slices.Contains(s.shown, column) {
			add(column, true)
		}
	}
	look.Columns = withAway(look.Columns, s.away)
	return look
}

// SetLook lays the table out as it was kept. A column that the look does not know stands behind its neighbour of the
// source; what it says of columns that are not there now is kept, with their place, for when they come.
func (s *Sheet) SetLook(look settings.TableLook) {
	if len(look.Columns) == 0 {
		return
	}
	known := map[int]bool{}
	s.shown, s.away = nil, nil
	before := ""
	for _, kept := range look.Columns {
		column := s.named(kept.Name)
		if column < 0 {
			s.away = append(s.away, awayColumn{kept, before})
		}
		if !kept.Hidden {
			before = kept.Name
		}
		if column < 0 || known[column] {
			continue
		}
		known[column] = true
		s.widths[column] = kept.Width
		if !kept.Hidden {
			s.shown = append(s.shown, column)
		}
	}
	for column := range s.columns {
		if !known[column] && !s.columns[column].Aside {
			at := 0
			for behind := column - 1; behind >= 0 && at == 0; behind-- {
				at = slices.Index(s.shown, behind) + 1
			}
			s.shown = slices.Insert(s.shown, at, column)
		}
	}
	if len(s.shown) == 0 {
		s.usualColumns()
	}
	s.sort, s.down = s.named(look.Sort), look.Down
	s.arrange()
}

func (s *Sheet) named(name string) int {
	return slices.IndexFunc(s.columns, func(c Column) bool { return c.Name == name })
}
