package fields

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// Kind says how a field is shown, typed and sorted.
type Kind uint8

// The kinds of fields. A Note has several lines; a Figure is a number that may carry a unit; a Choice is one of a list; a Tick
// is yes or no.
const (
	Words Kind = iota
	Note
	Figure
	Choice
	Tick
)

// Settings is what stands for a table's name in the fields of the plan's settings, which are one row without a key.
const Settings = "settings"

// Option is one entry of a list: the value that the plan keeps, blank for none, and what it says.
type Option struct{ Value, Words string }

// State is the plan that a field is shown of, with the units of the user.
type State struct {
	Plan  *plan.Plan
	Units words.Units

	reckoner *budget.Reckoner
}

// On is the state of a plan; the reckoner may be nil, and is the plan's own where it is not.
func On(p *plan.Plan, reckoner *budget.Reckoner, units words.Units) State {
	if reckoner == nil {
		reckoner = budget.NewReckoner(p)
	}
	return State{Plan: p, Units: units, reckoner: reckoner}
}

// Field is one field of the rows of a table. Rows are handed to it as values of the table's row type, as
// [plan.TableInfo.Get] gives them; the settings as plan.Settings.
type Field struct {
	// Table is the plan's table; ID tells the field from the others of its table and stays the same in preferences and tests.
	Table, ID string
	// Name is what the field is called everywhere; Help ends a sentence that begins with it.
	Name, Help string
	Kind       Kind
	// Alone means that it is each row's own, and makes no sense of several together: a name, a place.
	Alone bool

	column  plan.Column
	unit    unit
	said    func(State, any) string
	value   func(State, any) string
	number  func(State, any) float64
	blank   func(State, any) string
	options func(State, any) []Option
	applies func(State, any) bool
	put     func(State, *plan.Edit, plan.Key, string) error
	then    func(*plan.Edit, plan.Key) error
	makes   func(*plan.Edit, string) (string, error)
	reads   func(State, any, string) (string, bool)
	check   func(string) error
	missing func(State, any, string) error
}

// Applies reports whether the field means something for a row: a link without a grade has no wanted margin.
func (f *Field) Applies(s State, row any) bool { return f.applies == nil || f.applies(s, row) }

// Text is what stands in the field, as it is said; what is said reads back. Blank where nothing stands there.
func (f *Field) Text(s State, row any) string {
	if f.said != nil {
		return f.said(s, row)
	}
	return f.saidOf(s, row, f.column.Of(row))
}

// Value is what stands in the field as [Field.Put] takes it: the value of a choice, the text of any other.
func (f *Field) Value(s State, row any) string {
	switch {
	case f.Kind != Choice:
		return f.Text(s, row)
	case f.value != nil:
		return f.value(s, row)
	}
	if f.said != nil {
		said := f.said(s, row)
		for _, option := range f.options(s, row) {
			if option.Words == said {
				return option.Value
			}
		}
		return ""
	}
	return fmt.Sprint(f.column.Of(row))
}

// Figure is what a Figure sorts by, in the plan's unit; NaN where it is blank.
func (f *Field) Figure(s State, row any) float64 {
	if f.number != nil {
		return f.number(s, row)
	}
	if f.Kind != Figure || f.column.Name() == "" || f.Text(s, row) == "" {
		return math.NaN()
	}
	switch value := f.column.Of(row).(type) {
	case float64:
		return value
	case int:
		return float64(value)
	case plan.Optional:
		return value.Or(math.NaN())
	}
	return math.NaN()
}

// Blank says what holds while nothing stands in the field.
func (f *Field) Blank(s State, row any) string {
	if f.blank == nil {
		return ""
	}
	return f.blank(s, row)
}

// Options are the entries of a Choice for a row, in their order; none for other kinds.
func (f *Field) Options(s State, row any) []Option {
	switch {
	case f.Kind == Tick:
		return []Option{{"", "no"}, {yes, yes}}
	case f.options == nil:
		return nil
	}
	return f.options(s, row)
}

// Read is the value that a typed text means in a field of a row: of a choice the one whose words it is, or alone begins;
// the text of any other. Its error ends a sentence that begins with what was typed.
func (f *Field) Read(s State, row any, typed string) (string, error) {
	typed = strings.TrimSpace(typed)
	if f.Kind == Tick {
		return readTick(typed)
	}
	if f.Kind != Choice {
		return typed, nil
	}
	if f.reads != nil {
		if value, known := f.reads(s, row, typed); known {
			return value, nil
		}
	}
	value, err := ReadOption(typed, f.options(s, row))
	if err != nil && f.missing != nil {
		if said := f.missing(s, row, typed); said != nil {
			return "", said
		}
	}
	return value, err
}

// Put puts a value into the field of a row by plan's edit; one that stands there already changes nothing, so that a figure
// keeps the digits that are not shown. Its error says in words why the value cannot stand.
func (f *Field) Put(e *plan.Edit, units words.Units, key plan.Key, value string) error {
	s := State{Plan: e.Now(), Units: units}
	row, found := f.row(e.Now(), key)
	if !found {
		one, _ := words.Rows(f.Table)
		return fmt.Errorf("this %s is not there any more", one)
	}
	s.reckoner = budget.NewReckoner(e.Now())
	if f.Kind != Note {
		value = strings.TrimSpace(value)
	}
	if value == f.Value(s, row) {
		return nil
	}
	if f.put != nil {
		return f.put(s, e, key, value)
	}
	if err := f.store(s, e, row, value); err != nil {
		return err
	}
	if f.then != nil {
		return f.then(e, key)
	}
	return nil
}

// Type puts what was typed into the field of a row: [Field.Read], then [Field.Put].
func (f *Field) Type(e *plan.Edit, units words.Units, key plan.Key, typed string) error {
	row, found := f.row(e.Now(), key)
	if !found {
		return f.Put(e, units, key, typed)
	}
	s := On(e.Now(), nil, units)
	if f.Kind != Note && strings.TrimSpace(typed) == f.Text(s, row) {
		return nil
	}
	value, err := f.Read(s, row, typed)
	if err != nil && f.makes != nil && strings.TrimSpace(typed) != "" {
		value, err = f.makes(e, typed)
	}
	if err != nil {
		return err
	}
	return f.Put(e, units, key, value)
}

// Column is the one column of the table that the field is; blank where its text is made of several.
func (f *Field) Column() string { return f.column.Name() }

// Needed reports whether a text cannot be left blank.
func (f *Field) Needed() bool {
	return (f.Kind == Words || f.Kind == Note) && f.column.Name() != "" && !f.column.MayBeBlank()
}

// Row finds the row of a key, as the field takes it.
func (f *Field) Row(p *plan.Plan, key plan.Key) (any, bool) { return f.row(p, key) }

func (f *Field) row(p *plan.Plan, key plan.Key) (any, bool) {
	if f.Table == Settings {
		return p.Settings, true
	}
	table, _ := plan.TableNamed(f.Table)
	return table.Get(p, key)
}

// store keeps a value in the field's column.
func (f *Field) store(s State, e *plan.Edit, row any, text string) error {
	value, err := f.parse(s, row, text)
	if err != nil {
		return err
	}
	if reason := f.column.Check(value); reason != "" {
		return fmt.Errorf("it %s", reason)
	}
	changed := f.column.With(row, value)
	if f.Table == Settings {
		e.SetSettings(changed.(plan.Settings))
		return nil
	}
	table, _ := plan.TableNamed(f.Table)
	table.Put(e, changed)
	return nil
}

// All are the fields of a table, in the order in which they are shown.
func All(table string) []*Field { return tables[table] }

// Called finds the field of a table by what it is called.
func Called(table, name string) (*Field, bool) {
	i := slices.IndexFunc(tables[table], func(f *Field) bool { return f.Name == name })
	if i < 0 {
		return nil, false
	}
	return tables[table][i], true
}

// Tables are the tables that have fields, in the plan's order; the settings come last.
func Tables() []string {
	var names []string
	for _, table := range plan.Tables() {
		if tables[table.Name] != nil {
			names = append(names, table.Name)
		}
	}
	return append(names, Settings)
}

// Of finds a field of a table; one that is not there is a mistake of the program.
func Of(table, id string) *Field {
	i := slices.IndexFunc(tables[table], func(f *Field) bool { return f.ID == id })
	if i < 0 {
		panic("fields: " + table + " has no field " + id)
	}
	return tables[table][i]
}
