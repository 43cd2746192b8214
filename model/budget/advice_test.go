package budget_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/budget"
	"stageloom/model/pairline"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

func TestTheLineLosesWhatTheBudgetSays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPlan(t)
		r := budget.NewReckoner(p)
		for link := range p.Links.All() {
			b, line := r.Of(link), r.Line(link)
			require.InDelta(t, b.LossDB, line.Loss().At(100), 1e-9)
			if b.Graded {
				require.Len(t, line.Interfaces(), b.Interfaces)
			}
		}
	})
}

func TestAdviceAgreesWithTheReckonerOfChains(t *testing.T) {
	// The chain reckoner of the standards room knows no plan; both must say the same of the same cables.
	s := newSite(t, 100)
	s.cable(t, metres("cat6a-own", 60), metres("cat5e", 50))
	s.settings(t, func(p *plan.Settings) { p.Temperature = plan.Some(35) })
	link, _ := s.Link(s.link)
	got, err := budget.NewReckoner(s.Plan).Advise(link)
	require.NoError(t, err)
	temperature := 35.0
	want, err := standards.Reckon(standards.Question{Chain: "cat6a-own:18.5 60 + cat5e 50", TemperatureC: &temperature})
	require.NoError(t, err)
	require.InDelta(t, want.LossDB, got.Budget.LossDB, 1e-9)
	require.InDelta(t, want.MarginDB, got.Budget.MarginDB, 1e-9)
	require.InDelta(t, want.Advice.WorstMarginDB, got.WorstMarginDB, 1e-9)
	require.InDelta(t, want.Advice.WorstMHz, got.WorstMHz, 1e-9)
	require.InDelta(t, want.Advice.MeanMarginDB, got.MeanMarginDB, 1e-9)
	require.InDelta(t, want.Advice.Risk, got.Risk, 1e-9)
	require.InDelta(t, want.Advice.RiskFrom20, got.RiskFrom20, 1e-9)
	require.InDelta(t, want.Advice.Reflections.RippleDB, got.Reflections.RippleDB, 1e-9)
	require.InDelta(t, want.Advice.NEXT.WorstDB, got.NEXT.WorstDB, 1e-9)
	require.InDelta(t, want.Advice.ACRN.LikelyDB, got.ACRN.LikelyDB, 1e-9)
	require.InDelta(t, want.Advice.ACRF.LikelyDB, got.ACRF.LikelyDB, 1e-9)
	require.InDelta(t, want.Advice.DelayNs, got.DelayNs, 1e-9)
	require.InDelta(t, want.Advice.SkewNs, got.SkewNs, 1e-9)
	require.Equal(t, want.Advice.Curve.Slug, got.Curve.Slug)
	require.InDelta(t, 2*(0.6*7.1+0.5*8.9)*(1+0.00393*15)+2*0.06, got.LoopOhm, 1e-9, "both pieces' conductors, 23 and 24 AWG stranded")
}

func TestAdviceIsOnlyForALine(t *testing.T) {
	s := newSite(t, 100)
	link, _ := s.Link(s.link)
	_, err := budget.NewReckoner(s.Plan).Advise(link)
	require.ErrorIs(t, err, budget.ErrNoLine)
	require.ErrorContains(t, err, "L01")
}

func TestReach(t *testing.T) {
	s := newSite(t, 100)
	s.set(t, func(l *plan.Link) { l.FillKind = "cat6a-own" })
	s.cable(t, metres("cat6a-own", 60))
	link, _ := s.Link(s.link)
	a, err := budget.NewReckoner(s.Plan).Advise(link)
	require.NoError(t, err)
	for _, reach := range a.Reaches {
		if reach.Kind == "cat6a-own" {
			require.InDelta(t, 133, reach.AtLimit, 0.05, "two low-loss reels reach 133 m inside the field rule: common practice, no source")
			require.InDelta(t, (25-3-0.4)/0.185, reach.Wanted, 1e-9)
			return
		}
	}
	require.Fail(t, "no reach for the kind in use")
}

func TestPowerOverTheLink(t *testing.T) {
	// IEEE 802.3 clause 33: 30 W at 50 V over 12.5 Ω leave 25.5 W at the device; published.
	s := newSite(t, 90)
	power, passive := "", true
	advise := func(watt float64, kind plan.CableKindID, length float64) budget.Advice {
		s.set(t, func(l *plan.Link) { l.PowerW = watt })
		s.sender(t, power, passive)
		s.cable(t, metres(kind, length))
		link, _ := s.Link(s.link)
		a, err := budget.NewReckoner(s.Plan).Advise(link)
		require.NoError(t, err)
		return a
	}
	t.Run("the weakest type that is meant for the device is taken", func(t *testing.T) {
		a := advise(25.5, "cat6a-own", 90)
		require.NoError(t, a.PowerErr)
		require.Equal(t, standards.PowerSlug("type2"), a.PowerType.Slug)
		require.InDelta(t, 25.5, a.Feed.DevicePower, 1e-9)
		require.Greater(t, a.Feed.DeviceVoltage, 42.5)
	})
	t.Run("too much is refused", func(t *testing.T) {
		require.ErrorIs(t, advise(90, "cat6a-own", 90).PowerErr, budget.ErrPowerTooMuch)
	})
	t.Run("too thin a conductor lets the voltage sink", func(t *testing.T) {
		require.ErrorIs(t, advise(25.5, "cat5e-tail", 90).PowerErr, pairline.ErrVoltageLow)
	})
	t.Run("the sender's own type decides", func(t *testing.T) {
		power, passive = "type1", false
		a := advise(20, "cat6a-own", 90)
		require.ErrorIs(t, a.PowerErr, budget.ErrPowerTooMuch, "type 1 brings 12.95 W")
		power = "type4-class8"
		a = advise(20, "cat6a-own", 90)
		require.NoError(t, a.PowerErr)
		require.Equal(t, standards.PowerSlug("type4-class8"), a.PowerType.Slug)
		require.Greater(t, a.Feed.DeviceVoltage, 50.0, "52 V at the sender, less what 90 m lose on four pairs")
		power = "type9"
		require.ErrorIs(t, advise(20, "cat6a-own", 90).PowerErr, standards.ErrUnknown)
		power = ""
		require.ErrorIs(t, advise(20, "cat6a-own", 90).PowerErr, budget.ErrNoPower)
	})
	t.Run("a link that carries none has none", func(t *testing.T) {
		a := advise(0, "cat6a-own", 90)
		require.Empty(t, a.PowerType.Slug)
		require.NoError(t, a.PowerErr)
	})
}

// sender makes the near device one that gives this type of power, or passes power on.
func (s *site) sender(t *testing.T, power string, passive bool) {
	t.Helper()
	s.do(t, func(e *plan.Edit) error {
		if err := plan.Update(e, "stagebox-40-20", func(k *plan.Kind) { k.Passive = passive }); err != nil {
			return err
		}
		return plan.Update(e, plan.PortKey("stagebox-40-20", "AES50 1"), func(p *plan.KindPort) { p.Power = power })
	})
}
