package budget_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

func TestJoints(t *testing.T) {
	// 0.4 dB at 100 MHz for a Cat 5e connection and 0.2 dB for a Cat 6 or 6A one: TIA-568-C.2, published.
	join := func(t *testing.T, with func(*plan.Link), segments ...plan.Segment) budget.Budget {
		s := newSite(t, 1)
		s.set(t, func(l *plan.Link) {
			if with != nil {
				with(l)
			}
		})
		s.cable(t, segments...)
		return s.budget()
	}
	joints := func(b budget.Budget) (sum float64, kinds []budget.What) {
		for _, part := range b.Parts {
			if part.Interfaces > 0 {
				sum += part.LossDB
				kinds = append(kinds, part.What)
			}
		}
		return sum, kinds
	}
	cases := []struct {
		name     string
		with     func(*plan.Link)
		segments []plan.Segment
		lossDB   float64
		kinds    []budget.What
	}{
		{"a coupler between 6A plugs is two 6A connections", nil, []plan.Segment{metres("cat6a", 5), metres("cat6a", 5)}, 0.4, []budget.What{budget.Coupler}},
		{"a 6A coupler with one 5e plug is the poorer on that side", nil, []plan.Segment{metres("cat6a", 5), metres("cat5e-unscreened", 5)}, 0.6, []budget.What{budget.Coupler}},
		{"a 5e coupler is the poorer on both sides", nil, []plan.Segment{metres("cat6a", 5), {Kind: "cat6a", Length: 5, Coupler: "cat5e"}}, 0.8, []budget.What{budget.Coupler}},
		{"a coupler nobody knows is taken as 5e", nil, []plan.Segment{metres("cat6a", 5), {Kind: "cat6a", Length: 5, Coupler: "mystery"}}, 0.8, []budget.What{budget.Coupler}},
		{
			"a plug in a drum's socket is one, and the drum's inner connection one more", nil,
			[]plan.Segment{metres("cat6a-drum-socket", 5), metres("cat6a", 5)},
			0.4,
			[]budget.What{budget.Inner, budget.Connection},
		},
		{
			"drums joined plug in socket need no coupler", nil,
			[]plan.Segment{metres("cat6a-drum-socket", 5), metres("cat6a-drum-socket", 5)},
			0.6,
			[]budget.What{budget.Inner, budget.Connection, budget.Inner},
		},
		{
			"a drum left at the near end lies the other way round", func(l *plan.Link) { l.DrumEnd = "from" },
			[]plan.Segment{metres("cat6a", 5), metres("cat6a-drum-socket", 5)},
			0.4,
			[]budget.What{budget.Connection, budget.Inner},
		},
		{"a house line takes a plug in its own socket", nil, []plan.Segment{metres("cat6a", 5), metres("cat6a-solid", 5), metres("cat6a", 5)}, 0.4, []budget.What{budget.Connection, budget.Connection}},
		{"a panel is two connections", func(l *plan.Link) { l.FromPanel = "cat6a" }, []plan.Segment{metres("cat6a", 5)}, 0.4, []budget.What{budget.Panel}},
		{"a panel at each end is four", func(l *plan.Link) { l.FromPanel, l.ToPanel = "cat6a", "cat5e" }, []plan.Segment{metres("cat6a", 5)}, 1.2, []budget.What{budget.Panel, budget.Panel}},
		{"the plugs at the two devices are not counted", nil, []plan.Segment{metres("cat6a", 5)}, 0, nil},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			sum, kinds := joints(join(t, c.with, c.segments...))
			require.InDelta(t, c.lossDB, sum, 1e-9)
			require.Equal(t, c.kinds, kinds)
		})
	}
	t.Run("an inner lead loses as cable does and reaches nothing", func(t *testing.T) {
		b := join(t, func(l *plan.Link) {
			l.FromPanel, l.FromLeadKind, l.FromLead = "cat6a", "cat5e-unscreened", 1
			l.ToPanel, l.ToLead = "cat6a", 2
		}, metres("cat6a", 5))
		require.Equal(t, []budget.What{budget.Lead, budget.Panel, budget.Cable, budget.Panel, budget.Lead}, whats(b))
		require.InDelta(t, 0.2637, b.Parts[0].LossDB, 1e-9)
		require.InDelta(t, 0.4+0.2, b.Parts[1].LossDB, 1e-9, "the lead's 5e plug makes that side the poorer")
		require.InDelta(t, 2*0.21975*1.5, b.Parts[4].LossDB, 1e-9, "a lead of no stated kind is 26 AWG Cat 5e")
		require.InDelta(t, 5, b.Laid, 1e-9)
		require.InDelta(t, 8, b.Parts[4].End(), 1e-9)
	})
}

func whats(b budget.Budget) []budget.What {
	var all []budget.What
	for _, part := range b.Parts {
		all = append(all, part.What)
	}
	return all
}

func TestLossMountsFromPartToPart(t *testing.T) {
	s := newSite(t, 200)
	s.set(t, func(l *plan.Link) { l.FillKind, l.FromPanel, l.FromLead = "cat6a-own", "cat6", 1 })
	s.cable(t, metres("cat5e-unscreened", 50), metres("cat6", 20), metres("cat6a-drum-socket", 30))
	b := s.budget()
	at, loss, interfaces := 0.0, 0.0, 0
	for _, part := range b.Parts {
		require.InDelta(t, at, part.Start, 1e-9)
		require.InDelta(t, loss, part.BeforeDB, 1e-9)
		require.Positive(t, part.LossDB)
		at, loss, interfaces = part.End(), part.AfterDB(), interfaces+part.Interfaces
	}
	require.InDelta(t, b.Length()+1, at, 1e-9, "with the inner lead")
	require.InDelta(t, b.LossDB, loss, 1e-9)
	require.InDelta(t, b.Medium.DB(b.Loss, standards.Transport{}), loss, 1e-9)
	require.Equal(t, b.Interfaces, interfaces)
}

func TestAMeasuredLossReplacesThatOfTheKind(t *testing.T) {
	s := newSite(t, 10)
	put := func(measured plan.Optional) float64 {
		s.do(t, func(e *plan.Edit) error {
			plan.Put(e, plan.Reel{ID: "r-22222", Kind: "cat5e-unscreened", Length: 50, Measured: measured})
			plan.Put(e, plan.HouseLine{ID: "h-22222", Name: "H1", Kind: "cat6-solid", Length: 40, Measured: measured})
			e.SetSegments(s.link, []plan.Segment{{Reel: "r-22222"}})
			return nil
		})
		return s.budget().LossDB
	}
	require.InDelta(t, 13.185, put(plan.Optional{}), 1e-9)
	require.InDelta(t, 12, put(plan.Some(12)), 1e-9)
	require.InDelta(t, 20, put(plan.Some(20)), 1e-9)
	require.InDelta(t, 0.8*21.975/2, put(plan.Some(0)), 1e-9, "a slip of the pen buys no grade")
	put(plan.Some(9))
	s.cable(t, plan.Segment{HouseLine: "h-22222"})
	require.InDelta(t, 9, s.budget().LossDB, 1e-9)
}

func TestTheConductorDecidesTheStrandFactor(t *testing.T) {
	// Factors published by TIA-568 and ISO 11801: solid 1, stranded 24 AWG or thicker 1.2, stranded 26 AWG 1.5; stranded
	// 28 AWG 1.95 from memory of TIA-568.2-D.
	cases := []struct {
		name   string
		gauge  int
		solid  bool
		factor float64
	}{
		{"24 AWG solid", 24, true, 1},
		{"27 AWG solid goes with the next thinner one known", 27, true, 1},
		{"24 AWG stranded", 24, false, 1.2},
		{"22 AWG stranded", 22, false, 1.2},
		{"26 AWG stranded", 26, false, 1.5},
		{"25 AWG stranded counts as 26", 25, false, 1.5},
		{"28 AWG stranded", 28, false, 1.95},
		{"27 AWG stranded counts as 28", 27, false, 1.95},
		{"unstated and stranded is a portable reel", 0, false, 1.2},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			s := newSite(t, 90)
			s.do(t, func(e *plan.Edit) error {
				plan.Put(e, plan.CableKind{ID: "trial", Name: "Trial", Media: "balanced-pair", Category: "cat5e", Gauge: c.gauge, Solid: c.solid})
				plan.Put(e, plan.CableKind{ID: "allowed", Name: "Allowed", Media: "balanced-pair", Category: "cat5e", Gauge: c.gauge, Solid: c.solid, Allowance: true})
				e.SetSegments(s.link, []plan.Segment{metres("trial", 100)})
				return nil
			})
			require.InDelta(t, 21.975*c.factor, s.budget().LossDB, 1e-9)
			s.cable(t, metres("allowed", 100))
			allowed := max(1.5, c.factor)
			if c.solid {
				allowed = 1
			}
			require.InDelta(t, 21.975*allowed, s.budget().LossDB, 1e-9, "ISO's 50 % is an explicit choice, for stranded cable")
		})
	}
}
