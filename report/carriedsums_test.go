package report_test

import (
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/report"
)

// Hire order and return list add up to the rows of the stock, each counted here as what it was made as.
func TestHireOrderAndReturnListAddUpToTheRows(t *testing.T) {
	rows := []struct {
		reel  plan.Reel
		hired bool
	}{
		{plan.Reel{Tag: "A", Owner: "Lender", Hire: "R-9", Return: "2027-07-01"}, true},
		{plan.Reel{Quantity: 7, Owner: "Lender", Hire: "R-9", Return: "2027-07-01"}, true},
		{plan.Reel{Quantity: 4, Owner: "Lender", Hire: "R-10", Lacking: 1}, true},
		{plan.Reel{Quantity: 5, Owner: "Neighbour", TiedInto: "Loom"}, true},
		{plan.Reel{Quantity: 2, Hire: "R-11"}, true},
		{plan.Reel{Tag: "B", Return: "2027-07-02"}, true},
		{plan.Reel{Tag: "C", Owner: "Lender", State: plan.Missing}, true},
		{plan.Reel{Quantity: 6, Owner: "us", Hire: "R-12"}, false},
		{plan.Reel{Quantity: 3, Taking: "T-1", Owner: "Lender"}, false},
		{plan.Reel{Quantity: 8, Lacking: 8, LackingWhy: "Gala has them"}, false},
		{plan.Reel{Quantity: 9, TiedInto: "Loom"}, false},
	}
	hired, held := 0, 0
	p, err := plan.Do(field(t), plan.NewIDSource(3, 3), func(e *plan.Edit) error {
		for reel := range e.Now().Reels.All() {
			if err := e.RemoveReel(reel.ID); err != nil {
				return err
			}
		}
		box := e.AddCase(plan.Case{Name: "Box 1"})
		for i, row := range rows {
			row.reel.Kind, row.reel.Length = "cat6a", float64(10+i%2)
			if i%3 == 0 {
				row.reel.Case = box
			}
			e.AddReel(row.reel)
			n := max(1, row.reel.Quantity) - row.reel.Lacking
			if row.reel.State != "" {
				continue
			}
			held += n
			if row.hired {
				hired += n
			}
		}
		return nil
	})
	require.NoError(t, err)
	require.Equal(t, [2]int{19, 37}, [2]int{hired, held})

	require.Equal(t, hired, printed(t, `To be hired (\d+)`, chaptersText(t, p, report.HireOrder)))
	back := chaptersText(t, p, report.ReturnList)
	require.Equal(t, held, printed(t, `To be given back (\d+)`, back))
	require.Equal(t, held, printed(t, `To be given back in all: (\d+) cables`, back))
	require.Equal(t, hired, printed(t, `in all: \d+ cables, (\d+) of them hired`, back))
}

// printed is the sum of the figures that a pattern finds.
func printed(t *testing.T, pattern, text string) (sum int) {
	t.Helper()
	for _, found := range regexp.MustCompile(pattern).FindAllStringSubmatch(text, -1) {
		n, err := strconv.Atoi(found[1])
		require.NoError(t, err)
		sum += n
	}
	return sum
}
