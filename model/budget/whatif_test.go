package budget_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/budget"
	"stageloom/model/plan"
)

func (s *site) whatIfs(change budget.Change) (found []budget.WhatIf) {
	link, _ := s.Link(s.link)
	for _, w := range budget.NewReckoner(s.Plan).WhatIfs(link) {
		if w.Change == change {
			found = append(found, w)
		}
	}
	return found
}

func (s *site) reach(kind plan.CableKindID) [budget.MostReachJoins + 1]budget.Reach {
	link, _ := s.Link(s.link)
	for _, reach := range budget.NewReckoner(s.Plan).KindReaches(link) {
		if reach.Kind == kind {
			return reach.Joins
		}
	}
	return [budget.MostReachJoins + 1]budget.Reach{}
}

func TestHowFarAKindReachesByJoins(t *testing.T) {
	s := newSite(t, 50)
	s.settings(t, func(p *plan.Settings) { p.Temperature, p.WantedMargin = plan.Some(20), plan.Some(3) })
	t.Run("low-loss cable with one join reaches the 133 m of the field", func(t *testing.T) {
		// Common practice, no source: two low-loss reels carry 133 m inside 25 dB at 100 MHz. 18.5 dB per 100 m, a Cat 6A
		// coupler of two connections of 0.02·√100 dB.
		joins := s.reach("cat6a-own")
		require.InDelta(t, 25/0.185, joins[0].AtLimit, 1e-6)
		require.InDelta(t, 133, joins[1].AtLimit, 0.1)
		require.InDelta(t, (25-3-0.8)/0.185, joins[2].Wanted, 1e-6)
	})
	t.Run("a Cat 5e plug makes each connection as poor as itself", func(t *testing.T) {
		joins := s.reach("cat5e")
		slope := 1.2 * 0.2197 // TIA-568-C.2: 21.97 dB per 100 m at 100 MHz, stranded 24 AWG × 1.2
		require.InDelta(t, 25/slope, joins[0].AtLimit, 0.05)
		require.InDelta(t, (25-0.8)/slope, joins[1].AtLimit, 0.05)
	})
	t.Run("a panel takes its part, and tails are left out", func(t *testing.T) {
		before := s.reach("cat6a-own")
		s.set(t, func(l *plan.Link) { l.FromPanel = "cat6a" })
		require.InDelta(t, before[0].AtLimit-0.4/0.185, s.reach("cat6a-own")[0].AtLimit, 1e-6)
		require.Zero(t, s.reach("cat6a-tail")[0])
	})
}

func TestWhatIfs(t *testing.T) {
	s := newSite(t, 90)
	s.settings(t, func(p *plan.Settings) { p.Temperature, p.WantedMargin = plan.Some(20), plan.Some(3) })
	s.cable(t, metres("cat6a-own", 60), metres("cat5e", 50))
	t.Run("so many metres less that the wanted margin is there", func(t *testing.T) {
		w := s.whatIfs(budget.Shorter)[0]
		require.Equal(t, 1, w.Order)
		require.Equal(t, budget.Enough, w.Grade)
		require.GreaterOrEqual(t, w.MarginDB, 3.0)
		require.Less(t, w.MarginDB, 3.0+0.1*0.185)
	})
	t.Run("one cable in the place of two is of the better kind", func(t *testing.T) {
		w := s.whatIfs(budget.FewerJoins)
		require.Len(t, w, 1)
		require.Equal(t, plan.CableKindID("cat6a-own"), w[0].Kind)
		require.InDelta(t, 25-1.1*18.5, w[0].MarginDB, 1e-9)
	})
	t.Run("each cable by a better kind", func(t *testing.T) {
		w := s.whatIfs(budget.BetterKind)
		require.Equal(t, 2, w[0].Order, "the poorer cable gains most")
	})
	t.Run("cooler wants more and warmer loses more", func(t *testing.T) {
		now := s.budget().MarginDB
		require.InDelta(t, now, s.whatIfs(budget.Cooler)[0].MarginDB, 1e-9, "figures are not lowered under 20 °C")
		require.Less(t, s.whatIfs(budget.Warmer)[0].MarginDB, now)
	})
	t.Run("a link without cable has none", func(t *testing.T) {
		s.cable(t)
		require.Empty(t, s.whatIfs(budget.Shorter))
	})
}

func TestAWhatIfIsWhatTheLinkWouldBe(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPlan(t)
		for link := range p.Links.All() {
			for _, w := range budget.NewReckoner(p).WhatIfs(link) {
				does := true
				after, err := plan.Do(p, nil, func(e *plan.Edit) error {
					switch {
					case w.Change == budget.Cooler || w.Change == budget.Warmer:
						return plan.Update(e, link.Key(), func(r *plan.Link) { r.Temperature = plan.Some(w.TemperatureC) })
					case w.Change == budget.BetterJoint:
						return e.SetCoupler(link.ID, w.Order, w.Coupler)
					case w.Change == budget.BetterKind && w.Order == 0:
						return plan.Update(e, link.Key(), func(r *plan.Link) { r.FillKind = w.Kind })
					}
					does = false
					return nil
				})
				require.NoError(t, err)
				if !does {
					continue
				}
				changed, _ := after.Link(link.ID)
				b := budget.Of(after, changed)
				require.InDelta(t, b.MarginDB, w.MarginDB, 1e-9)
				require.Equal(t, b.Grade, w.Grade)
			}
		}
	})
}
