package budget_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/budget"
	"stageloom/model/plan"
)

func TestOtherCablesAreReckonedAsIfTheyLay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPlan(t)
		from := p.Links.At(rapid.IntRange(0, p.Links.Len()-1).Draw(t, "whose cables"))
		to := p.Links.At(rapid.IntRange(0, p.Links.Len()-1).Draw(t, "whose place"))
		chain := p.SegmentsOf(from.ID)
		would := budget.NewReckoner(p).Cabled(to, chain)
		laid, err := plan.Do(p, nil, func(e *plan.Edit) error {
			if from.ID != to.ID {
				e.SetSegments(from.ID, nil)
			}
			e.SetSegments(to.ID, chain)
			return nil
		})
		require.NoError(t, err)
		require.Equal(t, budget.Of(laid, to), would)
	})
}
