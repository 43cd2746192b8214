package planfile

// step leads rows from one version of the file to the next. It is called for every row of every table, for the
// settings (table "plan"), and for the rows that Deltas set, in revisions as in journal lines.
type step struct {
	row func(table string, row *rawRow)
}

// era is a version of the file and the steps that lead to it from all before it.
type era struct {
	version int
	// steps[i] leads from version i+1 to i+2.
	steps []step
}

// current is this program's era. Version 1 is the first, so no step leads to it.
var current = era{version: Version}

// stepsFrom are the steps that rows of a version have before them.
func (e era) stepsFrom(version int) []step { return e.steps[version-1:] }
