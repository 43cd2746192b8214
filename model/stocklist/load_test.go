package stocklist_test

import (
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
