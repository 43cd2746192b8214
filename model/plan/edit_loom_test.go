package plan_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/geom"
	"stageloom/model/plan"
)

// loomed is a stage with a loom of three links along a route of three corners: one follows all of it, one joins at the
// second corner, one goes the other way round.
func loomed(t *testing.T) (s *stage, loom plan.LoomID, links map[string]plan.LinkID) {
	s, links = newStage(t), map[string]plan.LinkID{}
	s.do(t, func(e *plan.Edit) (err error) {
		links["long"] = e.AddLink(plan.Link{Transport: "aes50", From: s.a, FromPort: "B", To: s.c, ToPort: "B"})
		links["back"] = e.AddLink(plan.Link{Transport: "aes50", From: s.c, FromPort: "C", To: s.a, ToPort: "C"})
		links["late"] = s.bc
		require.NoError(t, e.Draw(links["long"], []geom.Point{{X: 0, Y: 10}, {X: 10, Y: 10}, {X: 50, Y: 10}}))
		loom, err = e.MakeLoom("Snake", []plan.LinkID{links["long"], links["late"], links["back"]})
		return err
	})
	return s, loom, links
}

func wayOf(p *plan.Plan, id plan.LinkID) (way []geom.Point) {
	for _, point := range p.PointsOf(id) {
		way = append(way, point.At())
	}
	return way
}

func TestTheLinksOfALoomFollowItsCorners(t *testing.T) {
	s, loom, links := loomed(t)
	route := s.LoomRoute(loom)
	draw := func(change func([]geom.Point) []geom.Point) {
		s.do(t, func(e *plan.Edit) error { return e.DrawLoom(loom, change(s.LoomRoute(loom))) })
		route = s.LoomRoute(loom)
	}
	t.Run("a corner that is moved far off takes all along that pass it", func(t *testing.T) {
		draw(func(r []geom.Point) []geom.Point { r[1] = geom.Point{X: 12, Y: 400}; return r })
		require.Equal(t, route, wayOf(s.Plan, links["long"]))
		require.Equal(t, route[1:], wayOf(s.Plan, links["late"]), "it joins at the same corner as before")
		require.Equal(t, []geom.Point{route[2], route[1], route[0]}, wayOf(s.Plan, links["back"]))
	})
	t.Run("a corner that is added lies in the ways of those that pass there", func(t *testing.T) {
		draw(func(r []geom.Point) []geom.Point { return slices.Insert(r, 2, geom.Point{X: 30, Y: 12}) })
		require.Equal(t, route, wayOf(s.Plan, links["long"]))
		require.Equal(t, route[1:], wayOf(s.Plan, links["late"]))
		draw(func(r []geom.Point) []geom.Point { return slices.Insert(r, 1, geom.Point{X: 5, Y: 12}) })
		require.Equal(t, route, wayOf(s.Plan, links["long"]))
		require.Equal(t, route[2:], wayOf(s.Plan, links["late"]), "it joins behind that one")
	})
	t.Run("a corner before the first, or behind the last, is one for all who begin or end there", func(t *testing.T) {
		draw(func(r []geom.Point) []geom.Point { return append(r, geom.Point{X: 60, Y: 3}) })
		require.Equal(t, route[2:], wayOf(s.Plan, links["late"]))
		draw(func(r []geom.Point) []geom.Point { return slices.Insert(r, 0, geom.Point{X: -3, Y: 3}) })
		require.Equal(t, route, wayOf(s.Plan, links["long"]))
		require.Equal(t, route[3:], wayOf(s.Plan, links["late"]))
	})
	t.Run("a corner that goes leaves the ways", func(t *testing.T) {
		for len(route) > 1 {
			draw(func(r []geom.Point) []geom.Point { return r[1:] })
			require.Equal(t, route, wayOf(s.Plan, links["long"]))
		}
		draw(func([]geom.Point) []geom.Point { return nil })
		for _, id := range links {
			require.Empty(t, wayOf(s.Plan, id))
			link, _ := s.Link(id)
			require.Equal(t, "straight", link.Way)
		}
	})
	s.refused(t, "no such loom", func(e *plan.Edit) error { return e.DrawLoom("lm-22222", nil) })
}

func TestALoomEndsWhereItsLongestLinkDoes(t *testing.T) {
	s, loom, links := loomed(t)
	from, to := s.LoomEnds(loom)
	require.Equal(t, []plan.DeviceID{s.a, s.c}, []plan.DeviceID{from, to})
	s.do(t, func(e *plan.Edit) error { return e.Reverse(links["long"]) })
	from, to = s.LoomEnds(loom)
	require.Equal(t, []plan.DeviceID{s.a, s.c}, []plan.DeviceID{from, to}, "in the direction of the route")
}

func TestALoomWithoutARouteOfItsOwnHasTheWayOfItsLongestLink(t *testing.T) {
	s, loom, links := loomed(t)
	route := s.LoomRoute(loom)
	s.do(t, func(e *plan.Edit) error {
		for order := range route {
			plan.Drop[plan.LoomPoint](e, plan.LoomPoint{Loom: loom, Order: order + 1}.Key())
		}
		return nil
	})
	require.Equal(t, route, s.LoomRoute(loom))
	route[2].Y = 30
	s.do(t, func(e *plan.Edit) error { return e.DrawLoom(loom, route) })
	require.Equal(t, route, wayOf(s.Plan, links["long"]))
	require.Equal(t, route[1:], wayOf(s.Plan, links["late"]), "links that lie along it stay there")
	require.Equal(t, 3, s.LoomPoints.Len())
}

func TestARouteMovesWithItsLinksWhenAllOfThemDo(t *testing.T) {
	s, loom, links := loomed(t)
	by := geom.Point{X: 7, Y: -2}
	before := s.LoomRoute(loom)
	s.do(t, func(e *plan.Edit) error {
		e.Move(plan.MovingWith(s.Plan, []plan.DeviceID{s.a, s.c}, nil), by)
		return nil
	})
	require.Equal(t, before, s.LoomRoute(loom), "one of its links only stretches")
	require.Equal(t, before, wayOf(s.Plan, links["long"]), "so the others stretch too, along the route")
	s.do(t, func(e *plan.Edit) error {
		e.Move(plan.MovingWith(s.Plan, []plan.DeviceID{s.a, s.b, s.c}, nil), by)
		return nil
	})
	for i, at := range s.LoomRoute(loom) {
		require.Equal(t, before[i].Add(by), at)
	}
	require.Equal(t, s.LoomRoute(loom), wayOf(s.Plan, links["long"]), "and the links still lie along it")
}

func TestALoomGoesWithItsLastLink(t *testing.T) {
	s, loom, links := loomed(t)
	s.do(t, func(e *plan.Edit) error {
		e.RemoveLinks(links["long"], links["back"])
		e.DissolveEmptiedLooms()
		return nil
	})
	require.True(t, s.Looms.Has(plan.Key(loom)))
	s.do(t, func(e *plan.Edit) error {
		e.RemoveLinks(links["late"])
		e.DissolveEmptiedLooms()
		return nil
	})
	require.Zero(t, s.Looms.Len()+s.LoomPoints.Len())
}

func TestTheLinksOfALoomStayOnItsRouteWhateverIsDoneToIt(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		s, loom, _ := loomed(t)
		coordinate := rapid.Float64Range(-500, 500)
		for range rapid.IntRange(1, 12).Draw(r, "edits") {
			route := s.LoomRoute(loom)
			at := geom.Point{X: coordinate.Draw(r, "x"), Y: coordinate.Draw(r, "y")}.RoundMM()
			index := rapid.IntRange(0, len(route)).Draw(r, "corner")
			switch doing := rapid.IntRange(0, 2).Draw(r, "doing"); {
			case doing == 0 && index < len(route):
				route[index] = at
			case doing == 1 && index < len(route):
				route = slices.Delete(route, index, index+1)
			default:
				route = slices.Insert(route, index, at)
			}
			s.do(t, func(e *plan.Edit) error { return e.DrawLoom(loom, route) })
			for _, link := range s.LoomLinks(loom) {
				way := wayOf(s.Plan, link.ID)
				back := slices.Clone(way)
				slices.Reverse(back)
				lies := len(route) == 0 && len(way) == 0
				for i := 0; i+len(way) <= len(route) && len(way) > 0; i++ {
					part := route[i : i+len(way)]
					lies = lies || slices.Equal(part, way) || slices.Equal(part, back)
				}
				require.True(r, lies, "%s goes %v along %v", link.Name, way, route)
			}
		}
	})
}

func TestCablesAreLaidBetweenOthersAndReplaced(t *testing.T) {
	s := newStage(t)
	s.do(t, func(e *plan.Edit) error {
		e.SetSegments(s.ab, []plan.Segment{{Kind: "cat6", Length: 10}, {Kind: "cat6", Length: 20, Coupler: "cat5e"}})
		return nil
	})
	s.do(t, func(e *plan.Edit) error { return e.InsertSegment(s.ab, 1, plan.Segment{Kind: "cat6", Length: 5}) })
	s.do(t, func(e *plan.Edit) error { return e.InsertSegment(s.ab, 9, plan.Segment{Kind: "cat6", Length: 7}) })
	require.Equal(t, []float64{10, 5, 20, 7}, s.lengths(s.ab))
	require.Equal(t, plan.HardwareID("cat5e"), s.SegmentsOf(s.ab)[2].Coupler, "the others keep the coupler before them")
	s.do(t, func(e *plan.Edit) error { return e.ReplaceSegment(s.ab, 3, plan.Segment{Kind: "cat6", Length: 30}) })
	require.Equal(t, []float64{10, 5, 30, 7}, s.lengths(s.ab))
	require.Equal(t, plan.HardwareID("cat5e"), s.SegmentsOf(s.ab)[2].Coupler, "the coupler before it stays")
	s.refused(t, "no cable 9", func(e *plan.Edit) error { return e.ReplaceSegment(s.ab, 9, plan.Segment{Kind: "cat6", Length: 30}) })
	s.refused(t, "no such link", func(e *plan.Edit) error { return e.InsertSegment("l-zzzzz", 0, plan.Segment{Kind: "cat6", Length: 30}) })
}
