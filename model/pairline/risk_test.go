package pairline_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/pairline"
)

func TestRisk(t *testing.T) {
	cases := []struct {
		name           string
		margin, spread float64
		want           float64
	}{
		// Tables of the normal distribution.
		{"nothing in hand is an even chance", 0, 0.5, 0.5},
		{"one spread in hand", 0.5, 0.5, 0.15866},
		{"two spreads in hand", 1, 0.5, 0.02275},
		{"three spreads over", -1.5, 0.5, 0.99865},
		{"without spread what is in hand is safe", 0.1, 0, 0},
		{"without spread what is over is over", -0.1, 0, 1},
		{"without spread and margin it is even", 0, 0, 0.5},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			require.InDelta(t, c.want, pairline.Risk(c.margin, c.spread), 5e-6)
		})
	}
	t.Run("far in the tail it keeps its digits", func(t *testing.T) {
		require.InEpsilon(t, 7.619853e-24, pairline.Risk(10, 1), 1e-6)
	})
}

func TestSpread(t *testing.T) {
	tolerance := pairline.DefaultTolerance()
	t.Run("one cable scatters by 3 % of its loss", func(t *testing.T) {
		line := lineOf(reel("cat5e", 50))
		require.InDelta(t, 0.03*line.Loss().At(100), line.SpreadDB(tolerance), 1e-12)
	})
	t.Run("two of a kind are half correlated and their connections add in squares", func(t *testing.T) {
		joint := connection("cat6a")
		line := lineOf(reel("cat5e", 50), joint, joint, reel("cat5e", 50))
		each := reel("cat5e", 50).Loss().At(100)
		want := math.Sqrt(0.0009*(0.5*4*each*each+0.5*2*each*each) + 2*0.0025)
		require.InDelta(t, want, line.SpreadDB(tolerance), 1e-12)
	})
	t.Run("two of different kinds scatter independently", func(t *testing.T) {
		line := lineOf(reel("cat5e", 50), reel("cat6a", 50))
		a, b := reel("cat5e", 50).Loss().At(100), reel("cat6a", 50).Loss().At(100)
		require.InDelta(t, 0.03*math.Hypot(a, b), line.SpreadDB(tolerance), 1e-12)
	})
	t.Run("the order of parts does not matter", func(t *testing.T) {
		joint := connection("cat6a")
		line := lineOf(reel("cat5e", 50), joint, reel("cat6a", 30), joint, reel("cat6", 7))
		require.InDelta(t, line.SpreadDB(tolerance), line.Reversed().SpreadDB(tolerance), 1e-12)
	})
}

func TestRiskOverTemperature(t *testing.T) {
	tolerance := pairline.DefaultTolerance()
	joint := connection("cat6a")
	line := lineOf(reel("cat6a", 60), joint, joint, reel("cat5e", 45))
	t.Run("no range is the risk at that temperature", func(t *testing.T) {
		warm := line.AtTemperature(35)
		want := pairline.Risk(25-warm.Loss().At(100), warm.SpreadDB(tolerance))
		require.InDelta(t, want, line.RiskOver(25, 35, 35, tolerance), 1e-12)
		require.InDelta(t, want, line.RiskOver(25, 35, 35+1e-7, tolerance), 1e-6)
	})
	t.Run("a range agrees with the mean over many temperatures", func(t *testing.T) {
		for _, built := range []bool{true, false} {
			line, sum, steps := lineOf(reel("cat5e", 82)), 0.0, 20_000
			segment := line.Segments()[0]
			segment.Screened = built
			line = lineOf(segment)
			for i := range steps {
				at := line.AtTemperature(5 + 55*(float64(i)+0.5)/float64(steps))
				sum += pairline.Risk(25-at.Loss().At(100), at.SpreadDB(tolerance))
			}
			// The spread grows a little with temperature, which the closed form takes as straight.
			require.InDelta(t, sum/float64(steps), line.RiskOver(25, 5, 60, tolerance), 1e-4)
		}
	})
	t.Run("below 20 °C nothing changes", func(t *testing.T) {
		require.InDelta(t, line.RiskOver(25, -20, 0, tolerance), line.RiskOver(25, 0, 20, tolerance), 1e-12)
	})
	t.Run("the mean over equal margins is the risk itself", func(t *testing.T) {
		require.InDelta(t, pairline.Risk(0.3, 0.4), pairline.RiskBetween(0.3, 0.4, 0.3+1e-6, 0.4), 1e-6)
	})
}
