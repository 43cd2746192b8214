package budget_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/budget"
	"stageloom/model/catalogue"
	"stageloom/model/geom"
	"stageloom/model/plan"
)

var kindsDrawn = rapid.SampledFrom([]plan.CableKindID{"cat6a-own", "cat5e", "cat6a-drum-socket", "cat6a-solid", "coax", "fibre-multimode"})

// anyPlan draws a plan of a few devices on two positions, linked in a chain with any cables and ways.
func anyPlan(t *rapid.T) *plan.Plan {
	place := rapid.Float64Range(-300, 300)
	p, err := plan.Do(plan.New("Any"), plan.NewIDSource(5, 6), func(e *plan.Edit) error {
		for _, kind := range catalogue.CableKinds() {
			if err := catalogue.UseCable(e, kind.ID); err != nil {
				return err
			}
		}
		for _, kind := range []plan.KindID{"aes50-router-5", "media-converter"} {
			if err := catalogue.Use(e, kind); err != nil {
				return err
			}
		}
		plan.Put(e, plan.Level{ID: "v-22222", Name: "Roof", Height: rapid.Float64Range(0, 30).Draw(t, "roof")})
		positions := []plan.PositionID{"", e.AddPosition(plan.Position{Name: "A", Level: "v-22222", Exposure: "sun", Width: 200, Depth: 150}), e.AddPosition(plan.Position{Name: "B", X: 150, Width: 250, Depth: 200})}
		var last plan.DeviceID
		for i := range rapid.IntRange(2, 6).Draw(t, "devices") {
			next := e.AddDevice(plan.Device{
				Name: fmt.Sprint(i), Kind: "aes50-router-5", X: place.Draw(t, "x"), Y: place.Draw(t, "y"),
				Position: rapid.SampledFrom(positions).Draw(t, "position"),
			})
			if i > 0 {
				anyLink(t, e, last, next)
			}
			last = next
		}
		return nil
	})
	require.NoError(t, err)
	return p
}

func anyLink(t *rapid.T, e *plan.Edit, from, to plan.DeviceID) {
	link := plan.Link{
		Transport: rapid.SampledFrom([]plan.TransportID{"aes50", "1000base-t", "fibre"}).Draw(t, "transport"),
		From:      from, FromPort: "AES50 1", To: to, ToPort: "AES50 2",
		FillKind:  rapid.SampledFrom([]plan.CableKindID{"", "cat6a-own", "cat6a-drum-socket"}).Draw(t, "fill"),
		FromPanel: rapid.SampledFrom([]plan.HardwareID{"", "cat6a", "cat5e"}).Draw(t, "panel"),
		ToPanel:   rapid.SampledFrom([]plan.HardwareID{"", "cat6"}).Draw(t, "panel"),
		ToLead:    rapid.SampledFrom([]float64{0, 2}).Draw(t, "lead"),
		DrumEnd:   rapid.SampledFrom([]string{"", "from", "to"}).Draw(t, "drum"),
	}
	id := e.AddLink(link)
	var segments []plan.Segment
	for range rapid.IntRange(0, 4).Draw(t, "segments") {
		segments = append(segments, metres(kindsDrawn.Draw(t, "kind"), rapid.Float64Range(1, 90).Draw(t, "length")))
	}
	e.SetSegments(id, segments)
	var way []geom.Point
	for range rapid.IntRange(0, 3).Draw(t, "points") {
		way = append(way, geom.Pt(rapid.Float64Range(-300, 300).Draw(t, "x"), rapid.Float64Range(-300, 300).Draw(t, "y")))
	}
	require.NoError(t, e.Draw(id, way))
}

func TestAllReckonsEachLinkAsItWouldBeAlone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPlan(t)
		all := budget.NewReckoner(p).All()
		require.Len(t, all, p.Links.Len())
		for i, b := range all {
			require.Equal(t, budget.Of(p, p.Links.At(i)), b)
		}
	})
}

func TestAnyBudgetHangsTogether(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		for _, b := range budget.NewReckoner(anyPlan(t)).All() {
			require.InDelta(t, b.Run, b.Way+b.Rises+b.Slack, 0.0011)
			require.False(t, b.Missing > 0 && b.Laid+b.Missing < b.Run-0.001)
			loss := 0.0
			for _, part := range b.Parts {
				require.InDelta(t, loss, part.BeforeDB, 1e-9)
				require.True(t, b.Graded || part.LossDB == 0)
				loss += part.LossDB
			}
			require.InDelta(t, b.LossDB, loss, 1e-9)
			require.Equal(t, b.Graded, b.Grade != budget.Ungraded)
			require.Equal(t, b.HasMargin(), b.Label() != "")
			if b.Grade == budget.Over {
				require.Contains(t, b.Label(), "−")
			}
			require.NotEmpty(t, b.Why())
		}
	})
}

func TestAPreviewIsWhatTheDropWillBe(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { requirePreviewed(t, anyPlan(t)) })
}

func TestAPreviewOfLinesThroughPanelsIsWhatTheDropWillBe(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { requirePreviewed(t, anyPanels(t)) })
}

// anyPanels draws lines through panels, with a guest, on positions of other warmth.
func anyPanels(t *rapid.T) *plan.Plan {
	g := newRig(t, rapid.IntRange(1, 4).Draw(t, "panels"), rapid.IntRange(0, 4).Draw(t, "closed") == 0, metres("cat5e", 20), metres("cat6a-own", 15))
	g.do(t, func(e *plan.Edit) error {
		settings := e.Now().Settings
		settings.Temperature = plan.Optional{}
		e.SetSettings(settings)
		e.AddPosition(plan.Position{Name: "Roof", X: 25, Width: 20, Depth: 30, Exposure: "sun"})
		e.AddPosition(plan.Position{Name: "Hall", Y: 60, Width: 60, Depth: 30, Exposure: "indoors"})
		drop, guests := g.devices[1], rapid.IntRange(0, 2).Draw(t, "guests")
		if guests > 0 {
			e.RemoveLinks(g.links[1])
		}
		for range guests {
			act := e.AddAct(plan.Act{Name: "Act", Order: e.Now().Acts.Len() + 1})
			guest := e.AddDevice(plan.Device{Name: "Guest", Kind: "active", X: 12})
			plan.Put(e, plan.ActConsole{Act: act, Console: guest, Drop: drop, TailKind: "cat5e", Tail: rapid.Float64Range(5, 40).Draw(t, "tail"), Port: "A"})
		}
		for link := range e.Now().Links.All() {
			if !rapid.Bool().Draw(t, "fills") {
				continue
			}
			if err := plan.Update(e, link.Key(), func(l *plan.Link) { l.FillKind = "cat5e" }); err != nil {
				return err
			}
		}
		return nil
	})
	return g.Plan
}

// requirePreviewed drags anything of a plan anywhere: each link that the preview reckons stands after the drop as it said, and
// each other one keeps its grade and margin.
func requirePreviewed(t *rapid.T, p *plan.Plan) {
	var picked []plan.DeviceID
	for device := range p.Devices.All() {
		if rapid.Bool().Draw(t, "picked") {
			picked = append(picked, device.ID)
		}
	}
	var positions []plan.PositionID
	for position := range p.Positions.All() {
		if rapid.Bool().Draw(t, "position picked") {
			positions = append(positions, position.ID)
		}
	}
	moving := plan.MovingWith(p, picked, positions)
	before := budget.NewReckoner(p)
	preview := before.Preview(moving)
	for range 3 {
		by := geom.Pt(rapid.Float64Range(-200, 200).Draw(t, "x"), rapid.Float64Range(-200, 200).Draw(t, "y"))
		dropped, err := plan.Do(p, nil, func(e *plan.Edit) error { e.Move(moving, by); return nil })
		require.NoError(t, err)
		outlook := map[plan.LinkID]budget.Budget{}
		for _, b := range preview.At(by) {
			outlook[b.Link] = b
		}
		for id := range before.Touched(moving).Stretched {
			require.Contains(t, outlook, id)
		}
		stood := before.All()
		for i, b := range budget.NewReckoner(dropped).All() {
			if told, here := outlook[b.Link]; here {
				require.Equal(t, b, told)
				continue
			}
			require.Equal(t, stood[i].Grade, b.Grade, "no figure changes that the drag did not show")
			require.InDelta(t, stood[i].MarginDB, b.MarginDB, 0.2, "but by the rounding of a carried way to tenths of a metre")
		}
	}
}

func TestADragReckonsOnlyTheLinesItTouches(t *testing.T) {
	g := newRig(t, 3, false, metres("cat5e", 15))
	g.do(t, func(e *plan.Edit) error {
		for i := range 20 {
			from := e.AddDevice(plan.Device{Name: fmt.Sprint("A", i), Kind: "active", Y: 40})
			to := e.AddDevice(plan.Device{Name: fmt.Sprint("B", i), Kind: "active", X: 20, Y: 40})
			e.AddLink(plan.Link{Transport: "aes50", From: from, FromPort: "A", To: to, ToPort: "B"})
		}
		return nil
	})
	moving := plan.MovingWith(g.Plan, g.devices[4:], nil)
	require.Len(t, moving.Stretched, 1)
	r := budget.NewReckoner(g.Plan)
	require.Len(t, r.Preview(moving).At(geom.Pt(5, 5)), 4, "the one that stretches and the three behind the panels")
	require.Len(t, r.Touched(moving).Stretched, 4)
	require.Len(t, moving.Stretched, 1, "what was gathered stays as it was")
}

func TestASketchFollowsThePointer(t *testing.T) {
	s := newSite(t, 80)
	r := budget.NewReckoner(s.Plan)
	t.Run("a new link ends where the pointer is", func(t *testing.T) {
		to := geom.Pt(30, 40)
		b := r.Sketch(budget.Sketch{Link: plan.Link{Transport: "aes50", From: s.from, Way: "straight", FillKind: "cat6a-own"}, LooseTo: &to})
		require.InDelta(t, 50, b.Run, 1e-9)
		require.Equal(t, budget.Ample, b.Grade)
	})
	t.Run("a link in the plan takes another way with the cables it has", func(t *testing.T) {
		s.cable(t, metres("cat6a-own", 90))
		r := budget.NewReckoner(s.Plan)
		link, _ := s.Link(s.link)
		link.Way = "drawn"
		b := r.Sketch(budget.Sketch{Link: link, Points: []plan.LinkPoint{{X: 0, Y: 30}, {X: 80, Y: 30}}})
		require.InDelta(t, 140, b.Run, 1e-9)
		require.InDelta(t, 50, b.Missing, 1e-9)
	})
}

func TestAPreviewKeepsNoMemory(t *testing.T) {
	s := newSite(t, 80)
	s.set(t, func(l *plan.Link) { l.FillKind = "cat6a-own" })
	s.cable(t, metres("cat6a-own", 30), metres("cat5e", 30))
	preview := budget.NewReckoner(s.Plan).Preview(plan.MovingWith(s.Plan, []plan.DeviceID{s.to}, nil))
	at := 0.0
	preview.At(geom.Pt(1, 1))
	require.Zero(t, testing.AllocsPerRun(100, func() {
		at++
		preview.At(geom.Pt(at, at))
	}))
}
