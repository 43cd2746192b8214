package revision

import (
	"fmt"
	"math"
	"slices"

	"stageloom/model/geom"
	"stageloom/model/plan"
)

// least is how far something must have moved to be worth a word, in metres.
const least = 0.1

// moved says how far and where to; up is towards the top of the plan.
func moved(from, to geom.Point) string {
	by := to.Sub(from)
	if by.Length() < least {
		return ""
	}
	words := map[bool]string{true: "left", false: "right"}[by.X < 0]
	if math.Abs(by.Y) > math.Abs(by.X) {
		words = map[bool]string{true: "bottom", false: "top"}[by.Y < 0]
	}
	return fmt.Sprintf("moved %.1f m towards the %s of the plan", by.Length(), words)
}

func (d *difference) positions() []Change {
	var l list
	rows(
		d.before.Plan.Positions, d.after.Plan.Positions,
		func(p plan.Position) { l.add(plan.RefOf(p), p.Name, "gone") },
		func(p plan.Position) { l.add(plan.RefOf(p), p.Name, "new") },
		func(old, p plan.Position) {
			l.add(plan.RefOf(p), p.Name, renamed(old.Name, p.Name), moved(old.At(), p.At()))
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
			l.add(plan.RefOf(row), row.Name, renamed(old.Name, row.Name), d.replaced(old, row), d.walked(old, row))
		},
	)
	return l.changes
}

func (d *difference) replaced(old, row plan.Device) string {
	if old.Kind == row.Kind {
		return ""
	}
	return fmt.Sprintf("now %s, was %s", kindName(d.after.Plan, row.Kind), kindName(d.before.Plan, old.Kind))
}

// walked says how far a device moved, unless its position moved along with it.
func (d *difference) walked(old, row plan.Device) string {
	carried := geom.Point{}
	was, stood := d.before.Plan.Positions.Get(plan.Key(old.Position))
	is, stands := d.after.Plan.Positions.Get(plan.Key(row.Position))
	if stood && stands && old.Position == row.Position {
		carried = is.At().Sub(was.At())
	}
	return moved(old.At().Add(carried), row.At())
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
