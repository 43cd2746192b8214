package stocklist_test

import (
	"math"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/plan"
	"stageloom/model/stocklist"
)

// stock is a plan with three cases, two kinds and these rows.
func stock(t require.TestingT, rows ...plan.Reel) *plan.Plan {
	p, err := plan.Do(plan.New("Stock"), plan.NewIDSource(1, 2), func(e *plan.Edit) error {
		plan.Put(e, plan.CableKind{ID: "heavy", Name: "Heavy", Media: "balanced-pair", Weight: plan.Some(6)})
		plan.Put(e, plan.CableKind{ID: "bare", Name: "Bare", Media: "balanced-pair"})
		plan.Put(e, plan.Case{ID: "c-33333", Name: "Case 10", Pieces: 4, Most: plan.Some(20), Weight: plan.Some(5)})
		plan.Put(e, plan.Case{ID: "c-22222", Name: "Case 2", Weight: plan.Some(3.04)})
		plan.Put(e, plan.Case{ID: "c-44444", Name: "attic"})
		for _, row := range rows {
			e.AddReel(row)
		}
		return nil
	})
	require.NoError(t, err)
	return p
}

// rowCount is what a test counts by the plan's rows alone.
type rowCount struct {
	cables, unknown, tenths int
}

// byRows counts a plan's cables by case without the lists: rows, what is there of them, and grams from the kinds.
func byRows(p *plan.Plan) (cases map[plan.CaseID]*rowCount, all, hired int) {
	cases = map[plan.CaseID]*rowCount{}
	grams := map[plan.CaseID]float64{}
	for i := range p.Reels.Len() {
		row := p.Reels.At(i)
		n := max(row.Quantity, 1) - row.Lacking
		if row.State != "" || n <= 0 {
			continue
		}
		c := cases[row.Case]
		if c == nil {
			c = &rowCount{}
			cases[row.Case] = c
		}
		c.cables += n
		all += n
		if row.Owner != "" && row.Owner != "us" && row.Owner != "house" {
			hired += n
		}
		switch {
		case row.Weight.Set:
			grams[row.Case] += 1000 * row.Weight.Value * float64(n)
		case row.Kind == "heavy":
			grams[row.Case] += 60 * row.Length * float64(n)
		default:
			c.unknown += n
		}
	}
	for id, c := range cases {
		box, _ := p.Cases.Get(plan.Key(id))
		c.tenths = int(math.Round((grams[id] + 1000*box.Weight.Value) / 100))
	}
	return cases, all, hired
}

// All lists say the same as the plan's rows: cases and their sum as printed, lots, and what goes to a lender or to the house.
func TestListsAddUpToTheRowsOfThePlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var rows []plan.Reel
		for range rapid.IntRange(0, 12).Draw(t, "rows") {
			row := plan.Reel{
				Kind: rapid.SampledFrom([]plan.CableKindID{"heavy", "bare"}).Draw(t, "kind"), Length: rapid.SampledFrom([]float64{5, 12.5, 50}).Draw(t, "length"),
				Quantity: rapid.IntRange(0, 5).Draw(t, "quantity"), Case: rapid.SampledFrom([]plan.CaseID{"", "c-22222", "c-33333", "c-44444"}).Draw(t, "case"),
				TiedInto: rapid.SampledFrom([]string{"", "", "Snake", "snake ", "Loom"}).Draw(t, "tied"), Owner: rapid.SampledFrom([]string{"", "us", "Lender", "Other"}).Draw(t, "owner"),
				State: rapid.SampledFrom([]string{"", "", "", plan.Missing, plan.InRepair}).Draw(t, "state"),
			}
			row.Lacking = rapid.IntRange(0, row.Count()).Draw(t, "lacking")
			if rapid.Bool().Draw(t, "weighed") {
				row.Weight = plan.Some(float64(rapid.IntRange(1, 400).Draw(t, "grams")) / 16)
			}
			rows = append(rows, row)
		}
		p := stock(t, rows...)
		cases, all, hired := byRows(p)
		held := stocklist.Held(p)
		require.Equal(t, all, stocklist.Count(held))
		loads := stocklist.Loads(p, held, false)
		require.Len(t, loads, len(cases))
		sumTenths, sumUnknown := 0, 0
		for _, load := range loads {
			c := cases[load.Case.ID]
			require.Equal(t, [2]int{c.cables, c.unknown}, [2]int{load.Cables, load.Mass.Unknown}, load.Name())
			require.InDelta(t, float64(c.tenths)/10, load.Mass.KG, 0.1001, "a half of a tenth may go either way")
			if figure := load.Mass.Figure(); figure != "–" {
				printed, err := strconv.ParseFloat(figure, 64)
				require.NoError(t, err)
				sumTenths += int(math.Round(printed * 10))
			}
			sumUnknown += load.Mass.Unknown
		}
		cables, mass := stocklist.Total(loads)
		require.Equal(t, [3]int{all, sumUnknown, sumTenths}, [3]int{cables, mass.Unknown, int(math.Round(mass.KG * 10))}, "the sum of the printed figures")
		inLots, theirs := 0, []stocklist.Pieces{}
		for _, lot := range stocklist.Lots(p, held) {
			inLots += lot.Count
		}
		require.Equal(t, all, inLots)
		for _, one := range held {
			if _, lent := one.Reel.Lender(); lent {
				theirs = append(theirs, one)
			}
		}
		require.Equal(t, hired, stocklist.Count(theirs))
		require.Equal(t, all-hired, stocklist.Count(slices.DeleteFunc(held, func(one stocklist.Pieces) bool { _, lent := one.Reel.Lender(); return lent })))
	})
}
