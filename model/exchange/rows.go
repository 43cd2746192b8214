package exchange

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"stageloom/model/fields"
)

// longestName is the longest name that a plan holds, in signs.
const longestName = 200

// sheetRows walks the rows below a grid's head and gathers what is wrong with them.
type sheetRows struct {
	// table is the plan's table that the rows become rows of.
	table  string
	grid   Grid
	layout Layout
	at     int
	faults []Fault
}

// each visits the rows in which a column that is read holds something.
func (r *sheetRows) each(visit func()) {
	for r.at = r.layout.Head; r.at < len(r.grid.Rows); r.at++ {
		if r.holds(r.at) {
			visit()
		}
	}
}

// holds reports whether a column that is read holds something in a row.
func (r *sheetRows) holds(row int) bool {
	for column, field := range r.layout.Fields {
		if field != "" && field != IntoNote && field != PassOver && r.grid.cell(row, column) != "" {
			return true
		}
	}
	return false
}

// downward are the cells of a field by row: a blank one in a row with something in it is the one above, as in a sheet whose
// cells were joined, down to the next row with nothing in it; where a column of what goes with it has it blank too, none is.
func (r *sheetRows) downward(field, beside string) []string {
	cells, last := make([]string, len(r.grid.Rows)), ""
	for row := r.layout.Head; row < len(cells); row++ {
		cell := r.grid.cell(row, r.layout.column(field))
		if cell != "" || !slices.ContainsFunc(r.grid.Rows[row], func(cell string) bool { return strings.TrimSpace(cell) != "" }) {
			last = cell
		}
		cells[row] = last
		if cell == "" && r.grid.cell(row, r.layout.column(beside)) == "" {
			cells[row] = ""
		}
	}
	return cells
}

// number is the row's number in the sheet, from 1.
func (r *sheetRows) number() int { return r.at + 1 }

// text is the cell of a field in the row at hand, blank where no column has the field.
func (r *sheetRows) text(field string) string { return r.grid.cell(r.at, r.layout.column(field)) }

func (r *sheetRows) head(field string) string {
	if r.layout.Head == 0 {
		return ""
	}
	return r.grid.cell(r.layout.Head-1, r.layout.column(field))
}

func (r *sheetRows) fail(field string, err error) {
	fault := Fault{Row: r.number(), Words: err.Error()}
	if column := r.layout.column(field); column >= 0 {
		fault.Column, fault.Head = Letter(column), r.head(field)
	}
	r.faults = append(r.faults, fault)
}

// words are a cell as the plan keeps it: one line, or a note, of at most as many signs as it holds.
func (r *sheetRows) words(field string) string {
	of := r.field(field)
	text, err := of.Words(tidy(r.text(field), of.Kind == fields.Note))
	if err != nil {
		r.fail(field, err)
		return ""
	}
	return text
}

// field is the field of the plan that a column of the list is, by its name.
func (r *sheetRows) field(name string) *fields.Field {
	if of, known := fields.Called(r.table, name); known {
		return of
	}
	return fields.Of(r.table, "name") // in lists a name is called so
}

// tidy leaves signs out that no name bears; a name is one line, a note may have several.
func tidy(text string, lines bool) string {
	text = strings.Map(func(sign rune) rune {
		switch {
		case lines && sign == '\n':
			return sign
		case unicode.IsSpace(sign):
			return ' '
		case unicode.IsControl(sign), sign == '\ufeff', sign == utf8.RuneError:
			return -1
		}
		return sign
	}, strings.ReplaceAll(text, "\r\n", "\n"))
	return strings.TrimSpace(text)
}

// take reads a filled cell; a blank one is the zero value.
func take[V any](r *sheetRows, field string, read func(string) (V, error)) (value V) {
	text := r.text(field)
	if text == "" {
		return value
	}
	got, err := read(text)
	if err != nil {
		r.fail(field, err)
		return value
	}
	return got
}
