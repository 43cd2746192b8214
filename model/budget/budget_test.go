package budget_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/budget"
	"stageloom/model/catalogue"
	"stageloom/model/plan"
)

// site is a plan with one link of the wanted run between two stage boxes on one straight line.
type site struct {
	*plan.Plan
	ids      *plan.IDSource
	from, to plan.DeviceID
	link     plan.LinkID
}

// newSite lays out an AES50 link whose way is this many metres; no slack, no lengthening of straight ways, 20 °C.
func newSite(t *testing.T, way float64) *site {
	t.Helper()
	s := &site{Plan: plan.New("Site"), ids: plan.NewIDSource(3, 4)}
	s.do(t, func(e *plan.Edit) error {
		settings := s.Settings
		settings.SlackPercent, settings.SlackEnd, settings.Detour, settings.Temperature = 0, 0, 1, plan.Some(20)
		e.SetSettings(settings)
		for _, kind := range catalogue.CableKinds() {
			require.NoError(t, catalogue.UseCable(e, kind.ID))
		}
		require.NoError(t, catalogue.Use(e, "stagebox-32-16"))
		s.from = e.AddDevice(plan.Device{Name: "near", Kind: "stagebox-32-16"})
		s.to = e.AddDevice(plan.Device{Name: "far", Kind: "stagebox-32-16", X: way})
		s.link = e.AddLink(plan.Link{Transport: "aes50", From: s.from, FromPort: "A", To: s.to, ToPort: "B"})
		return nil
	})
	return s
}

func (s *site) do(t *testing.T, edit func(*plan.Edit) error) {
	t.Helper()
	next, err := plan.Do(s.Plan, s.ids, edit)
	require.NoError(t, err)
	s.Plan = next
}

func (s *site) set(t *testing.T, with func(*plan.Link)) {
	t.Helper()
	s.do(t, func(e *plan.Edit) error { return plan.Update(e, plan.Key(s.link), with) })
}

func (s *site) settings(t *testing.T, with func(*plan.Settings)) {
	t.Helper()
	s.do(t, func(e *plan.Edit) error {
		settings := s.Settings
		with(&settings)
		e.SetSettings(settings)
		return nil
	})
}

func (s *site) cable(t *testing.T, segments ...plan.Segment) {
	t.Helper()
	s.do(t, func(e *plan.Edit) error { e.SetSegments(s.link, segments); return nil })
}

func (s *site) budget() budget.Budget {
	link, _ := s.Link(s.link)
	return budget.Of(s.Plan, link)
}

func metres(kind plan.CableKindID, length float64) plan.Segment {
	return plan.Segment{Kind: kind, Length: length}
}

func TestTheFiveFieldObservations(t *testing.T) {
	// Common practice, no source: which joined reels run clean on AES50 and which give errors. The margins are the
	// arithmetic of the rules, at 20 °C with Cat 6A couplers: figures reckoned apart from this program, as are the losses.
	cases := []struct {
		name     string
		segments []plan.Segment
		lossDB   float64
		label    string
		grade    budget.Grade
	}{
		{"50 m of stranded 5e runs clean", []plan.Segment{metres("cat5e-unscreened", 50)}, 13.185, "+11.8", budget.Ample},
		{"two joined give constant errors", []plan.Segment{metres("cat5e-unscreened", 50), metres("cat5e-unscreened", 50)}, 27.17, "−2.2", budget.Over},
		{"60 m of low-loss 6A runs clean", []plan.Segment{metres("cat6a-own", 60)}, 11.1, "+13.9", budget.Ample},
		{"two joined run clean", []plan.Segment{metres("cat6a-own", 60), metres("cat6a-own", 60)}, 22.6, "+2.4", budget.Enough},
		{"6A and 5e joined just run", []plan.Segment{metres("cat6a-own", 60), metres("cat5e-unscreened", 50)}, 24.885, "+0.1", budget.Tight},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			s := newSite(t, 10)
			s.settings(t, func(p *plan.Settings) { p.WantedMargin = plan.Some(1.5) })
			s.cable(t, c.segments...)
			b := s.budget()
			require.InDelta(t, c.lossDB, b.LossDB, 1e-9)
			require.Equal(t, c.label, budget.TenthDB(b.MarginDB))
			require.Equal(t, c.grade, b.Grade)
			require.Equal(t, plan.RuleID("aes50-field"), b.Rule)
		})
	}
	t.Run("the just-running pair is over at 30 °C and with a Cat 5e coupler", func(t *testing.T) {
		s := newSite(t, 10)
		s.cable(t, metres("cat6a-own", 60), plan.Segment{Kind: "cat5e-unscreened", Length: 50, Coupler: "cat5e"})
		require.Equal(t, budget.Over, s.budget().Grade)
		s.cable(t, metres("cat6a-own", 60), metres("cat5e-unscreened", 50))
		require.Equal(t, budget.Tight, s.budget().Grade)
		s.settings(t, func(p *plan.Settings) { p.Temperature = plan.Some(30) })
		require.Equal(t, budget.Over, s.budget().Grade)
	})
}

func TestTheRunIsWayAndRisesAndSlack(t *testing.T) {
	s := newSite(t, 80)
	s.settings(t, func(p *plan.Settings) { p.SlackPercent, p.SlackEnd, p.Detour = 10, 3, 1.15 })
	s.set(t, func(l *plan.Link) { l.RiseFrom, l.RiseTo = 1, 4 })
	t.Run("a straight way is lengthened until it is drawn", func(t *testing.T) {
		b := s.budget()
		require.True(t, b.Straight)
		require.InDelta(t, 92, b.Way, 1e-9)
		require.InDelta(t, 5, b.Rises, 1e-9)
		require.InDelta(t, 15.2, b.Slack, 1e-9, "a tenth of 92 m and 3 m at each end")
		require.InDelta(t, 112.2, b.Run, 1e-9)
	})
	t.Run("a drawn way counts as it is", func(t *testing.T) {
		s.do(t, func(e *plan.Edit) error {
			e.SetPoints(s.link, []plan.LinkPoint{{X: 0, Y: 30}, {X: 80, Y: 30}})
			return plan.Update(e, plan.Key(s.link), func(l *plan.Link) { l.Way = "drawn" })
		})
		b := s.budget()
		require.False(t, b.Straight)
		require.InDelta(t, 140, b.Way, 1e-9)
		require.InDelta(t, 140+5+14+6, b.Run, 1e-9)
	})
	t.Run("a level counts with its height, and a device takes that of its position", func(t *testing.T) {
		s.do(t, func(e *plan.Edit) error {
			plan.Put(e, plan.Level{ID: "v-22222", Name: "Roof", Height: 40})
			at := e.AddPosition(plan.Position{Name: "Tower", X: 80, Level: "v-22222"})
			e.SetPoints(s.link, []plan.LinkPoint{{X: 0, Y: 30}, {X: 80, Y: 30, Level: "v-22222"}})
			return plan.Update(e, plan.Key(s.to), func(d *plan.Device) { d.Position = at })
		})
		require.InDelta(t, 30+89.443+30, s.budget().Way, 1e-3, "the middle hop is the root of 80² + 40²")
	})
	t.Run("a link's own slack goes before the plan's", func(t *testing.T) {
		s.set(t, func(l *plan.Link) { l.SlackPercent, l.SlackEnd = plan.Some(0), plan.Some(0) })
		require.InDelta(t, 0, s.budget().Slack, 1e-9)
	})
}

func TestMissingMetresAreReckonedAsTheWantedKind(t *testing.T) {
	s := newSite(t, 100)
	t.Run("a link with neither cable nor wanted kind is uncabled", func(t *testing.T) {
		b := s.budget()
		require.Equal(t, budget.Uncabled, b.Grade)
		require.Empty(t, b.Label())
		require.Empty(t, b.Parts)
		require.Equal(t, "uncabled: 100.0 m to go and no kind of cable chosen", b.Why())
	})
	t.Run("a wanted kind alone gives an outlook of one cable", func(t *testing.T) {
		s.set(t, func(l *plan.Link) { l.FillKind = "cat6a-own" })
		b := s.budget()
		require.InDelta(t, 18.5, b.LossDB, 1e-9)
		require.Len(t, b.Parts, 1)
		require.True(t, b.Parts[0].Assumed && b.Assumed() && b.Bare())
		require.False(t, b.TooShort())
		require.Equal(t, budget.Ample, b.Grade)
		require.Equal(t, "ample: 6.5 dB in hand, 3.0 dB wanted; no cable yet, 100.0 m to go", b.Why())
	})
	t.Run("what cables leave open is one more cable and one more coupler", func(t *testing.T) {
		s.cable(t, metres("cat6a-own", 60))
		b := s.budget()
		require.InDelta(t, 40, b.Missing, 1e-9)
		require.InDelta(t, 11.1+0.4+7.4, b.LossDB, 1e-9)
		require.Equal(t, 0, b.Joins)
		require.Equal(t, 2, b.Interfaces)
		require.True(t, b.TooShort() && b.Parts[1].Assumed && b.Parts[2].Assumed)
		require.Contains(t, b.Why(), "40.0 m too short")
	})
	t.Run("cables that do not reach are uncabled without a wanted kind", func(t *testing.T) {
		s.set(t, func(l *plan.Link) { l.FillKind = "" })
		b := s.budget()
		require.Equal(t, budget.Uncabled, b.Grade)
		require.True(t, b.TooShort())
		require.False(t, b.HasMargin())
	})
	t.Run("less than five centimetres is swallowed by slack", func(t *testing.T) {
		s.cable(t, metres("cat6a-own", 60), metres("cat6a-own", 39.96))
		require.Zero(t, s.budget().Missing)
		s.cable(t, metres("cat6a-own", 60), metres("cat6a-own", 39.94))
		require.InDelta(t, 0.06, s.budget().Missing, 1e-9)
	})
}

func TestWholeCablesCount(t *testing.T) {
	s := newSite(t, 10)
	s.do(t, func(e *plan.Edit) error {
		plan.Put(e, plan.Reel{ID: "r-22222", Tag: "6A-01", Kind: "cat6a-own", Length: 60})
		e.SetSegments(s.link, []plan.Segment{{Reel: "r-22222"}})
		return nil
	})
	b := s.budget()
	require.InDelta(t, 11.1, b.LossDB, 1e-9, "the coiled rest counts too")
	require.Equal(t, plan.CableKindID("cat6a-own"), b.Parts[0].Kind)
	require.Equal(t, plan.ReelID("r-22222"), b.Parts[0].Reel)
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
	require.InDelta(t, b.Loss.At(100), loss, 1e-9)
	require.Equal(t, b.Interfaces, interfaces)
}

func TestTemperature(t *testing.T) {
	s := newSite(t, 40)
	s.cable(t, metres("cat5e", 50))
	s.settings(t, func(p *plan.Settings) { p.Temperature = plan.Optional{} })
	t.Run("no figure is the default for where the link lies", func(t *testing.T) {
		b := s.budget()
		require.InDelta(t, 40, b.TemperatureC, 0, "outdoors in shade")
		require.Equal(t, budget.BySite, b.TemperatureBy)
		require.InDelta(t, 13.185*1.04, b.LossDB, 1e-9, "screened cable gains 0.2 % per kelvin, TIA-568-C.2 6.4.7")
	})
	t.Run("the worse of the two ends counts", func(t *testing.T) {
		s.do(t, func(e *plan.Edit) error {
			at := e.AddPosition(plan.Position{Name: "Roof", Exposure: "sun"})
			return plan.Update(e, plan.Key(s.to), func(d *plan.Device) { d.Position = at })
		})
		require.InDelta(t, 55, s.budget().TemperatureC, 0, "in the sun and the air unknown")
		s.settings(t, func(p *plan.Settings) { p.Air = plan.Some(32) })
		require.InDelta(t, 52, s.budget().TemperatureC, 0, "20 K over the worst air")
	})
	t.Run("a device's own surroundings go before its position's", func(t *testing.T) {
		s.do(t, func(e *plan.Edit) error {
			require.NoError(t, plan.Update(e, plan.Key(s.from), func(d *plan.Device) { d.Exposure = "indoors" }))
			return plan.Update(e, plan.Key(s.to), func(d *plan.Device) { d.Exposure = "indoors" })
		})
		require.InDelta(t, 30, s.budget().TemperatureC, 0)
	})
	t.Run("the plan's figure goes before the default, the link's before the plan's", func(t *testing.T) {
		s.settings(t, func(p *plan.Settings) { p.Temperature = plan.Some(45) })
		require.InDelta(t, 45, s.budget().TemperatureC, 0)
		require.Equal(t, budget.ByPlan, s.budget().TemperatureBy)
		s.set(t, func(l *plan.Link) { l.Temperature = plan.Some(25) })
		require.InDelta(t, 25, s.budget().TemperatureC, 0)
		require.Equal(t, "25 °C, set for the link", s.budget().TemperatureWhy())
	})
}

func TestWantedMargin(t *testing.T) {
	s := newSite(t, 40)
	s.cable(t, metres("cat6a-own", 60))
	wanted := func(temperature plan.Optional) float64 {
		s.settings(t, func(p *plan.Settings) { p.Temperature = temperature })
		return s.budget().WantedDB
	}
	require.InDelta(t, 1.5, wanted(plan.Optional{}), 0, "the default for where it lies")
	require.InDelta(t, 1.5, wanted(plan.Some(40)), 0)
	require.InDelta(t, 1.5, wanted(plan.Some(50)), 0)
	require.InDelta(t, 3, wanted(plan.Some(39)), 0, "typing a cooler figure buys no grade")
	require.Equal(t, "3.0 dB, because the temperature is under the default of 40 °C", s.budget().WantedWhy())
	s.settings(t, func(p *plan.Settings) { p.WantedMargin = plan.Some(2) })
	require.InDelta(t, 2, s.budget().WantedDB, 0)
	s.set(t, func(l *plan.Link) { l.WantedMargin = plan.Some(1) })
	require.InDelta(t, 1, s.budget().WantedDB, 0)
	require.Equal(t, budget.ByLink, s.budget().WantedBy)
}

func TestTheLimitRule(t *testing.T) {
	s := newSite(t, 40)
	s.cable(t, metres("cat6a-own", 60))
	require.InDelta(t, 25, s.budget().LimitDB, 1e-9)
	s.do(t, func(e *plan.Edit) error {
		plan.Put(e, plan.TransportRule{Transport: "aes50", Rule: "ieee-link-segment"})
		return nil
	})
	require.InDelta(t, 24.0044, s.budget().LimitDB, 1e-4, "IEEE 802.3 40.7.2.1, from memory")
	require.Equal(t, budget.ByPlan, s.budget().RuleBy)
	s.set(t, func(l *plan.Link) { l.Rule = "channel-cat6" })
	require.InDelta(t, 21.3, s.budget().LimitDB, 0.05, "the Cat 6 channel, published")
	s.set(t, func(l *plan.Link) { l.Rule = "rule-of-a-later-edition" })
	require.Equal(t, plan.RuleID("ieee-link-segment"), s.budget().Rule, "an unknown rule falls back to the plan's")
}

func TestGradesBeginWhereTheySay(t *testing.T) {
	// One cable of 100 m at 20 °C whose own figure puts the margin where the case wants it.
	cases := []struct {
		figure float64
		grade  budget.Grade
		label  string
		why    string
	}{
		{22, budget.Ample, "+3", "ample: 3.0 dB in hand, 1.5 dB wanted"},
		{22.01, budget.Enough, "+2", "enough: 2.9 dB in hand, 1.5 dB wanted"},
		{23.5, budget.Enough, "+1", "enough: 1.5 dB in hand, 1.5 dB wanted"},
		{23.51, budget.Tight, "+1", "tight: 1.4 dB in hand, 0.1 dB under what is wanted"},
		{24.5, budget.Tight, "+0", "tight: 0.5 dB in hand, 1.0 dB under what is wanted; above the standard's 24.0 dB"},
		{25, budget.Tight, "+0", "tight: 0.0 dB in hand, 1.5 dB under what is wanted; above the standard's 24.0 dB"},
		{25.001, budget.Over, "−1", "over by 0.1 dB at 100 MHz"},
		{26.3, budget.Over, "−2", "over by 1.3 dB at 100 MHz"},
	}
	for _, c := range cases {
		t.Run(c.why, func(t *testing.T) {
			s := newSite(t, 90)
			s.settings(t, func(p *plan.Settings) { p.WantedMargin = plan.Some(1.5) })
			s.do(t, func(e *plan.Edit) error {
				plan.Put(e, plan.CableKind{
					ID: "trial", Name: "Trial", Media: "balanced-pair", Category: "cat5e", Gauge: 24, Pairs: 4,
					OwnFigure: plan.Some(c.figure),
				})
				e.SetSegments(s.link, []plan.Segment{metres("trial", 100)})
				return nil
			})
			b := s.budget()
			require.Equal(t, c.grade, b.Grade)
			require.Equal(t, c.label, b.Label())
			require.Equal(t, c.why, b.Why())
		})
	}
}

func TestPastTheStatedDistance(t *testing.T) {
	s := newSite(t, 90)
	s.cable(t, metres("cat6a-own", 60), metres("cat6a-own", 60))
	require.Contains(t, s.budget().Why(), "120.0 m of cable, past the 100 m stated for AES50")
	s.cable(t, metres("cat6a-own", 100))
	require.False(t, s.budget().PastDistance())
}

func TestATransportWithoutABudgetHasLengthAndNoDecibels(t *testing.T) {
	s := newSite(t, 210)
	s.do(t, func(e *plan.Edit) error {
		require.NoError(t, catalogue.Use(e, "media-converter"))
		a := e.AddDevice(plan.Device{Kind: "media-converter"})
		b := e.AddDevice(plan.Device{Kind: "media-converter", X: 210})
		s.link = e.AddLink(plan.Link{Transport: "fibre", From: a, FromPort: "F", To: b, ToPort: "F"})
		e.SetSegments(s.link, []plan.Segment{metres("fibre-multimode", 150), metres("fibre-multimode", 50)})
		return nil
	})
	b := s.budget()
	require.False(t, b.Graded)
	require.Equal(t, budget.Ungraded, b.Grade)
	require.InDelta(t, 10, b.Missing, 1e-9)
	require.Equal(t, 1, b.Joins)
	require.Zero(t, b.LossDB)
	require.Empty(t, b.Label())
	require.Equal(t, "Fibre carries no grade; 10.0 m too short", b.Why())
}

func TestACableOfUnknownLossGivesNoGrade(t *testing.T) {
	s := newSite(t, 40)
	s.cable(t, metres("coax", 50))
	b := s.budget()
	require.Equal(t, budget.Uncabled, b.Grade)
	require.True(t, b.Unknown() && b.Parts[0].Unknown)
	require.Equal(t, "a cable whose loss is not known: no grade can be given", b.Why())
}

func TestTheConductorDecidesTheStrandFactor(t *testing.T) {
	// Factors published by TIA-568 and ISO 11801: solid 1, stranded 24 AWG or thicker 1.2, stranded 26 AWG 1.5.
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
		{"30 AWG stranded is at least that", 30, false, 1.5},
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
			allowed := 1.5
			if c.solid {
				allowed = 1
			}
			require.InDelta(t, 21.975*allowed, s.budget().LossDB, 1e-9, "ISO's 50 % is an explicit choice, for stranded cable")
		})
	}
}
