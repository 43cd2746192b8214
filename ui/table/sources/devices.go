package sources

import (
	"slices"
	"strings"

	"stageloom/model/assess"
	"stageloom/model/catalogue"
	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/ui/panel"
	"stageloom/ui/table"
)

// deviceRow is a device with the names of what it refers to.
type deviceRow struct {
	device                plan.Device
	kind, position, level string
	links                 int
}

// Devices is a row a device, in the natural order of their names.
func Devices(a *assess.Assessment, units panel.Units) table.Source {
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
		Fields: slices.Concat(deviceNames(p), deviceAt(p, units), surroundings(
			func(r deviceRow) (exposure, supply, structure string) {
				return r.device.Exposure, r.device.Supply, r.device.Structure
			},
			func(d *plan.Device) *string { return &d.Exposure },
			func(d *plan.Device) *string { return &d.Supply },
			func(d *plan.Device) *string { return &d.Structure },
		), []table.Field[deviceRow]{{
			Column: column("note", "Note", 160, "anything the crew should know."),
			Text:   func(r deviceRow) string { return r.device.Note },
			Set:    note(func(d *plan.Device) *string { return &d.Note }),
		}}),
	}
}

func deviceNames(p *plan.Plan) []table.Field[deviceRow] {
	kinds, positions := &catalogued{}, &catalogued{}
	for kind := range p.Kinds.All() {
		kinds.add(kind.Name, string(kind.ID))
	}
	for _, kind := range catalogue.DeviceKinds() {
		kinds.add(kind.Kind.Name, string(kind.Kind.ID))
	}
	for position := range p.Positions.All() {
		positions.add(position.Name, string(position.ID))
	}
	return []table.Field[deviceRow]{
		{
			Column: naming(column("name", "Device", 120, "what it is called on plan and labels.")),
			Text:   func(r deviceRow) string { return r.device.Name },
			Set:    named(func(d *plan.Device) *string { return &d.Name }),
		},
		{
			Column:  choice("kind", "Kind", 190, "what it is; another kind must have the ports that its links hold."),
			Text:    func(r deviceRow) string { return r.kind },
			Choices: fixed[deviceRow](kinds.names...),
			Set: func(e *plan.Edit, ref plan.Ref, typed string) error {
				id, err := kinds.id(typed)
				if err == nil {
					err = catalogue.Use(e, plan.KindID(id))
				}
				if err == nil {
					err = e.ReplaceKind(plan.DeviceID(ref.Key), plan.KindID(id))
				}
				return err
			},
		},
		{
			Column:  choice("position", "Position", 110, "the position that it moves with; blank is none."),
			Text:    func(r deviceRow) string { return r.position },
			Choices: fixed[deviceRow](append([]string{""}, positions.names...)...),
			Set:     refers(positions, func(d *plan.Device, id string) { d.Position = plan.PositionID(id) }),
		},
		{
			Column: number("links", "Links", 56, "how many links are plugged in."),
			Text:   func(r deviceRow) string { return count(r.links) },
			Value:  func(r deviceRow) float64 { return float64(r.links) },
		},
	}
}

// refers sets a reference to a row that is named; blank is none.
func refers[R plan.Row](names *catalogued, at func(row *R, id string)) table.Setter {
	return updates(func(row *R, typed string) error {
		if typed == "" {
			at(row, "")
			return nil
		}
		id, err := names.id(typed)
		if err == nil {
			at(row, id)
		}
		return err
	})
}

func levels(p *plan.Plan) *catalogued {
	names := &catalogued{}
	for level := range p.Levels.All() {
		names.add(level.Name, string(level.ID))
	}
	return names
}

func deviceAt(p *plan.Plan, units panel.Units) []table.Field[deviceRow] {
	names := levels(p)
	move := moving(units, func(e *plan.Edit, key plan.Key) (plan.Moving, geom.Point, geom.Point) {
		device, _ := e.Now().Devices.Get(key)
		return plan.MovingWith(e.Now(), []plan.DeviceID{device.ID}, nil), device.From(), device.At()
	})
	placed := func(metres func(plan.Device) float64) (func(deviceRow) string, func(deviceRow) float64) {
		return func(r deviceRow) string {
			if r.device.Unplaced {
				return ""
			}
			return units.Metres(metres(r.device))
		}, func(r deviceRow) float64 { return numbered(metres(r.device), !r.device.Unplaced) }
	}
	xText, xValue := placed(func(d plan.Device) float64 { return d.X })
	yText, yValue := placed(func(d plan.Device) float64 { return d.Y })
	return []table.Field[deviceRow]{
		{
			Column: number("x", "To the right", 98, "metres to the right of the plan's zero; blank is a device without a place, whose links have the lengths that are typed."),
			Text:   xText,
			Value:  xValue,
			Set:    orUnplaced(move(func(at geom.Point, value float64) geom.Point { return geom.Point{X: value, Y: at.Y} })),
		},
		{
			Column: number("y", "Up the page", 98, "metres up the page from the plan's zero; blank is a device without a place, whose links have the lengths that are typed."),
			Text:   yText,
			Value:  yValue,
			Set:    orUnplaced(move(func(at geom.Point, value float64) geom.Point { return geom.Point{X: at.X, Y: value} })),
		},
		{
			Column:  aside(choice("level", "Level", 80, "the level that it stands on; blank is the ground.")),
			Text:    func(r deviceRow) string { return r.level },
			Choices: fixed[deviceRow](append([]string{""}, names.names...)...),
			Set:     refers(names, func(d *plan.Device, id string) { d.Level = plan.LevelID(id) }),
		},
	}
}

// orUnplaced takes the place of a device or a position away where its coordinate is blanked.
func orUnplaced(set table.Setter) table.Setter {
	return func(e *plan.Edit, ref plan.Ref, typed string) error {
		if strings.TrimSpace(typed) != "" {
			return set(e, ref, typed)
		}
		if ref.Table == "positions" {
			return plan.Update(e, ref.Key, func(p *plan.Position) { p.Unplaced = true })
		}
		return e.TakeOff(plan.DeviceID(ref.Key))
	}
}

// moving gives setters that move what stands somewhere to a coordinate that was typed, with all that moves along. What has no
// place sets out from the plan's zero, wherever it is drawn.
func moving(units panel.Units, what func(*plan.Edit, plan.Key) (moves plan.Moving, from, at geom.Point)) func(to func(at geom.Point, value float64) geom.Point) table.Setter {
	return func(to func(at geom.Point, value float64) geom.Point) table.Setter {
		return func(e *plan.Edit, ref plan.Ref, typed string) error {
			value, err := coordinate(units).parse(typed)
			if err != nil {
				return err
			}
			moves, from, at := what(e, ref.Key)
			e.Move(moves, to(from, value).Sub(at))
			return nil
		}
	}
}

// surroundings are exposure, supply and structure, which devices and positions share.
func surroundings[R any, P plan.Row](of func(R) (exposure, supply, structure string), exposure, supply, structure func(*P) *string) []table.Field[R] {
	return []table.Field[R]{
		{
			Column:  aside(choice("exposure", "Exposure", 76, "indoors, shade or sun: it decides how warm cable is; blank is that of what it stands in.")),
			Text:    func(r R) string { text, _, _ := of(r); return text },
			Choices: fixed[R]("", "indoors", "shade", "sun"),
			Set:     oneOf(exposure, "", "indoors", "shade", "sun"),
		},
		{
			Column: aside(column("supply", "Supply", 90, "which mains supply feeds it; copper between two of them is a finding.")),
			Text:   func(r R) string { _, text, _ := of(r); return text },
			Set:    words(supply),
		},
		{
			Column: aside(column("structure", "Structure", 90, "the structure that it stands in or on.")),
			Text:   func(r R) string { _, _, text := of(r); return text },
			Set:    words(structure),
		},
	}
}

// positionRow is a position with what stands in it.
type positionRow struct {
	position plan.Position
	level    string
	devices  []string
}

// Positions is a row a position, in the natural order of their names.
func Positions(a *assess.Assessment, units panel.Units) table.Source {
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
	slices.SortFunc(rows, func(x, y positionRow) int { return assess.Natural(x.position.Name, y.position.Name) })
	return &table.List[positionRow]{
		ID: "positions", One: "position", Many: "positions", Rows: rows,
		First:  "There is no position yet. Select devices that stand together and take Position round the selection from the Edit menu.",
		RefOf:  func(r positionRow) plan.Ref { return plan.RefOf(r.position) },
		NameOf: func(r positionRow) string { return r.position.Name },
		Fields: slices.Concat(positionFields(a.Plan, units), surroundings(
			func(r positionRow) (exposure, supply, structure string) {
				return r.position.Exposure, r.position.Supply, r.position.Structure
			},
			func(d *plan.Position) *string { return &d.Exposure },
			func(d *plan.Position) *string { return &d.Supply },
			func(d *plan.Position) *string { return &d.Structure },
		), []table.Field[positionRow]{{
			Column: column("note", "Note", 160, "anything the crew should know."),
			Text:   func(r positionRow) string { return r.position.Note },
			Set:    note(func(d *plan.Position) *string { return &d.Note }),
		}}),
	}
}

// takingIn makes a position whose outline changes take in the devices that it covers then.
func takingIn(set table.Setter) table.Setter {
	return func(e *plan.Edit, ref plan.Ref, typed string) error {
		err := set(e, ref, typed)
		if err == nil {
			e.TakeIn(plan.PositionID(ref.Key))
		}
		return err
	}
}

// placedText is a coordinate in words, blank where a position has no place.
func placedText(position plan.Position, text string) string {
	if position.Unplaced {
		return ""
	}
	return text
}

func positionFields(p *plan.Plan, units panel.Units) []table.Field[positionRow] {
	names := levels(p)
	move := moving(units, func(e *plan.Edit, key plan.Key) (plan.Moving, geom.Point, geom.Point) {
		position, _ := e.Now().Positions.Get(key)
		return plan.MovingWith(e.Now(), nil, []plan.PositionID{position.ID}), position.From(), position.At()
	})
	size := metres(units, 0, 2000)
	return []table.Field[positionRow]{
		{
			Column: naming(column("name", "Position", 130, "what it is called.")),
			Text:   func(r positionRow) string { return r.position.Name },
			Set:    named(func(d *plan.Position) *string { return &d.Name }),
		},
		{
			Column: column("devices", "Devices", 220, "what stands there and moves with it."),
			Text:   func(r positionRow) string { return strings.Join(r.devices, ", ") },
		},
		{
			Column: number("x", "To the right", 98, "of its middle, from the plan's zero; its devices move along. Blank is a position without a place."),
			Text:   func(r positionRow) string { return placedText(r.position, units.Metres(r.position.X)) },
			Value:  func(r positionRow) float64 { return numbered(r.position.X, !r.position.Unplaced) },
			Set:    orUnplaced(move(func(at geom.Point, value float64) geom.Point { return geom.Point{X: value, Y: at.Y} })),
		},
		{
			Column: number("y", "Up the page", 98, "of its middle, from the plan's zero; its devices move along. Blank is a position without a place."),
			Text:   func(r positionRow) string { return placedText(r.position, units.Metres(r.position.Y)) },
			Value:  func(r positionRow) float64 { return numbered(r.position.Y, !r.position.Unplaced) },
			Set:    orUnplaced(move(func(at geom.Point, value float64) geom.Point { return geom.Point{X: at.X, Y: value} })),
		},
		{
			Column: number("width", "Width", 64, "of its outline; blank is a spot."),
			Text:   func(r positionRow) string { return figureText(r.position.Width, units.Metres) },
			Value:  func(r positionRow) float64 { return r.position.Width },
			Set:    takingIn(measured(size, true, func(d *plan.Position) *float64 { return &d.Width })),
		},
		{
			Column: number("depth", "Depth", 64, "of its outline; blank is a spot."),
			Text:   func(r positionRow) string { return figureText(r.position.Depth, units.Metres) },
			Value:  func(r positionRow) float64 { return r.position.Depth },
			Set:    takingIn(measured(size, true, func(d *plan.Position) *float64 { return &d.Depth })),
		},
		{
			Column:  aside(choice("level", "Level", 80, "the level that it lies on; blank is the ground.")),
			Text:    func(r positionRow) string { return r.level },
			Choices: fixed[positionRow](append([]string{""}, names.names...)...),
			Set:     refers(names, func(d *plan.Position, id string) { d.Level = plan.LevelID(id) }),
		},
	}
}
