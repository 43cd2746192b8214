package budget_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/budget"
	"stageloom/model/plan"
)

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
	require.InDelta(t, 24.0, s.budget().LimitDB, 1e-4, "IEEE 802.3 40.7.2.1, from memory")
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
