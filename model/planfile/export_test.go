package planfile

import (
	"slices"

	"github.com/go-json-experiment/json/jsontext"

	"stageloom/model/plan"
)

// OldRow lets a test's upgrade step work on a row as it stands in a file of version 1.
type OldRow struct{ row *rawRow }

// Rename gives a value another name.
func (r OldRow) Rename(old, name string) {
	if value, found := r.row.get(old); found {
		r.row.drop(old)
		r.row.put(name, value)
	}
}

// Set sets a value, given as JSON.
func (r OldRow) Set(name, value string) { r.row.put(name, jsontext.Value(value)) }

// Get returns a value as JSON.
func (r OldRow) Get(name string) string {
	value, _ := r.row.get(name)
	return string(value)
}

// AsIfVersion2 reads files and Deltas as a program would whose version is 2, with a step that leads there.
type AsIfVersion2 struct {
	Step func(table string, row OldRow)
}

func (a AsIfVersion2) era() era {
	return era{2, []step{{row: func(table string, row *rawRow) { a.Step(table, OldRow{row}) }}}}
}

// Read reads a file and tells its version.
func (a AsIfVersion2) Read(text string) (*plan.Plan, int, error) {
	return decode([]byte(text), a.era())
}

// DecodeDelta reads a Delta that a program of a version has written.
func (a AsIfVersion2) DecodeDelta(line string, version int) (*plan.Delta, error) {
	return decodeDelta([]byte(line), version, a.era())
}

// What a step does to a row stands here until the first one needs it.

// get returns the value of a name as it stands in the file.
func (row *rawRow) get(name string) (jsontext.Value, bool) {
	for _, m := range row.members {
		if m.name == name {
			return m.value, true
		}
	}
	return nil, false
}

// put sets a value, adding the name where it is missing.
func (row *rawRow) put(name string, value jsontext.Value) {
	for i := range row.members {
		if row.members[i].name == name {
			row.members[i].value = value
			return
		}
	}
	row.members = append(row.members, member{name, value, row.at})
}

// drop removes a name and its value.
func (row *rawRow) drop(name string) {
	row.members = slices.DeleteFunc(row.members, func(m member) bool { return m.name == name })
}
