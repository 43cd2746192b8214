package house_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/house"
	"stageloom/model/plan"
)

func TestATagIsReceivedWhateverTheShow(t *testing.T) {
	l, tagged, _ := stocked(t, t.TempDir())
	p := took(t, l, plan.New(""), meadow, one(tagged))
	receipt, err := l.ReceiveTagged(today, " a01", &plan.GivenBack{Length: 43, Condition: plan.Suspect, Reason: "new plug", Case: "Case 2"})
	require.NoError(t, err, "though its plan was never opened")
	require.Equal(t, "Meadow", receipt.Came[0].Show.Name)
	s := stockOf(t, l)
	is := row(t, s.Plan, tagged)
	require.Equal(t, []any{43.0, plan.Suspect, "new plug"}, []any{is.Length, is.Condition, is.Reason})
	require.Len(t, historyOf(s.Plan, tagged), 1)
	require.Equal(t, 2, s.Plan.Cases.Len())
	_, err = l.ReceiveTagged(today, "A01", nil)
	require.ErrorContains(t, err, "A01 is in the house")
	_, err = l.ReceiveTagged(today, "Z99", nil)
	require.ErrorContains(t, err, "no reel of the house has the tag Z99")
	require.NoError(t, l.Restore(receipt), "the wrong one was scanned")
	s = stockOf(t, l)
	require.Equal(t, 100.0, row(t, s.Plan, tagged).Length)
	require.Empty(t, historyOf(s.Plan, tagged))
	require.Equal(t, 1, s.Plan.Cases.Len())
	require.Empty(t, saved(t, l, p, meadow).Refused, "the show has it again")
	require.ErrorContains(t, l.Restore(receipt), "changed", "a receipt is taken back once")
}

func TestAReceiptIsNotTakenBackOverWhatHappenedSince(t *testing.T) {
	l, tagged, _ := stocked(t, t.TempDir())
	p := took(t, l, plan.New(""), meadow, one(tagged))
	receipt, err := l.ReceiveTagged(today, "A01", nil)
	require.NoError(t, err)
	took(t, l, plan.New(""), harbour, one(tagged))
	require.ErrorContains(t, l.Restore(receipt), "2 are out with shows")
	l2, tagged2, _ := stocked(t, t.TempDir())
	p = took(t, l2, plan.New(""), meadow, one(tagged2))
	receipt, err = l2.ReceiveTagged(today, "A01", nil)
	require.NoError(t, err)
	less := show(t, p, func(e *plan.Edit) error {
		return house.GiveBack(e, today, house.Return{Reel: ofHouse(e.Now(), tagged2)[0].ID, Quantity: 1})
	})
	saved(t, l2, less, meadow)
	require.ErrorContains(t, l2.Restore(receipt), "Meadow was saved since")
}

func TestWhatHasNoTagComesFromTheShowThatBeganFirst(t *testing.T) {
	l, tagged, twelve := stocked(t, t.TempDir())
	took(t, l, plan.New(""), from(harbour, "2031-06-12", "2031-06-20"), house.Want{Reel: twelve, Quantity: 4})
	took(t, l, plan.New(""), from(meadow, "2031-06-10", "2031-06-20"), house.Want{Reel: twelve, Quantity: 5})
	took(t, l, plan.New(""), from(house.Show{ID: "later", Name: "Later", Saved: "2031-06-01"}, "2031-07-01", ""), house.Want{Reel: twelve, Quantity: 9})
	_, err := l.ReceiveRow("2031-06-19", twelve, 10, nil)
	require.ErrorContains(t, err, "9 are out, not 10", "what is promised is not out")
	_, err = l.ReceiveRow("2031-06-19", tagged, 1, nil)
	require.ErrorContains(t, err, "A01 is in the house")
	receipt, err := l.ReceiveRow("2031-06-19", twelve, 7, nil)
	require.NoError(t, err)
	require.Len(t, receipt.Came, 2)
	s := stockOf(t, l)
	left := map[string]int{}
	for _, out := range s.OutOn("2031-06-19", twelve) {
		left[out.Show.Name] += out.Quantity
	}
	require.Equal(t, 2, left["Meadow"]+left["Harbour"])
	require.NoError(t, l.Restore(receipt))
	require.Len(t, stockOf(t, l).OutOn("2031-06-19", twelve), 2)
}

// trunk is a library with a trunk piece of two cables and a heap of three.
func trunk(t *testing.T) (l house.Library, pieces []plan.ReelID) {
	l, _, _ = stocked(t, t.TempDir())
	require.NoError(t, l.ChangeStock(func(e *plan.Edit) error {
		pieces = append(pieces, e.AddReel(plan.Reel{Tag: "T1", Kind: "cat6a", Length: 50, TiedInto: "Trunk 1"}),
			e.AddReel(plan.Reel{Tag: "T2", Kind: "cat6a", Length: 50, TiedInto: "trunk 1 "}),
			e.AddReel(plan.Reel{Kind: "cat6a", Length: 50, Quantity: 3, TiedInto: "Trunk 1"}))
		return nil
	}))
	return l, pieces
}

func TestWhatIsTiedIntoOnePieceGoesAndComesWhole(t *testing.T) {
	l, pieces := trunk(t)
	require.ElementsMatch(t, pieces, house.Tied(stockOf(t, l).Plan, pieces[0]))
	p := took(t, l, plan.New(""), meadow, one(pieces[1]))
	require.Equal(t, 3, p.Reels.Len(), "one taken is all taken")
	require.Len(t, stockOf(t, l).With("meadow"), 3)
	receipt, err := l.ReceiveTagged(today, "T1", nil)
	require.NoError(t, err)
	require.Len(t, receipt.Came, 3)
	require.Empty(t, stockOf(t, l).With("meadow"))
	require.NoError(t, l.Restore(receipt))
	require.Len(t, stockOf(t, l).With("meadow"), 3)
	back := show(t, p, func(e *plan.Edit) error {
		return house.GiveBack(e, today, house.Return{Reel: ofHouse(e.Now(), pieces[2])[0].ID, Quantity: 1})
	})
	require.Zero(t, back.Reels.Len())
	require.Equal(t, 5, saved(t, l, back, meadow).Returned)
	require.NoError(t, l.SetState(today, house.StateChange{Reel: pieces[0], Quantity: 1, State: plan.InRepair}))
	require.Len(t, inState(stockOf(t, l).Plan, plan.InRepair), 3)
	_, err = plan.Do(plan.New("Show"), plan.NewIDSource(1, 1), func(e *plan.Edit) error { s := stockOf(t, l); return s.Take(e, one(pieces[1])) })
	require.ErrorContains(t, err, "is tied into")
}

func TestAPieceOfATrunkThatIsFaultyKeepsItWhole(t *testing.T) {
	l, pieces := trunk(t)
	require.NoError(t, l.ChangeStock(func(e *plan.Edit) error {
		return plan.Update(e, plan.Key(pieces[1]), func(r *plan.Reel) { r.Condition, r.Reason = plan.Faulty, "crushed" })
	}))
	s := stockOf(t, l)
	_, err := plan.Do(plan.New("Show"), plan.NewIDSource(1, 1), func(e *plan.Edit) error { return s.Take(e, one(pieces[0])) })
	require.ErrorContains(t, err, "T2, which is tied into trunk 1 and goes with all of it, is faulty")
}
