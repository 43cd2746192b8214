package planfile

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"github.com/go-json-experiment/json/jsontext"

	"stageloom/model/plan"
)

// member is one name and value of a row as it stands in the file.
type member struct {
	name  string
	value jsontext.Value
	at    int // offset of the value
}

// rawRow is a row before its names and values are judged. An upgrade step works on it.
type rawRow struct {
	at      int
	members []member
}

// readRow reads an object; false when it is something else, which is a fault.
func (w *walk) readRow(place string) (rawRow, bool) {
	row := rawRow{}
	ok := w.object(place, func(name string) {
		value, at := w.value()
		row.members = append(row.members, member{name, value, at})
	})
	row.at = w.here() - 1
	if len(row.members) > 0 {
		row.at = row.members[0].at
	}
	return row, ok
}

// decode turns a raw row into a value of the shape's row type, upgrading it first. Faults are gathered; false
// when there was one.
func (r *reader) decode(s *shape, row rawRow, place string) (any, bool) {
	before := len(r.faults)
	for _, step := range r.steps {
		step.row(s.table, &row)
	}
	v := reflect.New(s.row).Elem()
	seen := make([]bool, len(s.columns))
	for _, m := range row.members {
		i, found := s.byName[m.name]
		if !found {
			r.fault(m.at, under(place, m.name), unknown(m.name, s.names()))
			continue
		}
		seen[i] = true
		if reason := r.set(v.Field(s.columns[i].index), s.columns[i], m, place); reason != "" {
			r.fault(m.at, under(place, m.name), reason)
		}
	}
	for i, c := range s.columns {
		if !seen[i] && !c.optional {
			r.fault(row.at, under(place, c.name), "is missing")
		}
	}
	return v.Interface(), len(r.faults) == before
}

func (s *shape) names() []string {
	names := make([]string, len(s.columns))
	for i, c := range s.columns {
		names[i] = c.name
	}
	return names
}

// unknown says that a name is none of the known ones, and which one it looks like.
func unknown(name string, known []string) string {
	for _, want := range known {
		if strings.EqualFold(name, want) {
			return fmt.Sprintf("must be written %q: capitals count", want)
		}
	}
	return "is not a name that can stand here"
}

// set reads a value into a field of the row at place and returns why it cannot, or "".
func (r *reader) set(field reflect.Value, c column, m member, place string) string {
	kind := m.value.Kind()
	switch {
	case c.form == text && kind == '"':
		field.SetString(r.straight(unquote(m.value), !c.optional, m.at, under(place, m.name)))
	case c.form == flag && (kind == 't' || kind == 'f'):
		field.SetBool(kind == 't')
	case c.form == whole && kind == '0':
		return setWhole(field, m.value)
	case c.form == figure && kind == '0':
		value, reason := number(m.value)
		field.SetFloat(value)
		return reason
	case c.form == blank && kind == '0':
		value, reason := number(m.value)
		field.Set(reflect.ValueOf(plan.Some(value)))
		return reason
	case c.form == delta && kind == '{':
		field.SetString(r.changes(m, under(place, m.name)))
	default:
		return "is " + brief(m.value) + ", but must be " + wanted[c.form]
	}
	return ""
}

var wanted = map[form]string{
	text: `a text in quotes ""`, flag: "true or false", whole: "a whole number", figure: "a number",
	blank: "a number, or left out", delta: "an object in braces {}",
}

func setWhole(field reflect.Value, value jsontext.Value) string {
	n, err := strconv.ParseInt(string(value), 10, 32)
	if err != nil {
		return "is " + brief(value) + ", but must be a whole number of sensible size"
	}
	field.SetInt(n)
	return ""
}

func number(value jsontext.Value) (float64, string) {
	n, err := strconv.ParseFloat(string(value), 64)
	if err != nil {
		return 0, "is " + brief(value) + ", which is too large a number"
	}
	return n, ""
}
