package budget_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

func TestFits(t *testing.T) {
	cases := []struct {
		kind  string
		media standards.Media
		fits  bool
	}{
		{"balanced-pair", standards.BalancedPair, true},
		{"fibre", standards.Fibre, true},
		{"fibre-singlemode", standards.Fibre, true},
		{"fibres", standards.Fibre, false},
		{"fib", standards.Fibre, false},
		{"balanced-audio-pair", standards.BalancedPair, false},
		{"balanced-pair", standards.BalancedAudioPair, false},
		{"coax-50", standards.Coax, true},
		{"", standards.Coax, false},
		{"coax", "", false},
	}
	for _, c := range cases {
		require.Equal(t, c.fits, budget.Fits(plan.CableKind{Media: c.kind}, c.media), "%s on %s", c.kind, c.media)
	}
}
