// Package builder lays the rows of invented plans and finds them again by name: those that the program ships with, and those
// that tests are made with.
package builder

import (
	"fmt"

	"stageloom/model/catalogue"
	"stageloom/model/geom"
	"stageloom/model/plan"
)

// Builder lays rows into one edit and finds them again by name.
type Builder struct {
	Edit *plan.Edit
	// Devices, links and reels by their names and tags.
	Devices map[string]plan.DeviceID
	Links   map[string]plan.LinkID
	Reels   map[string]plan.ReelID

	positions map[string]plan.PositionID
	ids       *plan.IDSource
}

// Plan makes a plan from a seed; one that the plan itself refuses is a programmer's mistake.
func Plan(name string, seed uint64, lay func(*Builder)) *plan.Plan {
	return On(plan.New(name), seed, lay)
}

// On adds to a plan, as [Plan] does to an empty one. It finds what it has laid itself alone.
func On(p *plan.Plan, seed uint64, lay func(*Builder)) *plan.Plan {
	ids := plan.NewIDSource(seed, 0x57A6E)
	next, err := plan.Do(p, ids, func(e *plan.Edit) error {
		lay(&Builder{
			Edit: e, ids: ids, positions: map[string]plan.PositionID{}, Devices: map[string]plan.DeviceID{},
			Links: map[string]plan.LinkID{}, Reels: map[string]plan.ReelID{},
		})
		return nil
	})
	Must(err)
	return next
}

// Must stops where an invented plan is refused.
func Must(err error) {
	if err != nil {
		panic(fmt.Errorf("demo: %w", err))
	}
}

// ID is the next id with a letter that is not taken.
func (b *Builder) ID(letter string, taken func(string) bool) string { return b.ids.Next(letter, taken) }

// Position adds a position.
func (b *Builder) Position(p plan.Position) {
	b.positions[p.Name] = b.Edit.AddPosition(p)
}

// Device adds a device of a built-in kind, at a place in metres.
func (b *Builder) Device(name string, kind plan.KindID, position string, x, y float64) {
	Must(catalogue.Use(b.Edit, kind))
	b.Devices[name] = b.Edit.AddDevice(plan.Device{Name: name, Kind: kind, Position: b.positions[position], X: x, Y: y})
}

// Area adds a piece of ground by its corners.
func (b *Builder) Area(name, use, note string, corners ...geom.Point) {
	areas := b.Edit.Now()
	id := plan.AreaID(b.ID("a", func(id string) bool { return areas.Areas.Has(plan.Key(id)) }))
	plan.Put(b.Edit, plan.Area{ID: id, Name: name, Use: use, Note: note})
	for i, at := range corners {
		plan.Put(b.Edit, plan.AreaPoint{Area: id, Order: i + 1, X: at.X, Y: at.Y})
	}
}

// Link adds a link between ports, with its cables, and its way drawn through these points; none leave it straight.
func (b *Builder) Link(l plan.Link, from, to string, segments []plan.Segment, way ...geom.Point) {
	l.Name = fmt.Sprintf("L%02d", len(b.Links)+1)
	l.From, l.To = b.Devices[from], b.Devices[to]
	id := b.Edit.AddLink(l)
	b.Links[l.Name] = id
	Must(b.Edit.Draw(id, way))
	b.Edit.SetSegments(id, segments)
}

// Pair makes a link the backup of another.
func (b *Builder) Pair(main, backup string) { Must(b.Edit.Pair(b.Links[main], b.Links[backup])) }

// Reel adds a cable of stock under its tag.
func (b *Builder) Reel(r plan.Reel) {
	Must(catalogue.UseCable(b.Edit, r.Kind))
	stock := b.Edit.Now()
	r.ID = plan.ReelID(b.ID("r", func(id string) bool { return stock.Reels.Has(plan.Key(id)) }))
	b.Reels[r.Tag] = r.ID
	plan.Put(b.Edit, r)
}

// With gives the segments of a link made of these reels.
func (b *Builder) With(tags ...string) (segments []plan.Segment) {
	for _, tag := range tags {
		id, found := b.Reels[tag]
		if !found {
			panic("demo: there is no reel " + tag)
		}
		segments = append(segments, plan.Segment{Reel: id})
	}
	return segments
}
