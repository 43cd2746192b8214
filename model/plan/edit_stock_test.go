package plan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
)

func stocked(t *testing.T) (*plan.Plan, plan.ReelID, plan.CaseID) {
	t.Helper()
	var reel plan.ReelID
	var box plan.CaseID
	p, err := plan.Do(plan.New("x"), plan.NewIDSource(1, 2), func(e *plan.Edit) error {
		plan.Put(e, plan.CableKind{ID: "cat6a", Name: "Cat 6A", Media: "balanced-pair", Category: "cat6a"})
		box = e.AddCase(plan.Case{Name: "Case 1"})
		reel = e.AddReel(plan.Reel{Kind: "cat6a", Length: 50, Quantity: 12, Case: box})
		return nil
	})
	require.NoError(t, err)
	return p, reel, box
}

func TestSomeOfAQuantityBecomeARowOfTheirOwn(t *testing.T) {
	p, reel, _ := stocked(t)
	var part plan.ReelID
	split := func(quantity int) (*plan.Plan, error) {
		return plan.Do(p, plan.NewIDSource(3, 4), func(e *plan.Edit) (err error) {
			part, err = e.SplitReel(reel, quantity)
			return err
		})
	}
	next, err := split(2)
	require.NoError(t, err)
	rest, _ := next.Reels.Get(plan.Key(reel))
	taken, _ := next.Reels.Get(plan.Key(part))
	require.Equal(t, 10, rest.Quantity)
	require.Equal(t, 2, taken.Quantity)
	taken.ID, taken.Quantity = rest.ID, rest.Quantity
	require.Equal(t, rest, taken, "what they are stays the same")
	next, err = split(12)
	require.NoError(t, err)
	require.Equal(t, reel, part, "all of them are the row as it was")
	require.True(t, plan.Equal(p, next))
	for _, quantity := range []int{0, -1, 13} {
		_, err = split(quantity)
		require.ErrorIs(t, err, plan.ErrRefused)
	}
}

func TestBothPartsOfARowKeepItsHistory(t *testing.T) {
	p, reel, _ := stocked(t)
	next, err := plan.Do(p, plan.NewIDSource(3, 4), func(e *plan.Edit) error {
		e.AddService(plan.Service{Reel: reel, Day: "2031-05-02", Work: "plugs cleaned", By: "workshop"})
		part, err := e.SplitReel(reel, 2)
		for _, id := range []plan.ReelID{reel, part} {
			require.Len(t, e.Now().History(id), 1)
			require.Equal(t, "2031-05-02 plugs cleaned (workshop)", e.Now().History(id)[0].Line())
		}
		return err
	})
	require.NoError(t, err)
	require.Equal(t, 2, next.Services.Len())
}

func TestWhatLinksHoldIsNotSplitOff(t *testing.T) {
	s := newStage(t)
	s.do(t, func(e *plan.Edit) error {
		return plan.Update(e, "r-22222", func(r *plan.Reel) { r.Quantity = 3 })
	})
	s.do(t, func(e *plan.Edit) error {
		e.SetSegments(s.ab, []plan.Segment{{Reel: "r-22222"}})
		e.SetSegments(s.bc, []plan.Segment{{Reel: "r-22222"}})
		return nil
	})
	require.Equal(t, map[plan.ReelID]int{"r-22222": 2}, s.UsedReels())
	_, err := plan.Do(s.Plan, plan.NewIDSource(5, 6), func(e *plan.Edit) error { _, err := e.SplitReel("r-22222", 2); return err })
	require.ErrorContains(t, err, "2 of them lie in links and 1 are free")
	_, err = plan.Do(s.Plan, plan.NewIDSource(5, 6), func(e *plan.Edit) error { _, err := e.SplitReel("r-22222", 1); return err })
	require.NoError(t, err)
}

func TestACaseThatGoesLeavesItsReels(t *testing.T) {
	p, reel, box := stocked(t)
	next, err := plan.Do(p, nil, func(e *plan.Edit) error { e.RemoveCase(box); return nil })
	require.NoError(t, err)
	require.Zero(t, next.Cases.Len())
	row, _ := next.Reels.Get(plan.Key(reel))
	require.Empty(t, row.Case)
}
