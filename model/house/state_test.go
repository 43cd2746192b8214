package house_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/house"
	"stageloom/model/plan"
)

// historyOf are the lines of a row's history.
func historyOf(p *plan.Plan, id plan.ReelID) (lines []string) {
	for line := range p.Services.All() {
		if line.Reel == id {
			lines = append(lines, line.Day+" "+line.Work)
		}
	}
	return lines
}

func inState(p *plan.Plan, state string) (rows []plan.Reel) {
	for reel := range p.Reels.All() {
		if reel.State == state {
			rows = append(rows, reel)
		}
	}
	return rows
}

func TestCablesAreSetAsideAndThereAgain(t *testing.T) {
	l, tagged, twelve := stocked(t, t.TempDir())
	require.NoError(t, l.SetState("2031-06-18", house.StateChange{Reel: tagged, Quantity: 1, State: plan.InRepair, Why: "near plug", By: "workshop"},
		house.StateChange{Reel: twelve, Quantity: 3, State: plan.Missing}))
	s := stockOf(t, l)
	require.Equal(t, 9, row(t, s.Plan, twelve).Count(), "three are a row of their own")
	gone := inState(s.Plan, plan.Missing)[0]
	require.Equal(t, []any{3, "2031-06-18"}, []any{gone.Count(), gone.StateOn})
	require.Equal(t, []string{"2031-06-18 in repair: near plug"}, historyOf(s.Plan, tagged))
	require.Zero(t, s.Left(row(t, s.Plan, tagged)))
	require.Zero(t, s.Free(plan.New(""), row(t, s.Plan, tagged)))
	_, err := plan.Do(plan.New("Show"), plan.NewIDSource(1, 1), func(e *plan.Edit) error { return s.Take(e, one(tagged)) })
	require.ErrorContains(t, err, "A01 is in repair since 2031-06-18")
	require.ErrorContains(t, l.SetState(today, house.StateChange{Reel: tagged, Quantity: 1, State: plan.InRepair}), "A01 is in repair since 2031-06-18 already")
	require.ErrorContains(t, l.SetState(today, house.StateChange{Reel: twelve, Quantity: 10, State: plan.Missing}), "there are 9, not 10")
	require.ErrorContains(t, l.SetState(today, house.StateChange{Reel: twelve, Quantity: 1}), "is there already")
	require.ErrorContains(t, l.SetState(today, house.StateChange{Reel: twelve, Quantity: 1, State: "eaten"}), "not eaten")
	require.NoError(t, l.SetState("2031-06-20", house.StateChange{Reel: gone.ID, Quantity: 2}, house.StateChange{Reel: tagged, Quantity: 1}))
	s = stockOf(t, l)
	require.Equal(t, 11, row(t, s.Plan, twelve).Count(), "what is there again is one row with its equals")
	require.Equal(t, 1, inState(s.Plan, plan.Missing)[0].Count())
	require.Contains(t, historyOf(s.Plan, tagged), "2031-06-20 there again, in repair since 2031-06-18")
	require.Empty(t, row(t, s.Plan, tagged).StateOn)
}

func TestWhatIsOutIsNotSetAsideButLost(t *testing.T) {
	l, tagged, twelve := stocked(t, t.TempDir())
	p := took(t, l, plan.New(""), meadow, one(tagged), house.Want{Reel: twelve, Quantity: 5})
	require.ErrorContains(t, l.SetState(today, house.StateChange{Reel: tagged, Quantity: 1, State: plan.Missing}), "A01 is with Meadow")
	require.ErrorContains(t, l.SetState(today, house.StateChange{Reel: twelve, Quantity: 8, State: plan.Missing}), "7 are in the house, not 8")
	err := l.ChangeStock(func(e *plan.Edit) error {
		return plan.Update(e, plan.Key(tagged), func(r *plan.Reel) { r.State = plan.Missing })
	})
	require.ErrorContains(t, err, "A01 would be missing, but Meadow has it")
	var lost []house.Received
	for _, taking := range stockOf(t, l).With("meadow") {
		lost = append(lost, house.Received{Taking: taking.ID, Plan: "meadow", Quantity: min(2, taking.Quantity)})
	}
	receipt, err := l.Lost("2031-06-20", "fell off the truck", lost...)
	require.NoError(t, err)
	require.Len(t, receipt.Came, 2)
	s := stockOf(t, l)
	require.Equal(t, plan.Missing, row(t, s.Plan, tagged).State)
	require.Equal(t, []string{"2031-06-20 missing: fell off the truck, from Meadow"}, historyOf(s.Plan, tagged))
	require.Equal(t, 10, row(t, s.Plan, twelve).Count())
	done := saved(t, l, p, meadow)
	require.Len(t, done.Refused, 2)
	for _, refused := range done.Refused {
		require.Equal(t, "is missing since 2031-06-20", refused.Why)
	}
	less := show(t, p, func(e *plan.Edit) error {
		return house.GiveBack(e, today, house.Return{Reel: ofHouse(e.Now(), tagged)[0].ID, Quantity: 1})
	})
	saved(t, l, less, meadow)
	require.Equal(t, plan.Missing, row(t, stockOf(t, l).Plan, tagged).State, "a plan that gives it up does not find it")
	_, err = l.ReceiveTagged("2031-06-25", "a01", nil)
	require.NoError(t, err, "scanned, it is found again")
	require.Empty(t, row(t, stockOf(t, l).Plan, tagged).State)
	require.Equal(t, 12, row(t, stockOf(t, l).Plan, twelve).Count()+inState(stockOf(t, l).Plan, plan.Missing)[0].Count())
}

func TestWhatIsPromisedAndGoesMissingIsToldToItsPlan(t *testing.T) {
	l, tagged, twelve := stocked(t, t.TempDir())
	p := took(t, l, plan.New(""), from(harbour, "2031-07-01", "2031-07-05"), one(tagged), house.Want{Reel: twelve, Quantity: 12})
	require.NoError(t, l.SetState(today, house.StateChange{Reel: tagged, Quantity: 1, State: plan.WrittenOff}, house.StateChange{Reel: twelve, Quantity: 2, State: plan.Missing}))
	for _, told := range stockOf(t, l).Told(p) {
		switch told.Reel {
		case tagged:
			require.Equal(t, "is written off since "+today, told.Why)
		default:
			require.Equal(t, []int{12, 10}, []int{told.Wanted, told.Had})
		}
	}
	require.Len(t, stockOf(t, l).Told(p), 2)
	require.NoError(t, l.SetState(today, house.StateChange{Reel: tagged, Quantity: 1}))
	require.Len(t, saved(t, l, p, from(harbour, "2031-07-01", "2031-07-05")).Refused, 1, "there again, it goes to the show with its save")
}

func TestAStateThatAShowFoundComesBackWithIt(t *testing.T) {
	l, tagged, twelve := stocked(t, t.TempDir())
	p := took(t, l, plan.New(""), meadow, one(tagged), house.Want{Reel: twelve, Quantity: 5})
	back := show(t, p, func(e *plan.Edit) error {
		long, many := ofHouse(e.Now(), tagged)[0], ofHouse(e.Now(), twelve)[0]
		long.State, long.StateOn = plan.Missing, "2031-06-17"
		many.Length, many.Condition, many.Reason = 43, plan.Suspect, "near plug"
		plan.Put(e, long)
		plan.Put(e, many)
		return house.GiveBack(e, today, house.Return{Reel: long.ID, Quantity: 1}, house.Return{Reel: many.ID, Quantity: 2})
	})
	saved(t, l, back, meadow)
	s := stockOf(t, l)
	require.Equal(t, []string{plan.Missing, "2031-06-17"}, []string{row(t, s.Plan, tagged).State, row(t, s.Plan, tagged).StateOn})
	require.Equal(t, []string{today + " state there → missing, from Meadow"}, historyOf(s.Plan, tagged))
	var lines []string
	for reel := range s.Plan.Reels.All() {
		if reel.Length == 43 {
			lines = historyOf(s.Plan, reel.ID)
		}
	}
	require.Equal(t, []string{today + " length 50 m → 43 m; nominal length 50 m → 43 m; condition good → suspect: near plug, from Meadow"}, lines)
}

func TestAnEditOfAReelIsNotedInItsHistory(t *testing.T) {
	l, tagged, twelve := stocked(t, t.TempDir())
	require.NoError(t, l.ChangeStock(house.Noted("2031-05-02", "workshop", func(e *plan.Edit) error {
		if _, err := e.MarkReel(twelve, plan.Mark{Condition: plan.Faulty, Reason: "crushed"}); err != nil {
			return err
		}
		return plan.Update(e, plan.Key(tagged), func(r *plan.Reel) { r.Length, r.Nominal, r.Note = 97, 100, "seen" })
	})))
	s := stockOf(t, l)
	require.Equal(t, []string{"2031-05-02 length 100 m → 97 m"}, historyOf(s.Plan, tagged))
	require.Equal(t, 2, s.Plan.Services.Len())
	for line := range s.Plan.Services.All() {
		require.Equal(t, "workshop", line.By)
		if line.Reel != tagged {
			require.Equal(t, "condition good → faulty: crushed", line.Work)
		}
	}
	require.NoError(t, l.ChangeStock(house.Noted("2031-05-03", "", func(e *plan.Edit) error {
		return plan.Update(e, plan.Key(tagged), func(r *plan.Reel) { r.Note = "again" })
	})))
	require.Len(t, historyOf(stockOf(t, l).Plan, tagged), 1, "a note is no work")
}
