package sources

import (
	"math"
	"strconv"

	"stageloom/model/fields"
	"stageloom/model/plan"
	"stageloom/ui/table"
)

// column is a Column whose cells are reckoned; number, choice and ranked are those of the other kinds.
func column(name, title string, width float32, help string) table.Column {
	return table.Column{Name: name, Title: title, Width: wide(width), Help: help}
}

// wide is the width in the text of the window of a column that is given for text of 13 points.
func wide(width float32) float32 { return float32(math.Ceil(float64(width) * 14 / 13)) }

func number(name, title string, width float32, help string) table.Column {
	c := column(name, title, width, help)
	c.Kind = table.Number
	return c
}

func choice(name, title string, width float32, help string) table.Column {
	c := column(name, title, width, help)
	c.Kind = table.Choice
	return c
}

func ranked(name, title string, width float32, help string) table.Column {
	c := column(name, title, width, help)
	c.Kind = table.Ranked
	return c
}

func naming(c table.Column) table.Column {
	c.Names = true
	return c
}

func aside(c table.Column) table.Column {
	c.Aside = true
	return c
}

// asField makes the fields of a table as columns; row says which row of the plan's table a row of the source is.
type asField[R any] struct {
	table string
	state fields.State
	row   func(R) any
}

// kinds are how the kinds of fields are shown as columns.
var kinds = map[fields.Kind]table.Kind{
	fields.Words: table.Text, fields.Note: table.Text, fields.Figure: table.Number, fields.Choice: table.Choice, fields.Tick: table.Choice,
}

// column makes one field a column of a width.
func (a asField[R]) column(id string, width float32) table.ColumnOf[R] {
	f := fields.Of(a.table, id)
	column := table.ColumnOf[R]{
		Column: table.Column{Name: id, Title: f.Name, Help: f.Help, Kind: kinds[f.Kind], Width: wide(width), Names: id == "name" || id == "tag"},
		Text:   func(r R) string { return f.Text(a.state, a.row(r)) },
		Set: func(e *plan.Edit, ref plan.Ref, typed string) error {
			return f.Type(e, a.state.Units, ref.Key, typed)
		},
	}
	if f.Kind == fields.Figure {
		column.Value = func(r R) float64 { return f.Figure(a.state, a.row(r)) }
	}
	if f.Kind == fields.Choice || f.Kind == fields.Tick {
		column.Choices = func(r R) []string { return optionWords(f.Options(a.state, a.row(r))) }
	}
	return column
}

// aside makes one field a column that is shown only when it is chosen.
func (a asField[R]) aside(id string, width float32) table.ColumnOf[R] {
	column := a.column(id, width)
	column.Aside = true
	return column
}

// optionWords are what a cell may take; none is a blank.
func optionWords(options []fields.Option) (said []string) {
	for _, option := range options {
		if option.Value == "" {
			said = append(said, "")
			continue
		}
		said = append(said, option.Words)
	}
	return said
}

func count(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}

// figureText prints a figure that is blank where it is 0.
func figureText(value float64, print func(float64) string) string {
	if value == 0 {
		return ""
	}
	return print(value)
}

// numbered is a figure that sorts last where it is blank.
func numbered(value float64, known bool) float64 {
	if !known {
		return math.NaN()
	}
	return value
}
