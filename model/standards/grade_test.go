package standards_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/standards"
)

func TestGradeOf(t *testing.T) {
	cases := []struct {
		name           string
		margin, wanted float64
		want           standards.Grade
	}{
		{"twice the wanted margin is ample", 3, 1.5, standards.Ample},
		{"just under twice is enough", 2.99, 1.5, standards.Enough},
		{"the wanted margin is enough", 1.5, 1.5, standards.Enough},
		{"the wanted margin reached by sums of tenths is enough", 0.1 + 0.2, 0.3, standards.Enough},
		{"a sum that rounding left a hair short is enough", 25 - 23.5 - 1e-12, 1.5, standards.Enough},
		{"less is tight", 1.49, 1.5, standards.Tight},
		{"nothing in hand is tight", 0, 1.5, standards.Tight},
		{"less than nothing is over", -0.01, 1.5, standards.Over},
		{"no number is over", math.NaN(), 1.5, standards.Over},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.want, standards.GradeOf(c.margin, c.wanted))
		})
	}
}
