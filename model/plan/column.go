package plan

import "reflect"

// Column describes one field of the rows of a table, or of the settings, as its tags say it: the one description of what a
// field may hold, which the file, the checks and whatever edits a row all read.
type Column struct {
	of    field
	holds reflect.Kind
}

// Column finds the field of the table's rows that the file keeps under this name.
func (t *TableInfo) Column(name string) (Column, bool) {
	return columnNamed(columnsOf(t.RowType, t.fields), name)
}

// Columns are all fields of the table's rows, in their order.
func (t *TableInfo) Columns() []Column { return columnsOf(t.RowType, t.fields) }

// SettingsColumn finds the field of the settings that the file keeps under this name.
func SettingsColumn(name string) (Column, bool) { return columnNamed(SettingsColumns(), name) }

// SettingsColumns are all fields of the settings, in their order.
func SettingsColumns() []Column { return columnsOf(reflect.TypeFor[Settings](), settingsFields) }

func columnNamed(columns []Column, name string) (Column, bool) {
	for _, column := range columns {
		if column.of.name == name {
			return column, true
		}
	}
	return Column{}, false
}

func columnsOf(row reflect.Type, fields []field) []Column {
	columns := make([]Column, len(fields))
	for i, f := range fields {
		columns[i] = Column{f, row.Field(f.index).Type.Kind()}
	}
	return columns
}

// Name is what the file calls the field; a figure's ends in its unit: length_m.
func (c Column) Name() string { return c.of.name }

// Holds is the kind of value that the field holds: a string, a float64, an int, a bool or, of an Optional, a struct.
func (c Column) Holds() reflect.Kind { return c.holds }

// MayBeBlank reports whether the field may be left out.
func (c Column) MayBeBlank() bool { return c.of.optional }

// Long reports whether the field holds a note of several lines.
func (c Column) Long() bool { return c.of.long }

// Refers is the table whose rows the field names; blank where it names none.
func (c Column) Refers() string { return c.of.ref }

// OneOf are the words of which the field holds one; none where it is free.
func (c Column) OneOf() []string { return c.of.oneOf }

// Bounds are the least and the greatest figure, in the unit of the field's name; bounded is false where there are none.
func (c Column) Bounds() (low, high float64, bounded bool) { return c.of.low, c.of.high, c.of.ranged }

// Of is what a row holds in the field: a string (of whatever named type), a float64, an int, a bool or an Optional.
func (c Column) Of(row any) any {
	v := reflect.ValueOf(row).Field(c.of.index)
	if v.Kind() == reflect.String {
		return v.String()
	}
	return v.Interface()
}

// With is the row with another value in the field, which is of the type that [Column.Of] gives.
func (c Column) With(row, value any) any {
	changed := reflect.New(reflect.TypeOf(row)).Elem()
	changed.Set(reflect.ValueOf(row))
	at := changed.Field(c.of.index)
	at.Set(reflect.ValueOf(value).Convert(at.Type()))
	return changed.Interface()
}

// Check returns why a value of the field's type cannot stand in it, as the end of a sentence that begins with the field's
// name, or "". Whether a row that it names is there is not asked.
func (c Column) Check(value any) string { return c.of.check(reflect.ValueOf(value)) }

// LongestText is how many characters the field keeps.
func (c Column) LongestText() int {
	if c.of.long {
		return longestNote
	}
	return longestName
}
