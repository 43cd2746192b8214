package planfile

import (
	"fmt"
	"reflect"
	"strings"

	"stageloom/model/plan"
)

// form tells how a field stands in the file.
type form int

const (
	text   form = iota // a string
	flag               // true or false
	whole              // a number without a fraction
	figure             // a number
	blank              // a number, or left out where it is blank
	delta              // a Delta as an object, kept in the row as its one-line text
)

// column is one field of a row.
type column struct {
	index    int
	name     string
	form     form
	optional bool
}

// shape is how the rows of one table, or the settings, stand in the file.
type shape struct {
	table   string
	columns []column
	byName  map[string]int
	row     reflect.Type
}

const settingsName = "plan"

var (
	settingsShape = shapeOf(settingsName, reflect.TypeFor[plan.Settings]())
	shapes        = allShapes()
)

func allShapes() map[string]*shape {
	shapes := map[string]*shape{}
	for _, table := range plan.Tables() {
		shapes[table.Name] = shapeOf(table.Name, table.RowType)
	}
	return shapes
}

func shapeOf(table string, row reflect.Type) *shape {
	s := &shape{table: table, row: row, byName: map[string]int{}}
	for i := range row.NumField() {
		field := row.Field(i)
		name, options, _ := strings.Cut(field.Tag.Get("json"), ",")
		c := column{index: i, name: name, optional: options == "omitzero", form: formOf(field)}
		if _, twice := s.byName[name]; name == "" || twice || (c.form == blank && !c.optional) {
			panic(fmt.Sprintf("planfile: the json tag of %v.%s does not fit", row, field.Name))
		}
		s.byName[name] = len(s.columns)
		s.columns = append(s.columns, c)
	}
	return s
}

func formOf(field reflect.StructField) form {
	switch field.Type.Kind() {
	case reflect.String:
		if field.Tag.Get("delta") != "" {
			return delta
		}
		return text
	case reflect.Bool:
		return flag
	case reflect.Int:
		return whole
	case reflect.Float64:
		return figure
	}
	if field.Type == reflect.TypeFor[plan.Optional]() {
		return blank
	}
	panic(fmt.Sprintf("planfile: %s is of a type the file has no form for", field.Name))
}
