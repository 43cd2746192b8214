package table

import (
	"slices"

	"stageloom/ui/settings"
)

// The least and the greatest width of a column.
const (
	leastWidth    = 36
	greatestWidth = 900
)

func (s *Sheet) usualColumns() {
	s.shown, s.widths = nil, make([]float32, len(s.columns))
	for i, column := range s.columns {
		s.widths[i] = column.Width
		if !column.Aside {
			s.shown = append(s.shown, i)
		}
	}
}

// UsualColumns shows the columns as they are before anything is chosen.
func (s *Sheet) UsualColumns() {
	s.usualColumns()
	s.findCursor()
}

// Columns are those shown, in their order.
func (s *Sheet) Columns() []Column {
	columns := make([]Column, len(s.shown))
	for i, column := range s.shown {
		columns[i] = s.columns[column]
	}
	return columns
}

// AllColumns are those of the source; a shown one is true.
func (s *Sheet) AllColumns() ([]Column, []bool) {
	shown := make([]bool, len(s.columns))
	for _, column := range s.shown {
		shown[column] = true
	}
	return s.columns, shown
}

// ShowColumn shows a column by its name, in the place where the source has it, or hides it. The last one stays.
func (s *Sheet) ShowColumn(name string, show bool) {
	column := s.named(name)
	at := slices.Index(s.shown, column)
	switch {
	case column < 0 || show == (at >= 0):
		return
	case show:
		place := slices.IndexFunc(s.shown, func(other int) bool { return other > column })
		if place < 0 {
			place = len(s.shown)
		}
		s.shown = slices.Insert(s.shown, place, column)
	case len(s.shown) > 1:
		s.shown = slices.Delete(s.shown, at, at+1)
	}
	s.findCursor()
}

// ShiftColumn moves a shown column by places to the right, negative to the left; the cursor goes with it.
func (s *Sheet) ShiftColumn(column, by int) {
	to := max(0, min(column+by, len(s.shown)-1))
	moved := s.shown[column]
	s.shown = slices.Insert(slices.Delete(s.shown, column, column+1), to, moved)
	if s.column == column {
		s.column, s.side = to, to
	}
}

// Width is the width of a shown column.
func (s *Sheet) Width(column int) float32 { return s.widths[s.shown[column]] }

// SetWidth sets the width of a shown column, within bounds.
func (s *Sheet) SetWidth(column int, width float32) {
	s.widths[s.shown[column]] = max(leastWidth, min(width, greatestWidth))
}

// awayColumn is how a column is laid that the source has not now, and the shown column behind which it stands; blank where it
// stands first.
type awayColumn struct {
	settings.ColumnLook
	behind string
}

// mostAway is how many columns that are not there a look keeps; consoles of many plans come and go.
const mostAway = 60

// withAway puts the columns that are not there now into their places among those that are: the columns of consoles stay
// behind the others while a plan without them is open.
func withAway(look []settings.ColumnLook, away []awayColumn) []settings.ColumnLook {
	for _, column := range away[max(0, len(away)-mostAway):] {
		at := 0
		if column.behind != "" {
			at = slices.IndexFunc(look, func(other settings.ColumnLook) bool { return other.Name == column.behind }) + 1
			if at == 0 {
				at = len(look)
			}
		}
		look = slices.Insert(look, at, column.ColumnLook)
	}
	return look
}
