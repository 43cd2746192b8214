package budget_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/budget"
)

func TestAChanceIsPrintedInWordsAtItsEnds(t *testing.T) {
	for chance, said := range map[float64]string{
		0: "under 0.1 %", 0.004: "0.4 %", 0.0951: "9.5 %", 0.35: "35 %", 0.8949: "89 %", 0.99: "99.0 %", 0.9995: "over 99.9 %", 1: "over 99.9 %",
	} {
		require.Equal(t, said, budget.Chance(chance))
	}
}
