package house_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/house"
	"stageloom/model/plan"
)

// TestWhatTheHouseLearnedMeanwhileStands has one piece with two shows one after the other: what the first found out stands
// when the second, whose plan does not know of it, gives the piece back; what the second found out by itself is learned too.
func TestWhatTheHouseLearnedMeanwhileStands(t *testing.T) {
	l, tagged, _ := stocked(t, t.TempDir())
	first, second := from(meadow, "2031-06-10", "2031-06-15"), from(harbour, "2031-06-16", "2031-06-20")
	early, late := took(t, l, plan.New(""), first, one(tagged)), took(t, l, plan.New(""), second, one(tagged))
	back := func(p *plan.Plan, as house.Show, found func(*plan.Reel)) {
		id := called(p, "A01").ID
		saved(t, l, show(t, p, func(e *plan.Edit) error {
			if err := plan.Update(e, plan.Key(id), found); err != nil {
				return err
			}
			return house.GiveBack(e, as.Until, house.Return{Reel: id, Quantity: 1})
		}), as)
	}
	back(early, first, func(r *plan.Reel) {
		r.Length, r.Nominal, r.Condition, r.Reason, r.FoundAt, r.FoundOn = 93, 100, plan.Suspect, "bent pin", "Meadow", "2031-06-15"
	})
	s := stockOf(t, l)
	require.Empty(t, s.FoundOut(late, called(late, "A01")), "the second show found nothing out")
	saved(t, l, late, second) // a save between changes nothing of that
	back(late, second, func(r *plan.Reel) { r.Note = "wet" })
	now := row(t, stockOf(t, l).Plan, tagged)
	require.Equal(t, []any{93.0, 100.0, plan.Suspect, "bent pin", "Meadow", "2031-06-15", "wet"}, []any{now.Length, now.Nominal, now.Condition, now.Reason, now.FoundAt, now.FoundOn, now.Note})
}

// TestWhoLookedAtItSaysThatItIsGood has a piece come back good that the house knows as suspect: who looked at it is believed.
func TestWhoLookedAtItSaysThatItIsGood(t *testing.T) {
	l, tagged, _ := stocked(t, t.TempDir())
	p := took(t, l, plan.New(""), meadow, one(tagged))
	require.NoError(t, l.ChangeStock(func(e *plan.Edit) error {
		return plan.Update(e, plan.Key(tagged), func(r *plan.Reel) { r.Condition, r.Reason = plan.Suspect, "bent pin" })
	}))
	saved(t, l, show(t, p, func(e *plan.Edit) error {
		return house.GiveBackAs(e, "2031-06-15", func(back *plan.GivenBack) {
			back.Condition, back.FoundAt, back.FoundOn = plan.Good, "Meadow", "2031-06-15"
		}, house.Return{Reel: called(p, "A01").ID, Quantity: 1})
	}), meadow)
	now := row(t, stockOf(t, l).Plan, tagged)
	require.NotEqual(t, plan.Suspect, now.Condition)
	require.Empty(t, now.Reason+now.FoundAt+now.FoundOn)
}

// TestAReasonOnAGoodReelStands has a reel that is good, with words about it, go out and come back.
func TestAReasonOnAGoodReelStands(t *testing.T) {
	l, tagged, _ := stocked(t, t.TempDir())
	require.NoError(t, l.ChangeStock(func(e *plan.Edit) error {
		return plan.Update(e, plan.Key(tagged), func(r *plan.Reel) { r.Reason = "new plug, watch it" })
	}))
	p := took(t, l, plan.New(""), meadow, one(tagged))
	saved(t, l, show(t, p, func(e *plan.Edit) error {
		return house.GiveBack(e, "2031-06-15", house.Return{Reel: called(p, "A01").ID, Quantity: 1})
	}), meadow)
	require.Equal(t, "new plug, watch it", row(t, stockOf(t, l).Plan, tagged).Reason)
}
