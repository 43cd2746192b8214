package plan

import (
	"fmt"
	"reflect"
)

// CheckRow returns why a row of RowType cannot stand by itself: its id and the values of its fields. What it
// refers to and what spans rows is left to Check. The file's codec asks this of the rows of a Delta.
func (t *TableInfo) CheckRow(row any) []Problem {
	c := &checker{}
	key := t.KeyOf(row)
	if t.Letter != "" && (!idForm.MatchString(string(key)) || string(key[:1]) != t.Letter) {
		c.add(t.Name, key, "id", fmt.Sprintf("must be %s- and five of the signs %s", t.Letter, Signs))
	}
	c.fields(t.Name, key, t.fields, reflect.ValueOf(row))
	return c.problems
}

// CheckSettings returns why the settings cannot stand.
func CheckSettings(s Settings) []Problem {
	c := &checker{}
	c.fields("plan", "", settingsFields, reflect.ValueOf(s))
	return c.problems
}
