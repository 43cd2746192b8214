package cabling_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/assess"
	"stageloom/model/budget"
	"stageloom/model/cabling"
	"stageloom/model/checks"
	"stageloom/model/plan"
)

func hired(r *plan.Reel) { r.Owner = "Northquay Hire" }

// cut is the show with other reels in the place of some, so many metres shorter.
func (s *show) cut(t require.TestingT, by map[plan.ReelID]int) *plan.Plan {
	next, err := plan.Do(s.Plan, nil, func(e *plan.Edit) error {
		for id, metres := range by {
			if err := plan.Update(e, plan.Key(id), func(r *plan.Reel) { r.Length, r.Measured = r.Length-float64(metres), plan.Optional{} }); err != nil {
				return err
			}
		}
		return nil
	})
	require.NoError(t, err)
	return next
}

// asGood reports whether every link of a plan stands and is served as well as before, with no more that stops it.
func asGood(before, after *plan.Plan) bool {
	was, is := assess.Of(before), assess.Of(after)
	for link := range before.Links.All() {
		old, _ := was.Budget(link.ID)
		now, _ := is.Budget(link.ID)
		order := budget.Standings()
		if now.Missing > old.Missing+1e-6 || slices.Index(order, now.Standing()) > slices.Index(order, old.Standing()) {
			return false
		}
		if stops(is, link) > stops(was, link) {
			return false
		}
	}
	return true
}

func stops(a *assess.Assessment, link plan.Link) (count int) {
	for _, finding := range a.FindingsAt(plan.LinksTable, link.Key()) {
		if finding.Severity == checks.Stop {
			count++
		}
	}
	return count
}

// All hired reels together may be as much shorter as is said, and any less, and the plan is as good as it was.
func TestShorterHiredReelsServeAsWell(t *testing.T) {
	shorter, kept := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		s := anyShow(t, 3)
		s.do(t, func(e *plan.Edit) error {
			for _, reel := range slices.Collect(e.Now().Reels.All()) {
				if rapid.IntRange(0, 3).Draw(t, "hired") > 0 {
					hired(&reel)
				}
				reel.TiedInto = rapid.SampledFrom([]string{"", "", "", "Trunk"}).Draw(t, "tied")
				plan.Put(e, reel)
			}
			return nil
		})
		by := cabling.Shorter(s.Plan)
		for id, most := range by {
			reel, _ := s.Reels.Get(plan.Key(id))
			require.Less(t, float64(most), reel.Length)
			if most == 0 {
				delete(by, id)
				kept++
				continue
			}
			shorter++
			by[id] = rapid.SampledFrom([]int{most, most, 0, most / 2}).Draw(t, "shorter by")
		}
		require.True(t, asGood(s.Plan, s.cut(t, by)), "%v", by)
	})
	require.NotZero(t, shorter)
	require.NotZero(t, kept)
}

// What is said is the most: each number of metres is tried on the plan itself.
func TestHiredReelsMayBeNoShorterThanServes(t *testing.T) {
	for name, c := range map[string]struct {
		ways   []float64
		reels  []float64
		chains [][]int
		most   int
		with   []func(*plan.Reel)
	}{
		"one on a link":                      {[]float64{42.5}, []float64{60}, [][]int{{0}}, 17, nil},
		"just long enough":                   {[]float64{60}, []float64{60}, [][]int{{0}}, 0, nil},
		"two on a link share":                {[]float64{82.5}, []float64{60, 40}, [][]int{{0, 1}}, 8, nil},
		"the same on two links, the tighter": {[]float64{40, 50.5}, []float64{60}, [][]int{{0}, {0}}, 9, []func(*plan.Reel){many(2)}},
		"tied into one piece, the tighter":   {[]float64{40, 52}, []float64{60, 60}, [][]int{{0}, {1}}, 8, []func(*plan.Reel){tied("Trunk")}},
		"beside more than it is long":        {[]float64{20}, []float64{10, 10}, [][]int{{0, 1, 1, 1}}, 5, []func(*plan.Reel){many(3)}},
		"a metre is left":                    {[]float64{5}, []float64{10, 10}, [][]int{{0, 1}}, 7, nil},
	} {
		t.Run(name, func(t *testing.T) {
			s := newShow(t, c.ways...)
			var ids []plan.ReelID
			for _, length := range c.reels {
				ids = append(ids, s.reel(t, "", "cat6a", length, append(c.with, hired)...))
			}
			for link, chain := range c.chains {
				var segments []plan.Segment
				for _, at := range chain {
					segments = append(segments, plan.Segment{Reel: ids[at]})
				}
				s.lay(t, link, segments...)
			}
			most := 0
			for by := 1; by < 60; by++ {
				all := map[plan.ReelID]int{}
				for i, id := range ids {
					if float64(by) < c.reels[i] {
						all[id] = by
					}
				}
				if len(all) == len(ids) && asGood(s.Plan, s.cut(t, all)) {
					most = by
				}
			}
			require.Equal(t, c.most, most, "by trying")
			for _, id := range ids {
				require.Equal(t, most, cabling.Shorter(s.Plan)[id])
			}
		})
	}
}

// A reel that was measured better than its kind holds a grade that another, even a shorter one, would not.
func TestAHiredReelThatWasMeasuredWellIsNotReplacedByAnyOther(t *testing.T) {
	s := newShow(t, 98)
	good := s.reel(t, "", "cat5e", 100, hired, measured(12))
	s.lay(t, 0, plan.Segment{Reel: good})
	require.False(t, asGood(s.Plan, s.cut(t, map[plan.ReelID]int{good: 2})), "by its kind it stands worse")
	require.Equal(t, map[plan.ReelID]int{good: 0}, cabling.Shorter(s.Plan))
	s.do(t, func(e *plan.Edit) error {
		return plan.Update(e, plan.Key(good), func(r *plan.Reel) { r.Measured = plan.Optional{} })
	})
	require.Equal(t, map[plan.ReelID]int{good: 2}, cabling.Shorter(s.Plan))
}
