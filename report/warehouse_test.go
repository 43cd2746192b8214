package report_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/house"
	"stageloom/model/plan"
)

// midsummer is the day that the lists of the tests tell of.
const midsummer = "2027-06-22"

// warehouse is a house with about so many rows of a stock at random, in cases, of which three shows have some: one is overdue,
// one has it, one is promised it.
func warehouse(t testing.TB, seed uint64, rows int) house.Stock {
	t.Helper()
	random := rand.New(rand.NewPCG(seed, 0xCA5E))
	s := house.Stock{Shows: []house.Show{
		{ID: "fair", Name: "Fair", File: "/plans/fair.stageloom", Saved: "2027-06-01", From: "2027-06-10", Until: "2027-06-18"},
		{ID: "gala", Name: "Gala", File: "/plans/gala.stageloom", Saved: "2027-06-01", From: "2027-06-20", Until: "2027-06-24"},
		{ID: "tour", Name: "Tour", File: "/plans/tour.stageloom", Saved: "2027-06-01", From: "2027-06-26", Until: "2027-06-29"},
	}}
	var err error
	s.Plan, err = plan.Do(plan.New("House stock"), plan.NewIDSource(seed, 5), func(e *plan.Edit) error {
		kinds := []plan.CableKindID{"cat", "glass", "snake"}
		for i, id := range kinds {
			kind := plan.CableKind{ID: id, Name: []string{"CatA", "Glass", "Snake"}[i], Media: "balanced-pair"}
			if i < 2 {
				kind.Weight = plan.Some(float64(4 + i))
			}
			plan.Put(e, kind)
		}
		var boxes []plan.CaseID
		for i := range 4 {
			box := plan.Case{Name: "Case" + string(rune('A'+i))}
			if i < 2 {
				box.Pieces, box.Most, box.Weight = 3+i, plan.Some(20), plan.Some(float64(8+i))
			}
			boxes = append(boxes, e.AddCase(box))
		}
		boxes = append(boxes, "")
		for i := range rows {
			reel := plan.Reel{Kind: kinds[random.IntN(3)], Length: []float64{10, 25, 50, 60.96}[random.IntN(4)], Case: boxes[random.IntN(5)], Quantity: random.IntN(6)}
			if random.IntN(3) > 0 {
				reel.Tag, reel.Quantity = fmt.Sprintf("T%03d", i), 0
			}
			if random.IntN(4) == 0 {
				reel.Weight = plan.Some(float64(random.IntN(80)) / 10)
			}
			if random.IntN(8) == 0 {
				reel.TiedInto = []string{"TrunkX", "TrunkY"}[random.IntN(2)]
			}
			if random.IntN(8) == 0 {
				reel.State, reel.StateOn = []string{plan.Missing, plan.InRepair, plan.WrittenOff}[random.IntN(3)], "2027-06-01"
			}
			id := e.AddReel(reel)
			s.Takings = append(s.Takings, takings(random, id, reel)...)
		}
		return nil
	})
	require.NoError(t, err)
	return s
}

// takings are what shows take of a row at random: two that have it share what there is, and the third is promised all of it again.
func takings(random *rand.Rand, id plan.ReelID, reel plan.Reel) (all []house.Taking) {
	left := reel.Count()
	for i, show := range []string{"fair", "gala", "tour"} {
		if show == "tour" {
			left = reel.Count() // the others are to be back by then
		}
		if reel.State != "" || random.IntN(3) > 0 || left == 0 {
			continue
		}
		count := 1 + random.IntN(left)
		left -= count
		all = append(all, house.Taking{ID: fmt.Sprintf("t-%s%d", id, i), Plan: show, Reel: id, Quantity: count, Day: "2027-06-01"})
	}
	return all
}
