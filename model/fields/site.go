package fields

import (
	"errors"
	"slices"

	"stageloom/model/catalogue"
	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/model/words"
)

func deviceFields() []*Field {
	d := definer{plan.DevicesTable}
	return []*Field{
		d.field("name", "name", "Device", "what it is called on plan and labels."),
		d.field("kind", "kind", "Kind", "what it is; another kind must have the ports that its links hold.").among(deviceKinds).by(putDeviceKind),
		d.field("position", "position", "Position", "the position that it moves with; blank is none."),
		d.place("x", "x_m", "To the right", "of the plan's zero; blank is a device without a place, whose links have the lengths that are typed."),
		d.place("y", "y_m", "Up the page", "from the plan's zero; blank is a device without a place, whose links have the lengths that are typed."),
		d.field("level", "level", "Level", "the level that it stands on; blank is the ground.").among(levels),
		d.field("exposure", "exposure", "Exposure", exposureHelp).worded(exposures("as its position")),
		d.field("supply", "supply", "Supply", "which mains supply feeds it; copper between two of them is a finding.").ifBlank("as its position"),
		d.field("structure", "structure", "Structure", "the structure that it stands in or on.").ifBlank("as its position"),
		d.field("passes_on", "passes_on", "Passes signals on", "yes: this console sends what it receives on to others, as the patch then says by its name; no: a signal ends there.").when(consoles),
		d.field("rate", "sample_rate_kHz", "Sample rate", "of its audio; links carry half the channels at twice the rate.").worded(map[string]string{"": "as the plan says", "44.1": "44.1 kHz", "48": "48 kHz", "88.2": "88.2 kHz", "96": "96 kHz"}),
		d.field("converts", "converts_sample_rate", "Converts sample rates", "yes: each of its links runs at the rate of its other end."),
		d.field("note", "note", "Note", "anything the crew should know."),
	}
}

// consoles reports whether a device is one in which signals end.
func consoles(s State, row any) bool {
	device, is := row.(plan.Device)
	kind, _ := s.Plan.Kinds.Get(plan.Key(device.Kind))
	return is && kind.Mixes()
}

func positionFields() []*Field {
	d := definer{plan.PositionsTable}
	return []*Field{
		d.field("name", "name", "Position", "what it is called."),
		d.place("x", "x_m", "To the right", "of the plan's zero, of its middle; its devices move along. Blank is a position without a place."),
		d.place("y", "y_m", "Up the page", "from the plan's zero, of its middle; its devices move along. Blank is a position without a place."),
		d.field("width", "width_m", "Width", "of its outline; blank is a spot.").ifBlank("a spot").takingIn(),
		d.field("depth", "depth_m", "Depth", "of its outline; blank is a spot.").ifBlank("a spot").takingIn(),
		d.field("level", "level", "Level", "the level that it lies on; blank is the ground.").among(levels),
		d.field("exposure", "exposure", "Exposure", exposureHelp).worded(exposures("as the plan says")),
		d.field("supply", "supply", "Supply", "which mains supply feeds it; copper between two of them is a finding.").ifBlank("not stated"),
		d.field("structure", "structure", "Structure", "the structure that it is in or on.").ifBlank("not stated"),
		d.field("note", "note", "Note", "anything the crew should know."),
	}
}

func areaFields() []*Field {
	d := definer{plan.AreasTable}
	return []*Field{
		d.field("name", "name", "Area", "what it is called."),
		d.field("use", "use", "Use", "what it is used for, which decides the cautions where cable crosses it."),
		d.field("note", "note", "Note", "anything the crew should know."),
	}
}

func loomFields() []*Field {
	d := definer{plan.LoomsTable}
	return []*Field{
		d.field("name", "name", "Loom", "what it is called."),
		d.field("colour", "tape_colour", "Tape colour", "of the tape at both ends."),
		d.field("stock", "stock_loom", "Tied for good", "yes: it is taken out of its case as it is."),
		d.field("note", "note", "Note", "anything the crew should know."),
	}
}

func levelFields() []*Field {
	d := definer{plan.LevelsTable}
	return []*Field{
		d.field("name", "name", "Level", "what it is called."),
		d.field("height", "height_m", "Height", "above the ground, for instance 1.6 m or 5 ft."),
	}
}

func contactFields() []*Field {
	d := definer{plan.ContactsTable}
	return []*Field{
		d.field("name", "name", "Contact", "who can be rung."),
		d.field("role", "role", "Role", "what they answer for."),
		d.field("phone", "phone", "Phone", "their number."),
	}
}

const exposureHelp = "indoors, shade or sun: it decides how warm cable is; blank is that of what it stands in."

// exposures are the words of where a thing stands; blank says what a blank is.
func exposures(blank string) map[string]string {
	return map[string]string{"": blank}
}

// deviceKinds are the kinds of the plan, then those of the catalogue.
func deviceKinds(s State, _ any) (options []Option) {
	for kind := range s.Plan.Kinds.All() {
		options = append(options, Option{string(kind.ID), kind.Name})
	}
	slices.SortFunc(options, func(a, b Option) int { return words.Natural(a.Words, b.Words) })
	for _, kind := range catalogue.DeviceKinds() {
		if !s.Plan.Kinds.Has(kind.Kind.Key()) {
			options = append(options, Option{string(kind.Kind.ID), kind.Kind.Name})
		}
	}
	return options
}

// putDeviceKind gives a device another kind, which comes into the plan with it.
func putDeviceKind(_ State, e *plan.Edit, key plan.Key, value string) error {
	if err := catalogue.Use(e, plan.KindID(value)); err != nil && !errors.Is(err, catalogue.ErrUnknown) {
		return err
	}
	return e.ReplaceKind(plan.DeviceID(key), plan.KindID(value))
}

// levels lists the levels with their heights; the ground is none.
func levels(s State, _ any) []Option {
	options := []Option{{"", "ground"}}
	for level := range s.Plan.Levels.All() {
		options = append(options, Option{string(level.ID), level.Name})
	}
	return options
}

// takingIn makes a position whose outline changes take in the devices that it covers then.
func (f *Field) takingIn() *Field {
	f.then = func(e *plan.Edit, key plan.Key) error {
		e.TakeIn(plan.PositionID(key))
		return nil
	}
	return f
}

// place makes a field of one coordinate: a change moves the row with all that goes with it, and a blank takes its place away.
func (d definer) place(id, column, name, help string) *Field {
	f := d.field(id, column, name, help).alone()
	isY := id == "y"
	said := func(s State, row any) string {
		if unplaced(row) {
			return ""
		}
		return f.saidOf(s, row, f.column.Of(row))
	}
	return f.saying(said).ifBlank("no place: type the way").by(func(s State, e *plan.Edit, key plan.Key, value string) error {
		if value == "" {
			return takeOff(e, f.Table, key)
		}
		figure, err := f.figure(s, value)
		if err != nil {
			return err
		}
		at, from, moving := standing(e.Now(), f.Table, key)
		to := geom.Point{X: figure, Y: from.Y}
		if isY {
			to = geom.Point{X: from.X, Y: figure}
		}
		e.Move(moving, to.Sub(at))
		return nil
	})
}

// unplaced reports whether a device or a position is in the list only.
func unplaced(row any) bool {
	if position, is := row.(plan.Position); is {
		return position.Unplaced
	}
	device, _ := row.(plan.Device)
	return device.Unplaced
}

// takeOff takes the place of a device or a position away.
func takeOff(e *plan.Edit, table string, key plan.Key) error {
	if table == plan.PositionsTable {
		return plan.Update(e, key, func(p *plan.Position) { p.Unplaced = true })
	}
	return e.TakeOff(plan.DeviceID(key))
}

// standing says where a device or a position is drawn, from where a typed coordinate moves it, and what moves when it does.
func standing(p *plan.Plan, table string, key plan.Key) (at, from geom.Point, moving plan.Moving) {
	if table == plan.PositionsTable {
		position, _ := p.Positions.Get(key)
		return position.At(), position.From(), plan.MovingWith(p, nil, []plan.PositionID{position.ID})
	}
	device, _ := p.Devices.Get(key)
	return device.At(), device.From(), plan.MovingWith(p, []plan.DeviceID{device.ID}, nil)
}
