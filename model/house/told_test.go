package house_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/house"
	"stageloom/model/plan"
)

func TestATagStandsOnceInTheHouse(t *testing.T) {
	l, tagged, _ := stocked(t, t.TempDir())
	err := l.ChangeStock(func(e *plan.Edit) error { e.AddReel(plan.Reel{Tag: " a01", Kind: "cat6a", Length: 20}); return nil })
	require.ErrorIs(t, err, plan.ErrRefused)
	require.ErrorContains(t, err, "is on another reel already: 100 m of Cat 6A in Case 1")
	var second plan.ReelID
	require.NoError(t, l.ChangeStock(func(e *plan.Edit) error {
		second = e.AddReel(plan.Reel{Tag: "A02", Kind: "cat6a", Length: 20})
		return nil
	}))
	retag := func(id plan.ReelID, tag string) error {
		return l.ChangeStock(func(e *plan.Edit) error { return plan.Update(e, plan.Key(id), func(r *plan.Reel) { r.Tag = tag }) })
	}
	require.ErrorContains(t, retag(tagged, "a02"), "the tag a02 is on another reel already: 20 m of Cat 6A")
	require.NoError(t, retag(tagged, "A03"))
	require.NoError(t, retag(second, "A01"))
}

func TestWhatTheHouseChangesOfWhatIsOutIsToldAndTakenOver(t *testing.T) {
	l, tagged, twelve := stocked(t, t.TempDir())
	p := took(t, l, plan.New(""), meadow, one(tagged), house.Want{Reel: twelve, Quantity: 5})
	here := ofHouse(p, tagged)[0].ID
	p = show(t, p, func(e *plan.Edit) error {
		return plan.Update(e, plan.Key(ofHouse(e.Now(), twelve)[0].ID), func(r *plan.Reel) { r.Note = "found by the show" })
	})
	require.Empty(t, stockOf(t, l).Changed(p), "what the show found is its own")
	require.NoError(t, l.ChangeStock(func(e *plan.Edit) error {
		return plan.Update(e, plan.Key(tagged), func(r *plan.Reel) { r.Length, r.Nominal, r.Condition, r.Tag = 43, 100, plan.Suspect, "A77" })
	}))
	s := stockOf(t, l)
	require.Equal(t, []house.Change{{Reel: here, House: tagged, Differences: []house.Difference{
		{Field: "Length", Was: "100 m", Is: "43 m"}, {Field: "Condition", Was: "good", Is: "suspect"}, {Field: "Tag", Was: "A01", Is: "A77"},
	}}}, s.Changed(p))
	saved(t, l, p, meadow)
	require.Len(t, stockOf(t, l).Changed(p), 1, "a save does not forget it")
	p = show(t, p, func(e *plan.Edit) error { return s.Refresh(e, here) })
	require.Equal(t, []any{43.0, plan.Suspect, "A77"}, []any{row(t, p, here).Length, row(t, p, here).Condition, row(t, p, here).Tag})
	require.Empty(t, s.Changed(p))
	_, err := plan.Do(p, plan.NewIDSource(1, 1), func(e *plan.Edit) error { return s.Refresh(e, ofHouse(e.Now(), twelve)[0].ID) })
	require.ErrorContains(t, err, "the house has changed nothing of that reel")
}

func TestWhatCameBackShortenedIsToldToWhomItIsPromised(t *testing.T) {
	l, tagged, _ := stocked(t, t.TempDir())
	took(t, l, plan.New(""), from(meadow, "2031-06-10", "2031-06-15"), one(tagged))
	next := took(t, l, plan.New(""), from(harbour, "2031-06-20", "2031-06-25"), one(tagged))
	_, err := l.ReceiveTagged("2031-06-15", "A01", &plan.GivenBack{Length: 43, Nominal: 100, Case: "Case 1"})
	require.NoError(t, err)
	changed := stockOf(t, l).Changed(next)
	require.Len(t, changed, 1)
	require.Equal(t, house.Difference{Field: "Length", Was: "100 m", Is: "43 m"}, changed[0].Differences[0])
}
