package budget_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/budget"
	"stageloom/model/geom"
	"stageloom/model/plan"
)

func TestWhereAWayLiesWithinAreas(t *testing.T) {
	s := newSite(t, 100)
	put := func(id plan.AreaID, corners ...geom.Point) {
		s.do(t, func(e *plan.Edit) error {
			plan.Put(e, plan.Area{ID: id, Name: string(id), Use: "road"})
			for i, at := range corners {
				plan.Put(e, plan.AreaPoint{Area: id, Order: i + 1, X: at.X, Y: at.Y})
			}
			return nil
		})
	}
	spans := func() []budget.Span {
		r := budget.NewReckoner(s.Plan)
		link, _ := s.Link(s.link)
		return r.Ground().Spans(r.Way(link))
	}
	require.Empty(t, spans(), "no area")
	put("a-22222", geom.Pt(40, -10), geom.Pt(50, -10), geom.Pt(50, 10), geom.Pt(40, 10))
	put("a-33333", geom.Pt(70, -10), geom.Pt(300, -10), geom.Pt(300, 10), geom.Pt(70, 10))
	// A way of 100 m along the x axis: a road from 40 to 50 m, and its far end inside another from 70 m on.
	found := spans()
	require.Len(t, found, 2)
	require.InDelta(t, 40, found[0].From, 1e-9)
	require.InDelta(t, 50, found[0].To, 1e-9)
	require.Equal(t, "a-22222", found[0].Area.Name)
	require.InDelta(t, 70, found[1].From, 1e-9)
	require.InDelta(t, 100, found[1].To, 1e-9)

	t.Run("a way that goes in and out twice has two spans", func(t *testing.T) {
		s.do(t, func(e *plan.Edit) error {
			return e.Draw(s.link, []geom.Point{{X: 45, Y: 0}, {X: 45, Y: 20}, {X: 47, Y: 20}, {X: 47, Y: 0}})
		})
		first := 0
		for _, span := range spans() {
			if span.Area.ID == "a-22222" {
				first++
				require.Greater(t, span.To, span.From)
			}
		}
		require.Equal(t, 2, first)
	})
}
