package stocklist_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/plan"
	"stageloom/model/stocklist"
)

// stored is a stock of a kind of 6 kg and one of unsaid weight per 100 m, as the edit makes it.
func stored(t require.TestingT, edit func(*plan.Edit)) *plan.Plan {
	p, err := plan.Do(plan.New("House"), plan.NewIDSource(1, 2), func(e *plan.Edit) error {
		plan.Put(e, plan.CableKind{ID: "heavy", Name: "Heavy", Media: "balanced-pair", Weight: plan.Some(6)})
		plan.Put(e, plan.CableKind{ID: "unsaid", Name: "Unsaid", Media: "balanced-pair"})
		edit(e)
		return nil
	})
	require.NoError(t, err)
	return p
}

// told is each load in a line.
func told(loads []stocklist.Load) (lines []string) {
	for _, l := range loads {
		lines = append(lines, l.Name()+": "+l.Mass.String())
	}
	return lines
}

// Cases come by name as people count, what lives in none last, and an empty case where it is asked for.
func TestCasesComeByName(t *testing.T) {
	p := stored(t, func(e *plan.Edit) {
		ten := e.AddCase(plan.Case{Name: "Case 10", Weight: plan.Some(12)})
		two := e.AddCase(plan.Case{Name: "Case 2"})
		e.AddCase(plan.Case{Name: "Case 1", Weight: plan.Some(8)})
		e.AddReel(plan.Reel{Kind: "heavy", Length: 10})
		e.AddReel(plan.Reel{Kind: "heavy", Length: 50, Quantity: 2, Case: ten})
		e.AddReel(plan.Reel{Kind: "heavy", Length: 5, Case: two})
		e.AddReel(plan.Reel{Kind: "unsaid", Length: 5, Quantity: 3, Case: two})
	})
	held := stocklist.Held(p)
	filled := []string{"Case 2: at least 0.3\u00a0kg; 3 without a weight", "Case 10: 18.0\u00a0kg", "No case: 0.6\u00a0kg"}
	require.Equal(t, filled, told(stocklist.Loads(p, held, false)))
	require.Equal(t, append([]string{"Case 1: 8.0\u00a0kg"}, filled...), told(stocklist.Loads(p, held, true)))
	require.Equal(t, []string{"Case 1: 8.0\u00a0kg", "Case 2: 0.0\u00a0kg", "Case 10: 12.0\u00a0kg"}, told(stocklist.Loads(p, nil, true)))
}

// A case takes as many pieces and kilograms as it says, and what is more is told by how much.
func TestACaseSaysWhatIsTooMuchForIt(t *testing.T) {
	for _, one := range []struct {
		box         plan.Case
		cables      int
		takes, over string
	}{
		{plan.Case{}, 99, "", ""},
		{plan.Case{Pieces: 3}, 3, "3 pieces", ""},
		{plan.Case{Pieces: 1}, 2, "1 piece", "1 piece too many"},
		{plan.Case{Pieces: 3}, 5, "3 pieces", "2 pieces too many"},
		{plan.Case{Most: plan.Some(6)}, 5, "6\u00a0kg", ""},
		{plan.Case{Most: plan.Some(6.5)}, 6, "6.5\u00a0kg", "0.7\u00a0kg too heavy"},
		{plan.Case{Most: plan.Some(6), Weight: plan.Some(1)}, 5, "6\u00a0kg", "1.0\u00a0kg too heavy"},
		{plan.Case{Most: plan.Some(6), Weight: plan.Some(0.04)}, 5, "6\u00a0kg", ""}, // not as it is printed
		{plan.Case{Pieces: 4, Most: plan.Some(3)}, 5, "4 pieces, 3\u00a0kg", "1 piece too many, 3.0\u00a0kg too heavy"},
	} {
		p := stored(t, func(e *plan.Edit) {
			one.box.Name = "Box"
			e.AddReel(plan.Reel{Kind: "heavy", Length: 20, Quantity: one.cables, Case: e.AddCase(one.box)})
		})
		loads := stocklist.Loads(p, stocklist.Held(p), false)
		require.Len(t, loads, 1)
		require.Equal(t, [2]string{one.takes, one.over}, [2]string{loads[0].Takes(), loads[0].Over()}, "%d cables", one.cables)
	}
}

// What is tied into one piece stands together behind what is by itself, whoever wrote the name of the piece.
func TestATiedPieceStaysWhole(t *testing.T) {
	pieces := []stocklist.Pieces{
		{Reel: plan.Reel{Tag: "S10", Kind: "heavy", Length: 30, TiedInto: "Snake One"}, Count: 1},
		{Reel: plan.Reel{Tag: "L1", Kind: "heavy", Length: 30}, Count: 1},
		{Reel: plan.Reel{Tag: "S9", Kind: "heavy", Length: 30, TiedInto: " snake one"}, Count: 1},
		{Reel: plan.Reel{Tag: "S2", Kind: "unsaid", Length: 30, TiedInto: "SNAKE ONE "}, Count: 1},
		{Reel: plan.Reel{Kind: "heavy", Length: 40}, Count: 2},
	}
	var said [][]string
	lots := stocklist.Lots(stored(t, func(*plan.Edit) {}), pieces)
	for _, lot := range lots {
		said = append(said, append([]string{lot.Whole, lot.Kind, stocklist.Bare(lot.Length)}, lot.Tags...))
	}
	require.Equal(t, [][]string{
		{"", "Heavy", "40"},
		{"", "Heavy", "30", "L1"},
		{"Snake One", "Heavy", "30", "S9", "S10"},
		{"Snake One", "Unsaid", "30", "S2"},
	}, said)
	require.Equal(t, 3, stocklist.InWhole(lots, "Snake One"))
}

// Loads and lots add up to what the rows of the stock say, counted here by themselves.
func TestLoadsAndLotsAddUpToTheRows(t *testing.T) {
	type line struct {
		whole, kind string
		length      float64
	}
	rapid.Check(t, func(t *rapid.T) {
		cables, byCase, byLot := 0, map[string]int{}, map[line]int{}
		p := stored(t, func(e *plan.Edit) {
			boxes := map[string]plan.CaseID{"No case": ""}
			for _, name := range []string{"A", "B"} {
				boxes[name] = e.AddCase(plan.Case{Name: name})
			}
			for range rapid.IntRange(0, 12).Draw(t, "rows") {
				box := rapid.SampledFrom([]string{"No case", "A", "B"}).Draw(t, "case")
				row := plan.Reel{
					Kind: rapid.SampledFrom([]plan.CableKindID{"heavy", "unsaid"}).Draw(t, "kind"), Length: float64(rapid.IntRange(1, 3).Draw(t, "length")),
					Quantity: rapid.IntRange(1, 9).Draw(t, "quantity"), Case: boxes[box], TiedInto: rapid.SampledFrom([]string{"", "loom", "Loom"}).Draw(t, "tied"),
					Lacking: rapid.IntRange(0, 2).Draw(t, "lacking"), State: rapid.SampledFrom([]string{"", "", plan.Missing}).Draw(t, "state"),
				}
				e.AddReel(row)
				if n := row.Quantity - row.Lacking; n > 0 && row.State == "" {
					cables, byCase[box] = cables+n, byCase[box]+n
					byLot[line{strings.ToLower(row.TiedInto), string(row.Kind), row.Length}] += n
				}
			}
		})
		held := stocklist.Held(p)
		loads := stocklist.Loads(p, held, false)
		for _, load := range loads {
			require.Equal(t, byCase[load.Name()], load.Cables, load.Name())
		}
		require.Len(t, loads, len(byCase))
		for _, lot := range stocklist.Lots(p, held) {
			require.Equal(t, byLot[line{strings.ToLower(lot.Whole), strings.ToLower(lot.Kind), lot.Length}], lot.Count, "%+v", lot)
			delete(byLot, line{strings.ToLower(lot.Whole), strings.ToLower(lot.Kind), lot.Length})
		}
		require.Empty(t, byLot)
		sum, _ := stocklist.Total(loads)
		require.Equal(t, [2]int{cables, cables}, [2]int{sum, stocklist.Count(held)})
	})
}
