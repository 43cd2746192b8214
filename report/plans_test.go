package report_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/catalogue"
	"stageloom/model/geom"
	"stageloom/model/plan"
)

// rig builds an invented plan.
type rig struct {
	t testing.TB
	*plan.Edit
}

// made returns the plan that an edit makes of an empty one which knows all kinds of the catalogue.
func made(t testing.TB, name string, edit func(rig)) *plan.Plan {
	t.Helper()
	p, err := plan.Do(plan.New(name), plan.NewIDSource(7, 7), func(e *plan.Edit) error {
		for _, kind := range catalogue.CableKinds() {
			require.NoError(t, catalogue.UseCable(e, kind.ID))
		}
		for _, kind := range catalogue.DeviceKinds() {
			require.NoError(t, catalogue.Use(e, kind.Kind.ID))
		}
		edit(rig{t, e})
		return nil
	})
	require.NoError(t, err)
	return p
}

func (r rig) device(name string, kind plan.KindID, x, y float64) plan.DeviceID {
	return r.AddDevice(plan.Device{Name: name, Kind: kind, X: x, Y: y})
}

func (r rig) link(l plan.Link, cables ...plan.Segment) plan.LinkID {
	id := r.AddLink(l)
	r.SetSegments(id, cables)
	return id
}

// ends returns a link between two ports.
func ends(transport plan.TransportID, from plan.DeviceID, fromPort string, to plan.DeviceID, toPort string) plan.Link {
	return plan.Link{Transport: transport, From: from, FromPort: fromPort, To: to, ToPort: toPort}
}

func of(kind plan.CableKindID, lengths ...float64) (segments []plan.Segment) {
	for _, length := range lengths {
		segments = append(segments, plan.Segment{Kind: kind, Length: length})
	}
	return segments
}

func (r rig) area(id plan.AreaID, name, use string, corners ...geom.Point) {
	plan.Put(r.Edit, plan.Area{ID: id, Name: name, Use: use})
	for i, at := range corners {
		plan.Put(r.Edit, plan.AreaPoint{Area: id, Order: i + 1, X: at.X, Y: at.Y})
	}
}

// field has links ample, enough, over, uncabled and too short, an ungraded one, tagged reels in a case, a house line, and
// an area that links cross.
func field(t testing.TB) *plan.Plan {
	return made(t, "Lower field", func(r rig) {
		plan.Put(r.Edit, plan.Case{ID: "c-22222", Name: "Case 1"})
		plan.Put(r.Edit, plan.Reel{ID: "r-22222", Tag: "6A-01", Kind: "cat6a-own", Length: 70, Case: "c-22222"})
		plan.Put(r.Edit, plan.Reel{ID: "r-33333", Tag: "6A-02", Kind: "cat6a-own", Length: 45, Case: "c-22222"})
		plan.Put(r.Edit, plan.HouseLine{ID: "h-22222", Name: "H1", Kind: "cat6a-solid", Length: 40})
		r.area("a-22222", "Stage", "stage", geom.Pt(-10, -4), geom.Pt(10, -4), geom.Pt(10, 8), geom.Pt(-10, 8))
		r.area("a-33333", "Walk", "walkway", geom.Pt(-40, -30), geom.Pt(40, -30), geom.Pt(40, -26), geom.Pt(-40, -26))
		stage, right := r.device("Stage left", "stage-rack-48-20", -8, 2), r.device("Stage right", "stage-rack-48-20", 8, 2)
		foh, monitors := r.device("FOH", "console-56", 0, -62), r.device("Monitors", "console-56", 24, 6)
		near, far := r.device("Rack switch", "switch-16", -24, 0), r.device("FOH switch", "switch-16", 10, -64)
		one, two := r.device("Converter 1", "media-converter", -24, -6), r.device("Converter 2", "media-converter", 40, -50)
		main := ends("aes50", stage, "AES50 1", foh, "AES50 1")
		main.Colour = "red"
		first := r.link(main, plan.Segment{Reel: "r-22222"}, plan.Segment{Reel: "r-33333"})
		second := r.link(ends("aes50", stage, "AES50 2", foh, "AES50 2"), of("cat5e", 70, 45)...)
		require.NoError(t, r.Pair(first, second))
		r.link(ends("aes50", right, "AES50 1", monitors, "AES50 1"), plan.Segment{HouseLine: "h-22222"})
		r.link(ends("aes50", right, "AES50 2", monitors, "AES50 2"))
		r.link(ends("1000base-t", near, "01", far, "01"), of("cat6a", 50, 40)...)
		short := ends("1000base-t", near, "02", far, "02")
		short.FillKind = "cat6a-own"
		r.link(short, of("cat6a-own", 60)...)
		r.link(ends("fibre", one, "F", two, "F"), of("fibre-multimode", 150)...)
	})
}

// many is a plan of so many links between routers in rows 30 m apart.
func many(t testing.TB, links int) *plan.Plan {
	return made(t, fmt.Sprintf("%d links", links), func(r rig) {
		const perRouter, perRow = 2, 20
		routers := make([]plan.DeviceID, links/perRouter+2)
		for i := range routers {
			routers[i] = r.device(fmt.Sprintf("Router %d", i+1), "aes50-router-5", 30*float64(i%perRow), -30*float64(i/perRow))
		}
		for i := range links {
			from, to := i/perRouter, i/perRouter+1
			l := ends("aes50", routers[from], fmt.Sprintf("AES50 %d", i%perRouter+1), routers[to], fmt.Sprintf("AES50 %d", i%perRouter+3))
			r.link(l, of("cat6a-own", 10+float64(i%9)*10, 20)...)
		}
	})
}

// nasty are names that a plan allows and that are hard to print.
var nasty = []string{
	"Stage 🎸 left 👩🏽‍🔧",
	"במה ימין (12)",
	"شاشة يسار",
	"W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W W",
	"WWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWW",
	"舞台",
	"a̖̗̘̙̜̝b",
	"\\ ( ) % # &",
}

// nastyField is a field whose every name is nasty.
func nastyField(t testing.TB) *plan.Plan {
	p := field(t)
	i := 0
	next := func() string { i++; return nasty[i%len(nasty)] }
	p, err := plan.Do(p, nil, func(e *plan.Edit) error {
		for device := range p.Devices.All() {
			require.NoError(t, plan.Update(e, device.Key(), func(d *plan.Device) { d.Name = next() }))
		}
		for link := range p.Links.All() {
			require.NoError(t, plan.Update(e, link.Key(), func(l *plan.Link) { l.Name, l.Colour = next(), next() }))
		}
		for area := range p.Areas.All() {
			require.NoError(t, plan.Update(e, area.Key(), func(a *plan.Area) { a.Name = next() }))
		}
		for reel := range p.Reels.All() {
			require.NoError(t, plan.Update(e, reel.Key(), func(r *plan.Reel) { r.Tag = next() }))
		}
		for kind := range p.CableKinds.All() {
			require.NoError(t, plan.Update(e, kind.Key(), func(k *plan.CableKind) { k.Name = next() }))
		}
		return nil
	})
	require.NoError(t, err)
	return p
}
