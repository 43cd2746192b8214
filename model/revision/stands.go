package revision

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/model/quantity"
)

// least is how far something must have moved to be worth a word, in metres.
const least = 0.1

// moved says how far something moved across the plan and up or down it: "moved 35.0 m right and 20.0 m up". What is less
// than a tenth of a metre is left out, unless nothing else would be said.
func (d *difference) moved(from, to geom.Point) string {
	by := to.Sub(from)
	if by.Length() < least {
		return ""
	}
	var said []string
	along := func(way float64, forward, back string) {
		word := map[bool]string{true: back, false: forward}[way < 0]
		if math.Abs(way) >= least || math.Hypot(least, least) > by.Length() {
			said = append(said, quantity.PrintLength(math.Abs(way), d.system, 1)+" "+word)
		}
	}
	along(by.X, "right", "left")
	along(by.Y, "up", "down")
	return "moved " + strings.Join(said, " and ")
}

func (d *difference) positions() []Change {
	var l list
	rows(
		d.before.Plan.Positions, d.after.Plan.Positions,
		func(p plan.Position) { l.add(plan.RefOf(p), p.Name, "gone") },
		func(p plan.Position) { l.add(plan.RefOf(p), p.Name, "new") },
		func(old, p plan.Position) {
			l.add(plan.RefOf(p), p.Name, renamed(old.Name, p.Name), d.went(old.Unplaced, p.Unplaced, func() string { return d.moved(old.At(), p.At()) }))
		},
	)
	return l.changes
}

func (d *difference) devices() []Change {
	var l list
	rows(
		d.before.Plan.Devices, d.after.Plan.Devices,
		func(row plan.Device) { l.add(plan.RefOf(row), row.Name, "gone") },
		func(row plan.Device) { l.add(plan.RefOf(row), row.Name, "new: "+kindName(d.after.Plan, row.Kind)) },
		func(old, row plan.Device) {
			said := told(renamed(old.Name, row.Name), d.replaced(old, row), d.walked(old, row), d.joined(old, row))
			l.add(plan.RefOf(row), row.Name, orDetails(said, stripped(old) != stripped(row))...)
		},
	)
	return l.changes
}

// joined says to which position a device belongs now when it was another.
func (d *difference) joined(old, row plan.Device) string {
	if old.Position == row.Position {
		return ""
	}
	is, found := d.after.Plan.Positions.Get(plan.Key(row.Position))
	if !found || row.Position == "" {
		return "now at no position"
	}
	return "now at " + cmp.Or(is.Name, "a position without a name")
}

// stripped is a device without where it stands, which is told by itself or by its position.
func stripped(row plan.Device) plan.Device {
	row.X, row.Y, row.Position, row.Unplaced = 0, 0, "", false
	return row
}

// told are the words that say something.
func told(words ...string) []string {
	return slices.DeleteFunc(words, func(s string) bool { return s == "" })
}

// orDetails are the words, or, where there are none and a row differs all the same, that its details do.
func orDetails(words []string, differ bool) []string {
	if len(words) == 0 && differ {
		return []string{"changed in its details"}
	}
	return words
}

func (d *difference) replaced(old, row plan.Device) string {
	if old.Kind == row.Kind {
		return ""
	}
	return fmt.Sprintf("now %s, was %s", kindName(d.after.Plan, row.Kind), kindName(d.before.Plan, old.Kind))
}

// walked says how far a device moved, unless its position moved along with it.
func (d *difference) walked(old, row plan.Device) string {
	return d.went(old.Unplaced, row.Unplaced, func() string { return d.moved(old.At().Add(d.carried(old, row)), row.At()) })
}

// went says how a thing moved on the ground, or that it got its place or lost it; what has none does not move.
func (d *difference) went(was, is bool, moved func() string) string {
	switch {
	case was && is:
		return ""
	case is:
		return "taken off the plan: no place on the ground"
	case was:
		return "now placed on the plan"
	}
	return moved()
}

// carried is how far the position of a device moved that it kept.
func (d *difference) carried(old, row plan.Device) geom.Point {
	was, stood := d.before.Plan.Positions.Get(plan.Key(old.Position))
	is, stands := d.after.Plan.Positions.Get(plan.Key(row.Position))
	if stood && stands && old.Position == row.Position && !was.Unplaced && !is.Unplaced {
		return is.At().Sub(was.At())
	}
	return geom.Point{}
}

// surroundings are areas and routes: that one changed, not how.
func (d *difference) surroundings() []Change {
	var l list
	rows(
		d.before.Plan.Areas, d.after.Plan.Areas,
		func(a plan.Area) { l.add(plan.RefOf(a), a.Name, "gone") },
		func(a plan.Area) { l.add(plan.RefOf(a), a.Name, "new") },
		func(old, a plan.Area) { l.add(plan.RefOf(a), a.Name, renamed(old.Name, a.Name), used(old, a)) },
	)
	for area := range d.after.Plan.Areas.All() {
		old, now := d.before.Plan.AreaPoints.Under(area.Key()), d.after.Plan.AreaPoints.Under(area.Key())
		if d.before.Plan.Areas.Has(area.Key()) && !slices.Equal(old, now) {
			l.add(plan.RefOf(area), area.Name, "other outline")
		}
	}
	rows(
		d.before.Plan.Routes, d.after.Plan.Routes,
		func(r plan.Route) { l.add(plan.RefOf(r), r.Name, "gone") },
		func(r plan.Route) { l.add(plan.RefOf(r), r.Name, "new") },
		func(old, r plan.Route) { l.add(plan.RefOf(r), r.Name, renamed(old.Name, r.Name)) },
	)
	return l.changes
}

func used(old, now plan.Area) string {
	if old.Use == now.Use {
		return ""
	}
	return fmt.Sprintf("now %s, was %s", now.Use, old.Use)
}

func kindName(p *plan.Plan, id plan.KindID) string {
	kind, _ := p.Kinds.Get(plan.Key(id))
	return kind.Name
}
