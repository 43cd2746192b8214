package budget_test

import (
	"fmt"
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/budget"
	"stageloom/model/catalogue"
	"stageloom/model/geom"
	"stageloom/model/plan"
)

// rig is devices in a row, 10 m apart, linked one to the next over AES50: active at both ends, passive panels between.
type rig struct {
	*plan.Plan
	links   []plan.LinkID
	devices []plan.DeviceID
}

// newRig links as many panels in a row as asked for; every link is cabled by the segments of its place, the last ones again.
// No slack, no lengthening of straight ways, 20 °C.
func newRig(t require.TestingT, panels int, closed bool, segments ...plan.Segment) *rig {
	g := &rig{}
	p, err := plan.Do(plan.New("Rig"), plan.NewIDSource(7, 8), func(e *plan.Edit) error {
		settings := plan.DefaultSettings()
		settings.SlackPercent, settings.SlackEnd, settings.Detour, settings.Temperature = plan.Some(0), plan.Some(0), 1, plan.Some(20)
		e.SetSettings(settings)
		for _, kind := range catalogue.CableKinds() {
			if err := catalogue.UseCable(e, kind.ID); err != nil {
				return err
			}
		}
		plan.Put(e, plan.Kind{ID: "active", Name: "Active", Group: "Stage"})
		plan.Put(e, plan.Kind{ID: "panel", Name: "Panel", Group: "Stage", Passive: true, Hardware: "cat6a"})
		for _, kind := range []plan.KindID{"active", "panel"} {
			for _, port := range []string{"A", "B"} {
				plan.Put(e, plan.KindPort{Kind: kind, Name: port, Transport: "aes50"})
			}
		}
		for i := range panels + 2 {
			kind := plan.KindID("panel")
			if !closed && (i == 0 || i == panels+1) {
				kind = "active"
			}
			g.devices = append(g.devices, e.AddDevice(plan.Device{Name: fmt.Sprint("Device ", i), Kind: kind, X: 10 * float64(i)}))
		}
		last := panels + 1
		if closed {
			last++
		}
		for i := range last {
			link := e.AddLink(plan.Link{Transport: "aes50", From: g.devices[i], FromPort: "B", To: g.devices[(i+1)%len(g.devices)], ToPort: "A"})
			if len(segments) > 0 {
				e.SetSegments(link, segments[min(i, len(segments)-1):][:1])
			}
			g.links = append(g.links, link)
		}
		return nil
	})
	require.NoError(t, err)
	g.Plan = p
	return g
}

func (g *rig) do(t require.TestingT, edit func(*plan.Edit) error) {
	next, err := plan.Do(g.Plan, plan.NewIDSource(9, 10), edit)
	require.NoError(t, err)
	g.Plan = next
}

func (g *rig) budget(i int) budget.Budget {
	link, _ := g.Link(g.links[i])
	return budget.Of(g.Plan, link)
}

// cat5eAt100 is what stranded Cat 5e loses over 100 m at 100 MHz and 20 °C: 22.0 dB × 1.2, TIA-568-C.2, published.
const cat5eAt100 = 22.0 * 1.2

func TestAPassivePanelHidesNoRun(t *testing.T) {
	g := newRig(t, 1, false, metres("cat5e", 120), metres("cat5e", 60))
	for i := range g.links {
		b := g.budget(i)
		require.True(t, b.PartOf())
		// 180 m of cable, and the panel's two connections of 0.4 dB each: a Cat 5e plug is the poorer side of both.
		require.InDelta(t, 1.8*cat5eAt100+2*0.4, b.LossDB, 0.1)
		require.InDelta(t, 25-b.LossDB, b.MarginDB, 1e-9)
		require.Equal(t, budget.Over, b.Grade)
		require.InDelta(t, 180, b.LineLength(), 1e-9)
		require.True(t, b.PastDistance())
	}
	require.InDelta(t, 1.2*cat5eAt100, g.budget(0).OwnDB, 0.05)
	require.InDelta(t, 0.6*cat5eAt100, g.budget(1).OwnDB, 0.05)
	require.InDelta(t, g.budget(0).LossDB-g.budget(0).OwnDB, g.budget(0).RestDB(), 1e-9)
}

func TestTheStricterLimitAndTheWiderMarginHoldForTheWhole(t *testing.T) {
	g := newRig(t, 1, false, metres("cat6a-own", 20))
	g.do(t, func(e *plan.Edit) error {
		if err := plan.Update(e, plan.Key(g.links[0]), func(l *plan.Link) { l.Rule = "channel-cat6a" }); err != nil {
			return err
		}
		return plan.Update(e, plan.Key(g.links[1]), func(l *plan.Link) { l.WantedMargin = plan.Some(4) })
	})
	for i := range g.links {
		b := g.budget(i)
		require.InDelta(t, 20.9, b.LimitDB, 0.05) // channel Cat 6A at 100 MHz, published
		require.InDelta(t, 4, b.WantedDB, 1e-9)
		require.Equal(t, plan.RuleID("channel-cat6a"), b.Rule)
	}
}

func TestAPieceThatMissesCableHoldsNobodyUp(t *testing.T) {
	g := newRig(t, 1, false, metres("cat6a-own", 20))
	g.do(t, func(e *plan.Edit) error { e.SetSegments(g.links[1], nil); return nil })
	for i := range g.links {
		require.Equal(t, budget.Uncabled, g.budget(i).Grade, "no kind is wanted for the missing piece")
		require.False(t, g.budget(i).Holds())
	}
	g.do(t, func(e *plan.Edit) error {
		return plan.Update(e, plan.Key(g.links[1]), func(l *plan.Link) { l.FillKind = "cat6a-own" })
	})
	for i := range g.links {
		require.Equal(t, budget.Ample, g.budget(i).Grade, "once the missing piece is laid")
		require.False(t, g.budget(i).Holds(), "it is not laid")
	}
}

func TestAGuestCountsWithItsTail(t *testing.T) {
	g := newRig(t, 1, false, metres("cat5e", 60))
	alone := g.budget(0).LossDB
	g.do(t, func(e *plan.Edit) error {
		e.RemoveLinks(g.links[1])
		for n, tail := range []float64{3, 10, 6} {
			act := e.AddAct(plan.Act{Name: fmt.Sprint("Act ", n), Order: n + 1})
			guest := e.AddDevice(plan.Device{Name: fmt.Sprint("Guest ", n), Kind: "active", X: 12})
			plan.Put(e, plan.ActConsole{Act: act, Console: guest, Port: "A", Drop: g.devices[1], DropPort: "B", TailKind: "cat5e", Tail: tail})
		}
		return nil
	})
	b := g.budget(0)
	require.InDelta(t, 0.7*cat5eAt100+2*0.4, b.LossDB, 0.05, "the longest tail of all acts counts")
	require.NotEqual(t, alone, b.LossDB)
	require.True(t, b.PartOf())
	last := b.Whole.Steps[len(b.Whole.Steps)-1]
	require.True(t, last.Guest)
	require.Equal(t, "Guest 1", last.Name)
	require.InDelta(t, 70, b.LineLength(), 1e-9)
}

func TestALooseEndCountsItsPanel(t *testing.T) {
	g := newRig(t, 1, false, metres("cat6a-own", 20))
	g.do(t, func(e *plan.Edit) error { e.RemoveLinks(g.links[1]); return nil })
	b := g.budget(0)
	require.False(t, b.PartOf())
	require.InDelta(t, 0.4, b.RestDB(), 1e-9, "two Cat 6A connections of 0.2 dB at 100 MHz: TIA-568-C.2, published")
}

func TestPortsOfADoublePanelAreJoinedAsTheySay(t *testing.T) {
	g := newRig(t, 1, false, metres("cat6a-own", 20))
	g.do(t, func(e *plan.Edit) error {
		plan.Put(e, plan.KindPort{Kind: "panel", Name: "C", Transport: "aes50"})
		plan.Put(e, plan.KindPort{Kind: "panel", Name: "D", Transport: "aes50"})
		return nil
	})
	require.False(t, g.budget(0).PartOf(), "four ports and no word which are joined")
	g.do(t, func(e *plan.Edit) error {
		plan.Put(e, plan.KindPort{Kind: "panel", Name: "C", Transport: "aes50", Through: "D"})
		return nil
	})
	require.True(t, g.budget(0).PartOf(), "the two that are left belong together")
	g.do(t, func(e *plan.Edit) error {
		plan.Put(e, plan.KindPort{Kind: "panel", Name: "A", Transport: "aes50", Through: "C"})
		plan.Put(e, plan.KindPort{Kind: "panel", Name: "C", Transport: "aes50"})
		return nil
	})
	require.False(t, g.budget(0).PartOf(), "A goes to C now")
}

func TestARingOfPanelsEnds(t *testing.T) {
	g := newRig(t, 4, true, metres("cat6a-own", 20))
	for i := range g.links {
		b := g.budget(i)
		require.Equal(t, 6, b.Whole.Pieces())
		require.InDelta(t, 120, b.LineLength(), 1e-9)
	}
}

// TestALineThroughPanelsLosesWhatOneRunWithCouplersDoes compares with a link of the same cables and Cat 6A couplers, which is
// reckoned by other code: each panel is the two connections of a coupler.
func TestALineThroughPanelsLosesWhatOneRunWithCouplersDoes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		panels := rapid.IntRange(1, 8).Draw(t, "panels")
		var segments []plan.Segment
		for range panels + 1 {
			kind := rapid.SampledFrom([]plan.CableKindID{"cat5e", "cat6a", "cat6a-own"}).Draw(t, "kind")
			segments = append(segments, metres(kind, math.Round(rapid.Float64Range(10, 60).Draw(t, "length")*10)/10))
		}
		g := newRig(t, panels, false, segments...)
		one := newRig(t, 0, false)
		one.do(t, func(e *plan.Edit) error { e.SetSegments(one.links[0], segments); return nil })
		straight := one.budget(0)
		all := budget.NewReckoner(g.Plan).All()
		for i, b := range all {
			require.InDelta(t, straight.LossDB, b.LossDB, 1e-9)
			require.InDelta(t, straight.MarginDB, b.MarginDB, 1e-9)
			require.Equal(t, straight.Grade, b.Grade)
			link := g.Links.At(i)
			require.Equal(t, budget.Of(g.Plan, link), b, "one by one as all at once")
			line := budget.NewReckoner(g.Plan).Line(link)
			require.InDelta(t, b.LossDB, line.Loss().At(100), 1e-9, "curves are those of the whole")
			sum := 0.0
			for _, step := range b.Whole.Steps {
				sum += step.LossDB
			}
			require.InDelta(t, b.LossDB, sum, 1e-9, "its steps add up")
			printed := 0.0
			for _, tenths := range b.Whole.Tenths() {
				figure, err := strconv.ParseFloat(tenths, 64)
				require.NoError(t, err)
				printed += figure
			}
			require.Equal(t, budget.LossTenths(b.LossDB), fmt.Sprintf("%.1f", printed), "as printed, too")
		}
	})
}

func TestADragReckonsTheWhole(t *testing.T) {
	g := newRig(t, 3, false)
	g.do(t, func(e *plan.Edit) error {
		for _, link := range g.links {
			if err := plan.Update(e, plan.Key(link), func(l *plan.Link) { l.FillKind = "cat5e" }); err != nil {
				return err
			}
		}
		return nil
	})
	for _, moved := range g.devices {
		by := geom.Point{X: 3, Y: 25}
		dragged := budget.NewReckoner(g.Plan).Preview(plan.MovingWith(g.Plan, []plan.DeviceID{moved}, nil)).At(by)
		next := &rig{Plan: g.Plan, links: g.links}
		next.do(t, func(e *plan.Edit) error {
			return plan.Update(e, plan.Key(moved), func(d *plan.Device) { d.X, d.Y = d.X+by.X, d.Y+by.Y })
		})
		require.NotEmpty(t, dragged)
		for _, b := range dragged {
			link, _ := next.Link(b.Link)
			require.Equal(t, budget.Of(next.Plan, link).MarginDB, b.MarginDB)
		}
	}
}

func TestPastTheStatedMetresALineIsToBeTested(t *testing.T) {
	g := newRig(t, 1, false, metres("cat6a-own", 55))
	require.True(t, g.budget(0).ToBeTested())
	require.Contains(t, g.budget(0).Why(), "to be tested")
	g.do(t, func(e *plan.Edit) error {
		for _, link := range g.links {
			if err := plan.Update(e, plan.Key(link), func(l *plan.Link) { l.Done = plan.Tested }); err != nil {
				return err
			}
		}
		return nil
	})
	require.False(t, g.budget(0).ToBeTested())
	require.NotContains(t, g.budget(0).Why(), "to be tested")
}
