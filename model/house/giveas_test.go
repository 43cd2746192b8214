package house_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/house"
	"stageloom/model/plan"
)

func TestWhatAShowFoundOutIsSaidTakenOrLeft(t *testing.T) {
	h := newHall(t)
	ids := plan.NewIDSource(5, 6)
	changed, err := plan.Do(h.show, ids, func(e *plan.Edit) error {
		return plan.Update(e, plan.Key(called(e.Now(), "R106").ID), func(r *plan.Reel) { r.Length, r.Condition = 43, plan.Suspect })
	})
	require.NoError(t, err)
	found := h.stock.FoundOut(changed, called(changed, "R106"))
	require.Contains(t, found, house.Difference{Field: "Length", Was: "50 m", Is: "43 m"})
	require.Empty(t, h.stock.FoundOut(h.show, called(h.show, "R106")))
	require.Empty(t, h.stock.FoundOut(h.show, called(h.show, "OWN")), "it is not the house's")
	lacking := called(changed, "R106")
	lacking.Lacking = 1
	require.Empty(t, h.stock.FoundOut(changed, lacking), "the show does not have it")

	give := func(as func(*plan.GivenBack)) (backs []plan.GivenBack) {
		next, err := plan.Do(changed, ids, func(e *plan.Edit) error {
			return house.GiveBackAs(e, today, as, house.Return{Reel: called(e.Now(), "R106").ID, Quantity: 1})
		})
		require.NoError(t, err)
		for back := range next.GivenBack.All() {
			backs = append(backs, back)
		}
		require.Len(t, backs, 1)
		return backs
	}
	require.InDelta(t, 43, give(func(*plan.GivenBack) {})[0].Length, 0)
	kept := give(h.stock.AsTheHouseKnows)[0]
	require.InDelta(t, 50, kept.Length, 0)
	require.Empty(t, kept.Condition)
	require.Equal(t, "R106", kept.Tag)
	require.Equal(t, today, kept.Day)

	over, err := plan.Do(changed, ids, func(e *plan.Edit) error {
		return h.stock.TakeOver(e, called(e.Now(), "R106").ID, called(e.Now(), "OWN").ID)
	})
	require.NoError(t, err)
	require.Empty(t, h.stock.FoundOut(over, called(over, "R106")))
	require.Equal(t, called(changed, "R106").Taking, called(over, "R106").Taking)

	again, err := plan.Do(changed, ids, func(e *plan.Edit) error { return house.AskAgain(e, called(e.Now(), "R106").ID) })
	require.NoError(t, err)
	require.NotEqual(t, called(changed, "R106").Taking, called(again, "R106").Taking)
}

func TestSomeOfWhatIsLaidGoesBack(t *testing.T) {
	h := newHall(t)
	some := called(h.show, "10 m Cat 6A")
	next, err := plan.Do(h.show, plan.NewIDSource(5, 6), func(e *plan.Edit) error {
		e.SetSegments(h.link, []plan.Segment{{Reel: some.ID}, {Reel: some.ID}, {Reel: some.ID}})
		return house.GiveBackAs(e, today, func(*plan.GivenBack) {}, house.Return{Reel: some.ID, Quantity: 2})
	})
	require.NoError(t, err)
	left, _ := next.Reels.Get(some.Key())
	require.Equal(t, 2, left.Count())
	require.Equal(t, 2, next.UsedReels()[some.ID])
	require.Len(t, next.SegmentsOf(h.link), 3, "the link keeps kind and length")
	require.Equal(t, 1, next.GivenBack.Len())
}

func TestAStepOfTheHouseIsTakenBackWhereNothingElseChangedIt(t *testing.T) {
	library := house.Open(t.TempDir())
	require.Empty(t, library.Stamp())
	add := func(tag string) func(house.Library) error {
		return func(library house.Library) error {
			return library.ChangeStock(func(e *plan.Edit) error {
				plan.Put(e, cat6a)
				e.AddReel(plan.Reel{Tag: tag, Kind: "cat6a", Length: 50})
				return nil
			})
		}
	}
	count := func() int {
		stock, err := library.Stock()
		require.NoError(t, err)
		return stock.Plan.Reels.Len()
	}
	first, err := library.Stepped(add("R1"))
	require.NoError(t, err)
	stamp := library.Stamp()
	require.NotEmpty(t, stamp)
	second, err := library.Stepped(add("R2"))
	require.NoError(t, err)
	require.NotEqual(t, stamp, library.Stamp())
	require.ErrorIs(t, library.TakeBack(first), plan.ErrRefused, "the second stands on it")
	require.Equal(t, 2, count())
	require.NoError(t, library.TakeBack(second))
	require.Equal(t, 1, count())
	require.NoError(t, library.TakeBack(first))
	require.Zero(t, count())
	_, err = house.Open("").Stepped(add("R3"))
	require.Error(t, err)
	require.NoError(t, library.TakeBack(house.Step{}))
	require.Empty(t, house.Open("").Stamp())
}
