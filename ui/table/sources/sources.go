package sources

import (
	"stageloom/model/assess"
	"stageloom/ui/panel"
	"stageloom/ui/table"
)

// Sheet is one table of the window: its name in preferences, its title on screen, and what it holds of an assessment.
type Sheet struct {
	Name, Title string
	Of          func(a *assess.Assessment, units panel.Units) table.Source
}

// All lists the tables in the order of their tabs.
func All() []Sheet {
	return []Sheet{
		{"links", "Links", Links},
		{"cables", "Cables", Cables},
		{"devices", "Devices", Devices},
		{"stock", "Stock", Stock},
		{"inputs", "Inputs", Inputs},
		{"findings", "Findings", Findings},
		{"positions", "Positions", Positions},
		{"house lines", "House lines", HouseLines},
		{"outputs", "Outputs", Outputs},
	}
}

// Named finds a table by its name.
func Named(name string) (Sheet, bool) {
	for _, sheet := range All() {
		if sheet.Name == name {
			return sheet, true
		}
	}
	return Sheet{}, false
}
