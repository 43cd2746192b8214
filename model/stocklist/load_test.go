package stocklist_test

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/model/stocklist"
)

// What a cable weighs is said by itself, else by its kind and its length; what neither says is counted.
func TestCablesWeighWhatTheySayOrTheirKindDoes(t *testing.T) {
	p, err := plan.Do(plan.New("House"), plan.NewIDSource(1, 2), func(e *plan.Edit) error {
		plan.Put(e, plan.CableKind{ID: "heavy", Name: "Heavy", Media: "balanced-pair", Weight: plan.Some(6)})
		plan.Put(e, plan.CableKind{ID: "unsaid", Name: "Unsaid", Media: "balanced-pair"})
		return nil
	})
	require.NoError(t, err)
	byKind := stocklist.Pieces{Reel: plan.Reel{Kind: "heavy", Length: 20}, Count: 3}                            // 1.2 kg each
	byItself := stocklist.Pieces{Reel: plan.Reel{Kind: "heavy", Length: 20, Weight: plan.Some(2.25)}, Count: 2} // with its drum
	unsaid := stocklist.Pieces{Reel: plan.Reel{Kind: "unsaid", Length: 20}, Count: 4}
	for said, pieces := range map[string][]stocklist.Pieces{
		"0.0\u00a0kg": nil,
		"3.6\u00a0kg": {byKind},
		"8.1\u00a0kg": {byKind, byItself},
		"at least 8.1\u00a0kg; 4 without a weight": {byKind, byItself, unsaid},
		"weight not known":                         {unsaid},
	} {
		require.Equal(t, said, stocklist.Weigh(p, pieces).String())
	}
}

// A random stock is shared out to cases and lots, and counted a second time straight from its rows.
func TestLoadsAndLotsAddUpToTheRows(t *testing.T) {
	for seed := range uint64(40) {
		random := rand.New(rand.NewPCG(seed, 1))
		p := randomStock(t, random)
		pieces := stocklist.Held(p)
		all, unknown, grams := 0, 0, 0
		inCase, inWhole := map[plan.CaseID]int{}, map[string]int{}
		for reel := range p.Reels.All() {
			count := max(1, reel.Quantity) - reel.Lacking
			if reel.State != "" {
				count = 0
			}
			all += count
			inCase[reel.Case] += count
			inWhole[strings.ToLower(strings.TrimSpace(reel.TiedInto))] += count
			switch {
			case reel.Weight.Set:
				grams += count * int(math.Round(reel.Weight.Value*1000))
			case reel.Kind == "heavy":
				grams += count * int(math.Round(reel.Length*60))
			default:
				unknown += count
			}
		}
		loads := stocklist.Loads(p, pieces, true)
		require.True(t, slices.IsSortedFunc(loads[:3], func(a, b stocklist.Load) int { return cmp.Compare(a.Name(), b.Name()) }))
		for _, load := range loads {
			require.Equal(t, inCase[load.Case.ID], load.Cables)
			require.Equal(t, max(0, load.Cables-load.Case.Pieces) > 0 && load.Case.Pieces > 0, strings.Contains(load.Over(), "too many"), load.Over())
			require.Equal(t, load.Case.Most.Set && load.Mass.Tenths() > load.Case.Most.Value, strings.Contains(load.Over(), "too heavy"), load.Over())
			grams += int(math.Round(load.Case.Weight.Value * 1000))
		}
		cables, mass := stocklist.Total(loads)
		require.Equal(t, []int{all, unknown}, []int{cables, mass.Unknown})
		require.InDelta(t, float64(grams)/1000, mass.KG, 0.05*float64(len(loads)), "each case is rounded to a tenth")
		lots := stocklist.Lots(p, pieces)
		for whole, count := range inWhole {
			sum := 0
			for _, lot := range lots {
				if strings.EqualFold(lot.Whole, whole) {
					sum += lot.Count
				}
			}
			require.Equal(t, count, sum, whole)
		}
	}
}

// randomStock has three cases, cables with and without a weight, some set aside, some lacking, some tied into one piece.
func randomStock(t *testing.T, random *rand.Rand) *plan.Plan {
	p, err := plan.Do(plan.New("House"), plan.NewIDSource(1, 2), func(e *plan.Edit) error {
		plan.Put(e, plan.CableKind{ID: "heavy", Name: "Heavy", Media: "balanced-pair", Weight: plan.Some(6)})
		plan.Put(e, plan.CableKind{ID: "unsaid", Name: "Unsaid", Media: "balanced-pair"})
		cases := []plan.CaseID{""}
		for _, name := range []string{"Box 3", "Box 1", "Box 2"} {
			cases = append(cases, e.AddCase(plan.Case{Name: name, Pieces: random.IntN(20), Most: plan.Some(float64(random.IntN(40))), Weight: plan.Some(7.5)}))
		}
		for range 1 + random.IntN(30) {
			reel := plan.Reel{Kind: []plan.CableKindID{"heavy", "unsaid"}[random.IntN(2)], Length: float64(1+random.IntN(100)) / 2, Case: cases[random.IntN(4)], Quantity: 1 + random.IntN(9)}
			switch random.IntN(5) {
			case 0:
				reel.Weight = plan.Some(float64(random.IntN(90)) / 10)
			case 1:
				reel.State = plan.Missing
			case 2:
				reel.Lacking, reel.LackingWhy = random.IntN(reel.Quantity+1), "is out"
			case 3:
				reel.TiedInto = []string{"Snake one", "snake ONE ", "Trunk"}[random.IntN(3)]
			}
			e.AddReel(reel)
		}
		return nil
	})
	require.NoError(t, err)
	return p
}
