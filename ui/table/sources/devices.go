package sources

import (
	"slices"
	"strings"

	"stageloom/model/assess"
	"stageloom/model/fields"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/table"
)

// deviceRow is a device with the names of what it refers to.
type deviceRow struct {
	device                plan.Device
	kind, position, level string
	links                 int
}

// Devices is a row a device, in the natural order of their names.
func Devices(a *assess.Assessment, units words.Units) table.Source {
	p := a.Plan
	plugged := map[plan.DeviceID]int{}
	for link := range p.Links.All() {
		plugged[link.From]++
		plugged[link.To]++
	}
	var rows []deviceRow
	for _, device := range a.Devices() {
		kind, _ := p.Kinds.Get(plan.Key(device.Kind))
		position, _ := p.Positions.Get(plan.Key(device.Position))
		level, _ := p.Levels.Get(plan.Key(device.Level))
		rows = append(rows, deviceRow{device, kind.Name, position.Name, level.Name, plugged[device.ID]})
	}
	return &table.List[deviceRow]{
		ID: "devices", One: "device", Many: "devices", Rows: rows,
		First:  "There is no device yet. New device adds one, on the plan or in this list only; or press Ctrl E, type what you look for and press Enter.",
		RefOf:  func(r deviceRow) plan.Ref { return plan.RefOf(r.device) },
		NameOf: func(r deviceRow) string { return r.device.Name },
		Fields: deviceFields(asField[deviceRow]{plan.DevicesTable, fields.On(p, a.Reckoner(), units), func(r deviceRow) any { return r.device }}),
	}
}

func deviceFields(as asField[deviceRow]) []table.ColumnOf[deviceRow] {
	return []table.ColumnOf[deviceRow]{
		as.column("name", 120), as.column("kind", 190), as.column("position", 110),
		{
			Column: number("links", "Links", 56, "how many links are plugged in."),
			Text:   func(r deviceRow) string { return count(r.links) },
			Value:  func(r deviceRow) float64 { return float64(r.links) },
		},
		as.column("x", 98), as.column("y", 98), as.aside("level", 80),
		as.aside("exposure", 116), as.aside("supply", 90), as.aside("structure", 90), as.aside("passes_on", 134), as.column("rate", 116), as.aside("converts", 166), as.column("note", 160),
	}
}

// positionRow is a position with what stands in it.
type positionRow struct {
	position plan.Position
	level    string
	devices  []string
}

// Positions is a row a position, in the natural order of their names.
func Positions(a *assess.Assessment, units words.Units) table.Source {
	var rows []positionRow
	for position := range a.Plan.Positions.All() {
		level, _ := a.Plan.Levels.Get(plan.Key(position.Level))
		row := positionRow{position: position, level: level.Name}
		for _, device := range a.Devices() {
			if device.Position == position.ID {
				row.devices = append(row.devices, device.Name)
			}
		}
		rows = append(rows, row)
	}
	slices.SortFunc(rows, func(x, y positionRow) int { return words.Natural(x.position.Name, y.position.Name) })
	return &table.List[positionRow]{
		ID: "positions", One: "position", Many: "positions", Rows: rows,
		First:  "There is no position yet. Select devices that stand together and take Position round the selection from the Edit menu.",
		RefOf:  func(r positionRow) plan.Ref { return plan.RefOf(r.position) },
		NameOf: func(r positionRow) string { return r.position.Name },
		Fields: positionColumns(asField[positionRow]{plan.PositionsTable, fields.On(a.Plan, a.Reckoner(), units), func(r positionRow) any { return r.position }}),
	}
}

func positionColumns(as asField[positionRow]) []table.ColumnOf[positionRow] {
	return []table.ColumnOf[positionRow]{
		as.column("name", 130),
		{
			Column: column("devices", "Devices", 220, "what stands there and moves with it."),
			Text:   func(r positionRow) string { return strings.Join(r.devices, ", ") },
		},
		as.column("x", 98), as.column("y", 98), as.column("width", 64), as.column("depth", 64), as.aside("level", 80),
		as.aside("exposure", 116), as.aside("supply", 90), as.aside("structure", 90), as.column("note", 160),
	}
}
