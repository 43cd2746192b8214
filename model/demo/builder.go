package demo

import (
	"fmt"

	"stageloom/model/catalogue"
	"stageloom/model/geom"
	"stageloom/model/plan"
)

// builder lays rows into one edit and finds them again by name.
type builder struct {
	edit      *plan.Edit
	positions map[string]plan.PositionID
	devices   map[string]plan.DeviceID
	links     map[string]plan.LinkID
	reels     map[string]plan.ReelID
	rows      []plan.InputID // the input list, in order
	ids       *plan.IDSource
}

// build makes a plan from a seed; a demo that its own plan refuses is a programmer's mistake.
func build(name string, seed uint64, lay func(*builder)) *plan.Plan {
	ids := plan.NewIDSource(seed, 0x57A6E)
	p, err := plan.Do(plan.New(name), ids, func(e *plan.Edit) error {
		lay(&builder{
			edit: e, ids: ids, positions: map[string]plan.PositionID{}, devices: map[string]plan.DeviceID{},
			links: map[string]plan.LinkID{}, reels: map[string]plan.ReelID{},
		})
		return nil
	})
	must(err)
	return p
}

func must(err error) {
	if err != nil {
		panic(fmt.Errorf("demo: %w", err))
	}
}

func (b *builder) id(letter string, taken func(string) bool) string { return b.ids.Next(letter, taken) }

func (b *builder) position(p plan.Position) {
	b.positions[p.Name] = b.edit.AddPosition(p)
}

// device adds a device of a built-in kind, at a place in metres.
func (b *builder) device(name string, kind plan.KindID, position string, x, y float64) {
	must(catalogue.Use(b.edit, kind))
	b.devices[name] = b.edit.AddDevice(plan.Device{Name: name, Kind: kind, Position: b.positions[position], X: x, Y: y})
}

// area adds a piece of ground by its corners.
func (b *builder) area(name, use, note string, corners ...geom.Point) {
	areas := b.edit.Now()
	id := plan.AreaID(b.id("a", func(id string) bool { return areas.Areas.Has(plan.Key(id)) }))
	plan.Put(b.edit, plan.Area{ID: id, Name: name, Use: use, Note: note})
	for i, at := range corners {
		plan.Put(b.edit, plan.AreaPoint{Area: id, Order: i + 1, X: at.X, Y: at.Y})
	}
}

// stretch is a rectangle by two opposite corners.
func stretch(x1, y1, x2, y2 float64) []geom.Point {
	return []geom.Point{geom.Pt(x1, y1), geom.Pt(x2, y1), geom.Pt(x2, y2), geom.Pt(x1, y2)}
}

// link adds a link between ports, with its cables, and its way drawn through these points; none leave it straight.
func (b *builder) link(l plan.Link, from, to string, segments []plan.Segment, way ...geom.Point) {
	l.Name = fmt.Sprintf("L%02d", len(b.links)+1)
	l.From, l.To = b.devices[from], b.devices[to]
	id := b.edit.AddLink(l)
	b.links[l.Name] = id
	must(b.edit.Draw(id, way))
	b.edit.SetSegments(id, segments)
}

// foundWays says of the ways that are drawn that they were found on the ground, so that they count as long as they are.
func (b *builder) foundWays() {
	var drawn []plan.Link
	for link := range b.edit.Now().Links.All() {
		if link.Way == "drawn" {
			link.Way = "found"
			drawn = append(drawn, link)
		}
	}
	for _, link := range drawn {
		plan.Put(b.edit, link)
	}
}

func (b *builder) pair(main, backup string) { must(b.edit.Pair(b.links[main], b.links[backup])) }

// reel adds a cable of stock under its tag.
func (b *builder) reel(r plan.Reel) {
	must(catalogue.UseCable(b.edit, r.Kind))
	stock := b.edit.Now()
	r.ID = plan.ReelID(b.id("r", func(id string) bool { return stock.Reels.Has(plan.Key(id)) }))
	b.reels[r.Tag] = r.ID
	plan.Put(b.edit, r)
}

// with gives the segments of a link made of these reels.
func (b *builder) with(tags ...string) (segments []plan.Segment) {
	for _, tag := range tags {
		id, found := b.reels[tag]
		if !found {
			panic("demo: there is no reel " + tag)
		}
		segments = append(segments, plan.Segment{Reel: id})
	}
	return segments
}
