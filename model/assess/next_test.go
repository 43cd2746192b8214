package assess_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/assess"
	"stageloom/model/catalogue"
	"stageloom/model/checks"
	"stageloom/model/demo"
	"stageloom/model/demo/demotest"
	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/model/plan/plantest"
)

// panelled is lines through panels: three of two links, one of which a guest may end, and a ring of panels; two of them are
// partners in a loom, and all cross an area in a ramp.
func panelled(t require.TestingT) *plan.Plan {
	p, err := plan.Do(plan.New("Panelled"), plan.NewIDSource(7, 8), func(e *plan.Edit) error {
		for _, kind := range []plan.CableKindID{"cat6a-own", "cat5e"} {
			require.NoError(t, catalogue.UseCable(e, kind))
		}
		plan.Put(e, plan.Kind{ID: "active", Name: "Active", Group: "Stage", Clock: "own"})
		plan.Put(e, plan.Kind{ID: "panel", Name: "Panel", Group: "Stage", Passive: true, Hardware: "cat6a"})
		for _, kind := range []plan.KindID{"active", "panel"} {
			for _, port := range []string{"A", "B"} {
				plan.Put(e, plan.KindPort{Kind: kind, Name: port, Transport: "aes50"})
			}
		}
		device := func(kind plan.KindID, x, y float64) plan.DeviceID {
			return e.AddDevice(plan.Device{Kind: kind, X: x, Y: y})
		}
		link := func(from, to plan.DeviceID, metres float64) plan.LinkID {
			id := e.AddLink(plan.Link{Transport: "aes50", From: from, FromPort: "B", To: to, ToPort: "A", FillKind: "cat5e"})
			if metres > 0 {
				e.SetSegments(id, of("cat6a-own", metres))
			}
			return id
		}
		var middles []plan.LinkID
		for i, metres := range []float64{40, 70, 0} {
			y := 20 * float64(i)
			near, panel, far := device("active", 0, y), device("panel", 30, y), device("active", 75, y)
			middles = append(middles, link(near, panel, metres))
			link(panel, far, 60)
		}
		drop, guest := device("panel", 60, 90), device("active", 70, 95)
		link(device("active", 0, 90), drop, 40)
		plan.Put(e, plan.Act{ID: "n-22222", Name: "Guests", Order: 1})
		plan.Put(e, plan.ActConsole{Act: "n-22222", Console: guest, Port: "A", Drop: drop, Tail: 10})
		ring := []plan.DeviceID{device("panel", 0, 120), device("panel", 10, 130), device("panel", 20, 120)}
		for i := range ring {
			link(ring[i], ring[(i+1)%len(ring)], 20)
		}
		require.NoError(t, e.Pair(middles[0], middles[1]))
		plan.Put(e, plan.Loom{ID: "m-22222", Name: "Trunk"})
		plan.Put(e, plan.Area{ID: "a-22222", Name: "Road", Use: "road"})
		for i, corner := range []geom.Point{{X: 10, Y: -9}, {X: 20, Y: -9}, {X: 20, Y: 99}, {X: 10, Y: 99}} {
			plan.Put(e, plan.AreaPoint{Area: "a-22222", Order: i + 1, X: corner.X, Y: corner.Y})
		}
		plan.Put(e, plan.Route{ID: "t-22222", Name: "Ramp", Lie: "ramp"})
		for i, x := range []float64{0, 75} {
			plan.Put(e, plan.RoutePoint{Route: "t-22222", Order: i + 1, X: x, Y: 20})
		}
		return nil
	})
	require.NoError(t, err)
	return p
}

// around draws an edit of what a link hangs on beside its own row: where devices stand and what they are, ways, cables, the
// loom and the partner, and the tail of a guest.
func around(t *rapid.T, p *plan.Plan) func(*plan.Edit) error {
	if p.Links.Len() == 0 || p.Devices.Len() == 0 {
		return plantest.FieldChange(t, p).Do
	}
	device := p.Devices.At(rapid.IntRange(0, p.Devices.Len()-1).Draw(t, "device"))
	link := p.Links.At(rapid.IntRange(0, p.Links.Len()-1).Draw(t, "link"))
	other := p.Links.At(rapid.IntRange(0, p.Links.Len()-1).Draw(t, "other"))
	by := geom.Pt(rapid.Float64Range(-60, 60).Draw(t, "x"), rapid.Float64Range(-60, 60).Draw(t, "y"))
	update := func(with func(*plan.Device)) func(*plan.Edit) error {
		return func(e *plan.Edit) error { return plan.Update(e, device.Key(), with) }
	}
	change := func(with func(*plan.Link)) func(*plan.Edit) error {
		return func(e *plan.Edit) error { return plan.Update(e, link.Key(), with) }
	}
	edits := map[string]func(*plan.Edit) error{
		"a nudge":   func(e *plan.Edit) error { e.Move(plan.MovingWith(p, []plan.DeviceID{device.ID}, nil), by); return nil },
		"place":     update(func(d *plan.Device) { d.Unplaced = !d.Unplaced }),
		"name":      update(func(d *plan.Device) { d.Name += "x" }),
		"exposure":  update(func(d *plan.Device) { d.Exposure = rapid.SampledFrom([]string{"", "sun", "indoors"}).Draw(t, "lies") }),
		"supply":    update(func(d *plan.Device) { d.Supply = fmt.Sprint(by.X > 0) }),
		"kind":      update(func(d *plan.Device) { d.Kind = p.Devices.At(0).Kind }),
		"way":       func(e *plan.Edit) error { return e.Draw(link.ID, []geom.Point{by, {X: by.Y, Y: by.X}}) },
		"cables":    func(e *plan.Edit) error { e.SetSegments(link.ID, of("cat6a-own", 30, 30)); return nil },
		"pair":      func(e *plan.Edit) error { return e.Pair(link.ID, other.ID) },
		"unpair":    func(e *plan.Edit) error { e.Unpair(link.ID); return nil },
		"link name": change(func(l *plan.Link) { l.Name += "x" }),
		"typed way": change(func(l *plan.Link) { l.SetTyped(90, plan.Paced) }),
		"remove":    func(e *plan.Edit) error { e.RemoveLinks(link.ID); return nil },
	}
	if p.Looms.Len() > 0 {
		edits["loom"] = change(func(l *plan.Link) { l.Loom = p.Looms.At(0).ID })
	}
	if p.ActConsoles.Len() > 0 {
		edits["guest"] = func(e *plan.Edit) error {
			e.Move(plan.MovingWith(p, []plan.DeviceID{p.ActConsoles.At(0).Console}, nil), by)
			return plan.Update(e, plan.Key(p.ActConsoles.At(0).Console), func(d *plan.Device) { d.Exposure = "sun" })
		}
		edits["tail"] = func(e *plan.Edit) error {
			return plan.Update(e, p.ActConsoles.At(0).Key(), func(c *plan.ActConsole) { c.Tail += 5 })
		}
	}
	if p.Positions.Len() > 0 {
		edits["position"] = func(e *plan.Edit) error {
			return plan.Update(e, p.Positions.At(0).Key(), func(r *plan.Position) { r.Exposure, r.Supply = "sun", r.Supply+"x" })
		}
	}
	names := []string{}
	for _, name := range []string{"a nudge", "place", "name", "exposure", "supply", "kind", "way", "cables", "pair", "unpair", "link name", "typed way", "remove", "loom", "guest", "tail", "position"} {
		if edits[name] != nil {
			names = append(names, name)
		}
	}
	return edits[rapid.SampledFrom(names).Draw(t, "around")]
}

func TestNextIsOfAfterEachEditOfAShow(t *testing.T) {
	starts := []*plan.Plan{panelled(t), demo.Weekender(), demotest.Crowd(1, 30), demotest.Sized(1, 60)}
	wholes := 0
	first := make([]*assess.Assessment, len(starts))
	for i, p := range starts {
		first[i] = assess.Of(p)
	}
	for _, b := range first[0].Budgets {
		if b.Whole != nil {
			wholes++
		}
	}
	require.Equal(t, first[0].Totals.Links, wholes, "each link is a piece of a line, or ends at a drop")
	ids := plan.NewIDSource(5, 3)
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.SampledFrom([]int{0, 0, 0, 1, 2, 3}).Draw(t, "start")
		a, history := first[at], []*plan.Plan{starts[at]}
		for range 6 {
			p := a.Plan
			edit := around(t, p)
			switch rapid.IntRange(0, 5).Draw(t, "edit") {
			case 0:
				edit = plantest.Edit(t, p, ids).Do
			case 1:
				p = rapid.SampledFrom(history).Draw(t, "back to")
				edit = func(*plan.Edit) error { return nil }
			}
			next, err := plan.Do(p, ids, edit)
			if err != nil {
				continue
			}
			history = append(history, next)
			a = assess.Next(a, next)
			requireSame(t, assess.Of(next), a)
		}
	})
}

func TestANudgeTakesOverWhatItDoesNotTouch(t *testing.T) {
	p := demotest.Sized(1, 60)
	a := assess.Of(p)
	moved := p.Links.At(7).From
	next, err := plan.Do(p, nil, func(e *plan.Edit) error {
		e.Move(plan.MovingWith(p, []plan.DeviceID{moved}, nil), geom.Pt(2, 1))
		return nil
	})
	require.NoError(t, err)
	b := assess.Next(a, next)
	require.Same(t, &a.Links()[0], &b.Links()[0], "no name changed, so the order stays")
	kept := 0
	for i := range next.Links.Len() {
		link := next.Links.At(i)
		if len(b.Budgets[i].Parts) > 0 && &a.Budgets[i].Parts[0] == &b.Budgets[i].Parts[0] {
			kept++
			require.NotContains(t, []plan.DeviceID{link.From, link.To}, moved)
		}
	}
	require.Positive(t, kept)
}

func TestALinkIsLookedAtAgainWhenItsPartnerComesBesideIt(t *testing.T) {
	p, ids := field(t)
	var pairs [2][2]plan.DeviceID
	p, err := plan.Do(p, ids, func(e *plan.Edit) error {
		var links [2]plan.LinkID
		for i := range pairs {
			for end := range pairs[i] {
				pairs[i][end] = e.AddDevice(plan.Device{Kind: "aes50-router-5", X: 60 * float64(end), Y: 200 + 30*float64(i)})
			}
			links[i] = e.AddLink(plan.Link{Transport: "aes50", From: pairs[i][0], FromPort: "AES50 1", To: pairs[i][1], ToPort: "AES50 1"})
		}
		return e.Pair(links[0], links[1])
	})
	require.NoError(t, err)
	for i, by := range []float64{30, -30} { // whichever of the two a rule begins with
		beside, err := plan.Do(p, nil, func(e *plan.Edit) error {
			e.Move(plan.MovingWith(p, pairs[i][:], nil), geom.Pt(0, by))
			return nil
		})
		require.NoError(t, err)
		a := assess.Next(assess.Of(p), beside)
		requireSame(t, assess.Of(beside), a)
		require.True(t, slices.ContainsFunc(a.Findings, func(f checks.Finding) bool { return f.Rule == "same-way" }))
	}
}
