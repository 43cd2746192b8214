package sources

import (
	"stageloom/model/assess"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/table"
)

// View is how a table looks at a plan: in which units, and at which act. Channels tells that an input that is moved to
// another socket keeps its channels.
type View struct {
	Units    words.Units
	Act      plan.ActID
	Channels bool
	// Used leaves out what the house has and the act does not use.
	Used bool
}

// Table is one table of the window: its name in preferences, its title on screen, and what it holds of an assessment. Acts
// tells that it shows one act at a time.
type Table struct {
	Name, Title string
	Acts        bool
	Of          func(a *assess.Assessment, at View) table.Source
}

// always is a table that is the same in all acts.
func always(of func(*assess.Assessment, words.Units) table.Source) func(*assess.Assessment, View) table.Source {
	return func(a *assess.Assessment, at View) table.Source { return of(a, at.Units) }
}

// All lists the tables in the order of their tabs.
func All() []Table {
	return []Table{
		{"links", "Links", false, always(Links)},
		{"cables", "Cables", false, always(Cables)},
		{"devices", "Devices", false, always(Devices)},
		{"stock", "Stock", false, always(Stock)},
		{"inputs", "Inputs", false, always(Inputs)},
		{"findings", "Findings", false, always(Findings)},
		{"patch", "Patch", true, Patch},
		{"sockets", "Sockets", true, Sockets},
		{"acts", "Acts", false, always(Acts)},
		{"outputs", "Outputs", true, Outputs},
		{"positions", "Positions", false, always(Positions)},
		{"house lines", "House lines", false, always(HouseLines)},
	}
}

// Named finds a table by its name.
func Named(name string) (Table, bool) {
	for _, sheet := range All() {
		if sheet.Name == name {
			return sheet, true
		}
	}
	return Table{}, false
}
