package panel

import (
	"errors"
	"slices"
	"strings"

	"stageloom/model/assess"
	"stageloom/model/catalogue"
	"stageloom/model/geom"
	"stageloom/model/plan"
)

// exposureChoices say where a thing stands; the first says what a blank is.
func exposureChoices(blank string) []Choice {
	choices := []Choice{{"indoors", "indoors"}, {"shade", "outdoors, shade"}, {"sun", "outdoors, sun"}}
	if blank == "" {
		return choices
	}
	return slices.Insert(choices, 0, Choice{"", blank})
}

func levelChoices(p *plan.Plan, units Units) []Choice {
	choices := []Choice{{"", "ground"}}
	for level := range p.Levels.All() {
		choices = append(choices, Choice{string(level.ID), level.Name + ", " + units.Metres(level.Height)})
	}
	return choices
}

func positionChoices(p *plan.Plan) []Choice {
	choices := []Choice{{"", "none"}}
	for position := range p.Positions.All() {
		choices = append(choices, Choice{string(position.ID), position.Name})
	}
	return choices
}

// deviceForm is the form of one device or of several.
func deviceForm(a *assess.Assessment, keys []plan.Key, units Units) Form {
	p := a.Plan
	b := newForm(p.Devices, keys, units, "devices", func(r plan.Device) string { return r.Name })
	b.group("")
	if b.one() {
		b.needed("name", "Name", func(r *plan.Device) *string { return &r.Name })
	}
	b.chosen("kind", "Kind", deviceKindChoices(p), func(r plan.Device) string { return string(r.Kind) }, func(e *plan.Edit, r plan.Device, kind string) error {
		if err := catalogue.Use(e, plan.KindID(kind)); err != nil && !errors.Is(err, catalogue.ErrUnknown) {
			return err
		}
		return e.ReplaceKind(r.ID, plan.KindID(kind))
	})
	b.group("Place")
	b.chosen("position", "Position", positionChoices(p), func(r plan.Device) string { return string(r.Position) }, func(e *plan.Edit, r plan.Device, id string) error {
		return plan.Update(e, r.Key(), func(r *plan.Device) { r.Position = plan.PositionID(id) })
	})
	if b.one() {
		places(b, placing[plan.Device]{
			plan.Device.At, plan.Device.From, func(r plan.Device) bool { return r.Unplaced }, "no place: type the way",
			func(e *plan.Edit, r plan.Device, by geom.Point) {
				e.Move(plan.MovingWith(e.Now(), []plan.DeviceID{r.ID}, nil), by)
			},
			func(e *plan.Edit, r plan.Device) error { return e.TakeOff(r.ID) },
		})
	}
	if p.Levels.Len() > 0 {
		b.chosen("level", "Level", levelChoices(p, units), func(r plan.Device) string { return string(r.Level) }, func(e *plan.Edit, r plan.Device, id string) error {
			return plan.Update(e, r.Key(), func(r *plan.Device) { r.Level = plan.LevelID(id) })
		})
	}
	b.group("Surroundings")
	b.choice("exposure", "Lies", exposureChoices("as its position"), func(r *plan.Device) *string { return &r.Exposure })
	b.words("supply", "Fed from", func(r *plan.Device) *string { return &r.Supply }).blank("as its position")
	b.words("structure", "Built on", func(r *plan.Device) *string { return &r.Structure }).blank("as its position")
	b.foldUnless(func(r plan.Device) bool { return r.Exposure != "" || r.Supply != "" || r.Structure != "" })
	b.group("Note")
	b.note("note", "Note", func(r *plan.Device) *string { return &r.Note })
	b.foldUnless(func(r plan.Device) bool { return r.Note != "" })
	return b.form
}

// deviceKindChoices are the kinds of the plan, then those of the catalogue.
func deviceKindChoices(p *plan.Plan) []Choice {
	var choices []Choice
	for kind := range p.Kinds.All() {
		choices = append(choices, Choice{string(kind.ID), kind.Name})
	}
	slices.SortFunc(choices, func(a, b Choice) int { return strings.Compare(a.Words, b.Words) })
	for _, kind := range catalogue.DeviceKinds() {
		if !p.Kinds.Has(kind.Kind.Key()) {
			choices = append(choices, Choice{string(kind.Kind.ID), kind.Kind.Name})
		}
	}
	return choices
}

// placing says how a row stands on the ground: where, from where a typed coordinate moves it, whether it has no place and what
// a blank says then, how it moves and how it is taken off.
type placing[R plan.Row] struct {
	at, from func(R) geom.Point
	unplaced func(R) bool
	blank    string
	move     func(*plan.Edit, R, geom.Point)
	takeOff  func(*plan.Edit, R) error
}

// places adds the two coordinates; a change moves the row with all that goes with it, and blanking one of them takes its
// place away.
func places[R plan.Row](b *rowsForm[R], p placing[R]) {
	m := b.units.coordinate()
	for _, axis := range []struct {
		id, name string
		of       func(geom.Point) float64
		to       func(from geom.Point, v float64) geom.Point
	}{
		{"x", "To the right", func(p geom.Point) float64 { return p.X }, func(from geom.Point, v float64) geom.Point { return geom.Point{X: v, Y: from.Y} }},
		{"y", "Up the page", func(p geom.Point) float64 { return p.Y }, func(from geom.Point, v float64) geom.Point { return geom.Point{X: from.X, Y: v} }},
	} {
		f := b.add(axis.id, axis.name, func(r R) string {
			if p.unplaced(r) {
				return ""
			}
			return m.print(axis.of(p.at(r)))
		})
		f.blank(p.blank)
		b.editing(f, func(text string) (func(*plan.Edit, R) error, error) {
			if text == "" {
				return p.takeOff, nil
			}
			to, err := m.within(text)
			return func(e *plan.Edit, r R) error {
				p.move(e, r, axis.to(p.from(r), to).Sub(p.at(r)))
				return nil
			}, err
		})
	}
}

// outline makes a field stretch the outline of positions, which takes in the devices that it covers then.
func outline(b *rowsForm[plan.Position], f *FormField) {
	f.blank("a spot")
	change, rows := f.edit, b.rows
	f.edit = func(text string) (func(*plan.Edit) error, error) {
		stretch, err := change(text)
		if err != nil {
			return nil, err
		}
		return func(e *plan.Edit) error {
			if err := stretch(e); err != nil {
				return err
			}
			for _, row := range rows {
				e.TakeIn(row.ID)
			}
			return nil
		}, nil
	}
}

// positionForm is the form of one position or of several.
func positionForm(a *assess.Assessment, keys []plan.Key, units Units) Form {
	b := newForm(a.Plan.Positions, keys, units, "positions", func(r plan.Position) string { return r.Name })
	b.group("")
	if b.one() {
		b.needed("name", "Name", func(r *plan.Position) *string { return &r.Name })
	}
	b.group("Place")
	if b.one() {
		places(b, placing[plan.Position]{
			plan.Position.At, plan.Position.From, func(r plan.Position) bool { return r.Unplaced }, "no place",
			func(e *plan.Edit, r plan.Position, by geom.Point) {
				e.Move(plan.MovingWith(e.Now(), nil, []plan.PositionID{r.ID}), by)
			},
			func(e *plan.Edit, r plan.Position) error {
				return plan.Update(e, r.Key(), func(r *plan.Position) { r.Unplaced = true })
			},
		})
	}
	outline(b, b.fromNought("width", "Width", units.length(0, 2000), func(r *plan.Position) *float64 { return &r.Width }))
	outline(b, b.fromNought("depth", "Depth", units.length(0, 2000), func(r *plan.Position) *float64 { return &r.Depth }))
	if a.Plan.Levels.Len() > 0 {
		b.chosen("level", "Level", levelChoices(a.Plan, units), func(r plan.Position) string { return string(r.Level) }, func(e *plan.Edit, r plan.Position, id string) error {
			return plan.Update(e, r.Key(), func(r *plan.Position) { r.Level = plan.LevelID(id) })
		})
	}
	b.group("Surroundings")
	b.choice("exposure", "Lies", exposureChoices("as the plan says"), func(r *plan.Position) *string { return &r.Exposure })
	b.words("supply", "Fed from", func(r *plan.Position) *string { return &r.Supply }).blank("not stated")
	b.words("structure", "Built on", func(r *plan.Position) *string { return &r.Structure }).blank("not stated")
	b.note("note", "Note", func(r *plan.Position) *string { return &r.Note })
	return b.form
}

// areaForm is the form of one area or of several.
func areaForm(a *assess.Assessment, keys []plan.Key, units Units) Form {
	b := newForm(a.Plan.Areas, keys, units, "areas", func(r plan.Area) string { return r.Name })
	b.group("")
	if b.one() {
		b.needed("name", "Name", func(r *plan.Area) *string { return &r.Name })
	}
	var uses []Choice
	for _, use := range []string{"stage", "building", "road", "water", "crowd", "walkway", "exit", "fire-lane"} {
		uses = append(uses, Choice{use, strings.ReplaceAll(use, "-", " ")})
	}
	b.choice("use", "Use", uses, func(r *plan.Area) *string { return &r.Use })
	b.note("note", "Note", func(r *plan.Area) *string { return &r.Note })
	return b.form
}

// loomForm is the form of one loom or of several.
func loomForm(a *assess.Assessment, keys []plan.Key, units Units) Form {
	b := newForm(a.Plan.Looms, keys, units, "looms", func(r plan.Loom) string { return r.Name })
	b.group("")
	if b.one() {
		b.needed("name", "Name", func(r *plan.Loom) *string { return &r.Name })
	}
	b.words("colour", "Tape colour", func(r *plan.Loom) *string { return &r.Colour })
	b.yesOrNo("stock", "Tied for good", func(r *plan.Loom) *bool { return &r.Stock })
	b.note("note", "Note", func(r *plan.Loom) *string { return &r.Note })
	return b.form
}
