package budget_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/budget"
	"stageloom/model/geom"
	"stageloom/model/plan"
)

func TestAWayCrossesWhatItTouches(t *testing.T) {
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
	put("a-22222", geom.Pt(40, -10), geom.Pt(50, -10), geom.Pt(50, 10), geom.Pt(40, 10)) // across the way
	put("a-33333", geom.Pt(40, 5), geom.Pt(50, 5), geom.Pt(50, 10))                      // beside it
	put("a-44444", geom.Pt(-50, -50), geom.Pt(200, -50), geom.Pt(200, 50), geom.Pt(-50, 50))
	put("a-55555") // no corners yet
	crossed := func() (ids []plan.AreaID) {
		r := budget.NewReckoner(s.Plan)
		link, _ := s.Link(s.link)
		for _, area := range r.Ground().Crossed(r.Way(link)) {
			ids = append(ids, area.ID)
		}
		return ids
	}
	require.Equal(t, []plan.AreaID{"a-22222", "a-44444"}, crossed(), "one is crossed, one lies all round")
	s.do(t, func(e *plan.Edit) error { return e.Draw(s.link, []geom.Point{{X: 45, Y: 8}}) })
	require.Equal(t, []plan.AreaID{"a-22222", "a-33333", "a-44444"}, crossed(), "the way as drawn counts")
}

func TestShareOfAMeasuredLoss(t *testing.T) {
	s := newSite(t, 10)
	r := budget.NewReckoner(s.Plan)
	require.InDelta(t, 1, r.Share("cat5e", 50, 13.185), 1e-9)
	require.InDelta(t, 0.5, r.Share("cat5e", 100, 13.185), 1e-9)
	require.Zero(t, r.Share("coax", 100, 3))
}
