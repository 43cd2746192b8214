package fields

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"stageloom/model/plan"
	"stageloom/model/words"
)

// tables are the fields of each table. Lists of fields are data: one line a field, in the order in which they are shown.
var tables map[string][]*Field

// Set at the start and not with the variable, since the edits of some fields look up others.
func init() {
	tables = map[string][]*Field{
		"links":       linkFields(),
		"segments":    segmentFields(),
		"reels":       reelFields(),
		"cases":       caseFields(),
		"house_lines": houseLineFields(),
		"devices":     deviceFields(),
		"positions":   positionFields(),
		"areas":       areaFields(),
		"looms":       loomFields(),
		"levels":      levelFields(),
		"contacts":    contactFields(),
		"inputs":      inputFields(),
		"outputs":     outputFields(),
		"acts":        actFields(),
		"cable_kinds": cableKindFields(),
		"kinds":       kindFields(),
		Settings:      settingsFields(),
	}
}

// definer makes the fields of one table.
type definer struct{ table string }

// field makes a field that is one column of the table; its kind follows from the column.
func (d definer) field(id, column, name, help string) *Field {
	f := &Field{Table: d.table, ID: id, Name: name, Help: help}
	found := false
	if d.table == Settings {
		f.column, found = plan.SettingsColumn(column)
	} else if table, known := plan.TableNamed(d.table); known {
		f.column, found = table.Column(column)
	}
	if !found {
		panic("fields: " + d.table + " has no column " + column)
	}
	f.settle()
	f.Alone = column == "name" && d.table != Settings
	return f
}

// settle takes kind, unit and list from the tags of the column.
func (f *Field) settle() {
	low, _, _ := f.column.Bounds()
	switch kind := f.column.Holds(); {
	case kind == reflect.Bool:
		f.Kind = Tick
	case kind == reflect.Float64 || kind == reflect.Struct:
		f.Kind, f.unit = Figure, unitOf(f.column.Name(), low)
	case kind == reflect.Int:
		f.Kind = Figure
	case len(f.column.OneOf()) > 0:
		f.Kind = Choice
		f.worded(nil)
	case f.column.Refers() != "":
		f.Kind = Choice
		f.options = f.rowsOf(f.column.Refers())
	case f.column.Long():
		f.Kind = Note
	}
}

// made makes a field that is no single column: what is said of a row, and the edit that reads it.
func (d definer) made(id, name, help string, kind Kind, said func(State, any) string, put func(State, *plan.Edit, plan.Key, string) error) *Field {
	return &Field{Table: d.table, ID: id, Name: name, Help: help, Kind: kind, said: said, put: put}
}

// worded gives the words of a column that holds one of a few; those without stand as the plan keeps them. A blank one comes
// first where it may be blank.
func (f *Field) worded(said map[string]string) *Field {
	var options []Option
	if f.column.MayBeBlank() {
		options = append(options, Option{"", orWord(said, "", "not stated")})
	}
	for _, word := range f.column.OneOf() {
		options = append(options, Option{word, orWord(said, word, strings.ReplaceAll(word, "-", " "))})
	}
	f.options = func(State, any) []Option { return options }
	return f
}

func orWord(said map[string]string, word, otherwise string) string {
	if text, found := said[word]; found {
		return text
	}
	return otherwise
}

// noRow says in a list of rows that there is none.
const noRow = "none"

// rowsOf lists the rows of a table by name, "none" first where the column may be blank.
func (f *Field) rowsOf(table string) func(State, any) []Option {
	info, _ := plan.TableNamed(table)
	return func(s State, _ any) (options []Option) {
		for row := range info.Rows(s.Plan) {
			key := info.KeyOf(row)
			options = append(options, Option{string(key), words.Row(s.Plan, plan.Ref{Table: table, Key: key}, s.Units)})
		}
		slices.SortFunc(options, func(a, b Option) int { return words.Natural(a.Words, b.Words) })
		apart(options)
		if f.column.MayBeBlank() {
			options = slices.Insert(options, 0, Option{"", noRow})
		}
		return options
	}
}

// apart numbers the entries that say the same, so that each can be typed.
func apart(options []Option) {
	for i := range options {
		same := 1
		for j := i + 1; j < len(options) && options[j].Words == options[i].Words; j++ {
			same++
			options[j].Words = fmt.Sprintf("%s (%d)", options[j].Words, same)
		}
	}
}

// none says what a blank is in a list of the rows that the column refers to.
func (f *Field) none(blank string) *Field {
	rows := f.options
	f.options = func(s State, row any) []Option {
		options := rows(s, row)
		options[0].Words = blank
		return options
	}
	return f
}

// alone marks a field that is each row's own.
func (f *Field) alone() *Field {
	f.Alone = true
	return f
}

// among lists what may be chosen in the place of what the column's tags say.
func (f *Field) among(options func(State, any) []Option) *Field {
	f.Kind, f.options = Choice, options
	return f
}

// saying gives what is said of a row in the place of what the column holds.
func (f *Field) saying(said func(State, any) string) *Field {
	f.said = said
	return f
}

// valued gives the value of a choice where it is neither the column's nor found by what is said.
func (f *Field) valued(value func(State, any) string) *Field {
	f.value = value
	return f
}

// explaining says of what is typed and not in the list why it is not.
func (f *Field) explaining(missing func(State, any, string) error) *Field {
	f.missing = missing
	return f
}

// ifBlank says what holds while the field is blank.
func (f *Field) ifBlank(text string) *Field {
	f.blank = func(State, any) string { return text }
	return f
}

// ifBlankBy says what holds while the field of a row is blank.
func (f *Field) ifBlankBy(blank func(State, any) string) *Field {
	f.blank = blank
	return f
}

// when says for which rows the field means something.
func (f *Field) when(applies func(State, any) bool) *Field {
	f.applies = applies
	return f
}

// by changes the row by an edit of plan's in the place of writing the column.
func (f *Field) by(put func(State, *plan.Edit, plan.Key, string) error) *Field {
	f.put = put
	return f
}

// of makes a function on typed rows one on any.
func of[R, T any](do func(State, R) T) func(State, any) T {
	return func(s State, row any) T {
		typed, _ := row.(R)
		return do(s, typed)
	}
}
