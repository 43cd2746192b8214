package house_test

import (
	"cmp"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/house"
	"stageloom/model/plan"
)

// tenMetres are the rows of the house that hold its cables of 10 m Cat 6A, that with the most first.
func (h *hall) tenMetres() (rows []plan.Reel) {
	for row := range h.stock.Plan.Reels.All() {
		if row.Tag == "" && row.Kind == "cat6a" && row.Length == 10 {
			rows = append(rows, row)
		}
	}
	slices.SortFunc(rows, func(a, b plan.Reel) int { return cmp.Compare(b.Count(), a.Count()) })
	return rows
}

// give gives some of a row back and saves the show.
func (h *hall) give(t *testing.T, reel plan.ReelID, quantity int) {
	t.Helper()
	h.edit(t, func(e *plan.Edit) error {
		return house.GiveBack(e, today, house.Return{Reel: reel, Quantity: quantity})
	})
	_, err := h.stock.Settle(h.show, house.ShowOf(h.show, "", today), plan.NewIDSource(31, uint64(h.show.GivenBack.Len())))
	require.NoError(t, err)
}

func (h *hall) edit(t *testing.T, edit func(*plan.Edit) error) {
	t.Helper()
	next, err := plan.Do(h.show, plan.NewIDSource(41, uint64(h.show.Services.Len())+100*uint64(h.show.Reels.Len())), edit)
	require.NoError(t, err)
	h.show = next
}

// worksOf is the history of a row as what was done, line by line.
func worksOf(p *plan.Plan, reel plan.ReelID) (works []string) {
	for _, line := range p.History(reel) {
		works = append(works, line.Work)
	}
	return works
}

// What a show wrote of equal cables goes to the house with those that come back first, stays with those that stay, and is in the
// house once when they are back too.
func TestWhatIsWrittenOfARowGoesWithThePartThatComesBack(t *testing.T) {
	h := newHall(t)
	row := called(h.show, "10 m Cat 6A")
	h.edit(t, func(e *plan.Edit) error {
		e.AddService(plan.Service{Reel: row.ID, Day: "2027-06-04", Work: "plugs cleaned", By: "Crew (stage)"})
		return nil
	})
	h.give(t, row.ID, 1)
	require.Len(t, h.tenMetres(), 1, "as the house knows them")
	require.Equal(t, []string{"plugs cleaned"}, worksOf(h.stock.Plan, h.tenMetres()[0].ID))
	require.Equal(t, []string{"plugs cleaned"}, worksOf(h.show, row.ID), "what stays keeps its own")

	var own plan.ReelID
	h.edit(t, func(e *plan.Edit) (err error) {
		own, err = e.MarkReel(row.ID, plan.Mark{Condition: plan.Suspect, Reason: "crackles"})
		e.AddService(plan.Service{Reel: own, Day: "2027-06-05", Work: "swapped", By: "Crew"})
		return err
	})
	require.Equal(t, []string{"plugs cleaned", "swapped"}, worksOf(h.show, own), "one of several has the history of all")
	require.Equal(t, []string{"plugs cleaned"}, worksOf(h.show, row.ID))
	h.give(t, own, 1)
	rows := h.tenMetres()
	require.Len(t, rows, 2)
	require.Equal(t, []string{"", plan.Suspect}, []string{rows[0].Condition, rows[1].Condition})
	require.Equal(t, []int{11, 1}, []int{rows[0].Count(), rows[1].Count()})
	require.Equal(t, []string{"plugs cleaned"}, worksOf(h.stock.Plan, rows[0].ID))
	works := worksOf(h.stock.Plan, rows[1].ID)
	require.Len(t, works, 3)
	require.Subset(t, works, []string{"plugs cleaned", "swapped"})

	h.give(t, row.ID, 2)
	require.Equal(t, []string{"plugs cleaned"}, worksOf(h.stock.Plan, rows[0].ID), "said once")
	for line := range h.show.Services.All() {
		require.True(t, h.show.Reels.Has(plan.Key(line.Reel)), "no line of a reel that went")
	}
}

// Condition and note of a row go with the part that comes back, and the house's others and those that stay have their own.
func TestConditionAndNoteGoWithThePartThatComesBack(t *testing.T) {
	h := newHall(t)
	row := called(h.show, "10 m Cat 6A")
	h.edit(t, func(e *plan.Edit) error {
		return plan.Update(e, row.Key(), func(r *plan.Reel) { r.Condition, r.Reason, r.Note = plan.Suspect, "wet", "dry first" })
	})
	h.give(t, row.ID, 3)
	rows := h.tenMetres()
	require.Len(t, rows, 2)
	require.Equal(t, []int{9, 3}, []int{rows[0].Count(), rows[1].Count()})
	require.Equal(t, [2]string{"", ""}, [2]string{rows[0].Note, rows[0].Condition}, "what is with the show is not told yet")
	require.Equal(t, [3]string{"dry first", plan.Suspect, "wet"}, [3]string{rows[1].Note, rows[1].Condition, rows[1].Reason})
	left, found := h.show.Reels.Get(row.Key())
	require.True(t, found)
	require.Equal(t, 1, left.Count())
	require.Equal(t, [3]string{"dry first", plan.Suspect, "wet"}, [3]string{left.Note, left.Condition, left.Reason})
	require.Empty(t, h.stock.Told(h.show))
}

// What is missing for a while and there again is one row with its equals, with each line of its history once.
func TestWhatIsThereAgainHasItsHistoryOnce(t *testing.T) {
	h := newHall(t)
	ids := plan.NewIDSource(51, 52)
	row := h.tenMetres()[0]
	next, err := plan.Do(h.stock.Plan, ids, func(e *plan.Edit) error {
		e.AddService(plan.Service{Reel: row.ID, Day: "2027-05-01", Work: "bought"})
		return nil
	})
	require.NoError(t, err)
	h.stock.Plan = next
	require.NoError(t, h.stock.SetState("2027-06-02", house.StateChange{Reel: row.ID, Quantity: 2, State: plan.Missing}, ids))
	rows := h.tenMetres()
	require.Len(t, rows, 2)
	require.Equal(t, []string{"bought", "missing"}, worksOf(h.stock.Plan, rows[1].ID))
	require.NoError(t, h.stock.SetState("2027-06-03", house.StateChange{Reel: rows[1].ID, Quantity: 2}, ids))
	require.Len(t, h.tenMetres(), 1)
	require.Equal(t, []string{"bought", "missing", "there again, missing since 2027-06-02"}, worksOf(h.stock.Plan, row.ID))
}
