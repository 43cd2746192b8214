package budget_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/budget"
	"stageloom/model/plan"
)

func (s *site) cures() []budget.Cure {
	link, _ := s.Link(s.link)
	return budget.NewReckoner(s.Plan).Cures(link)
}

func TestCures(t *testing.T) {
	s := newSite(t, 105)
	s.settings(t, func(p *plan.Settings) { p.WantedMargin = plan.Some(1.5) })
	t.Run("a link with its wanted margin needs none", func(t *testing.T) {
		s.cable(t, metres("cat6a-own", 60), metres("cat6a-own", 50))
		require.Empty(t, s.cures())
	})
	t.Run("the cable that loses most is worth changing", func(t *testing.T) {
		s.cable(t, metres("cat5e", 50), metres("cat5e", 60))
		cures := s.cures()
		require.NotEmpty(t, cures)
		require.Equal(t, 2, cures[0].Order)
		require.Equal(t, plan.CableKindID("cat7-own"), cures[0].Kind)
		require.InDelta(t, 25-(0.5*26.37+0.6*18+0.4+0.2), cures[0].MarginDB, 1e-9)
	})
	t.Run("a better coupler is tried first", func(t *testing.T) {
		s.settings(t, func(p *plan.Settings) { p.WantedMargin, p.Temperature = plan.Some(1.5), plan.Some(40) })
		s.cable(t, metres("cat6a-own", 60), plan.Segment{Kind: "cat6a-own", Length: 60, Coupler: "cat5e"})
		cures := s.cures()
		require.Equal(t, budget.Cure{Order: 2, Coupler: "cat6a", MarginDB: cures[0].MarginDB, Grade: budget.Enough}, cures[0])
		require.InDelta(t, 25-(1.2*18.5*1.04+0.4), cures[0].MarginDB, 1e-9)
	})
	t.Run("the wanted kind can be the cure", func(t *testing.T) {
		s.set(t, func(l *plan.Link) { l.FillKind = "cat5e" })
		s.cable(t)
		require.Equal(t, budget.Over, s.budget().Grade)
		cures := s.cures()
		require.Zero(t, cures[0].Order)
		require.Equal(t, plan.CableKindID("cat7-own"), cures[0].Kind)
	})
	t.Run("no change of one thing cures what is far over", func(t *testing.T) {
		s.cable(t, metres("cat5e", 100), metres("cat5e", 100))
		require.Empty(t, s.cures())
	})
}

func TestACureIsWhatTheLinkWouldBe(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPlan(t)
		for link := range p.Links.All() {
			for _, cure := range budget.NewReckoner(p).Cures(link) {
				cured, err := plan.Do(p, nil, func(e *plan.Edit) error {
					if cure.Order == 0 {
						return plan.Update(e, link.Key(), func(l *plan.Link) { l.FillKind = cure.Kind })
					}
					return plan.Update(e, p.SegmentsOf(link.ID)[cure.Order-1].Key(), func(s *plan.Segment) {
						if cure.Coupler != "" {
							s.Coupler = cure.Coupler
							return
						}
						s.Kind = cure.Kind
					})
				})
				require.NoError(t, err)
				changed, _ := cured.Link(link.ID)
				b := budget.Of(cured, changed)
				require.InDelta(t, b.MarginDB, cure.MarginDB, 1e-9)
				require.Equal(t, b.Grade, cure.Grade)
				require.NotEqual(t, budget.Over, cure.Grade)
			}
		}
	})
}
