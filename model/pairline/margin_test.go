package pairline_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/pairline"
)

func TestMeanMargin(t *testing.T) {
	t.Run("the closed form agrees with its rounded coefficients", func(t *testing.T) {
		loss := pairline.Loss{A: 2, B: 0.02, C: 0.3}
		want := 12.4450*25/24.0044 - (5.34532*2 + 31.75*0.02 + 0.224575*0.3)
		require.InDelta(t, want, pairline.MeanMargin(loss, 25), 2e-4)
	})
	t.Run("the closed form agrees with a sum over frequency", func(t *testing.T) {
		loss, sum, steps := pairline.Loss{A: 1.1, B: 0.05, C: 0.7}, 0.0, 100_000
		for i := range steps {
			freq := 1 + 61.5*(float64(i)+0.5)/float64(steps)
			sum += pairline.LinkSegmentLimit(freq) - loss.At(freq)
		}
		require.InDelta(t, sum/float64(steps), pairline.MeanMargin(loss, pairline.LinkSegmentLimit(100)), 1e-6)
	})
}

func TestReach(t *testing.T) {
	perMetre, joint := reel("cat5e", 1).PerMetre(), connection("cat6a").Loss()
	t.Run("at its reach a line loses exactly the limit", func(t *testing.T) {
		reach := pairline.Reach(25, joint.Times(2), perMetre)
		line := lineOf(reel("cat5e", reach/2), connection("cat6a"), connection("cat6a"), reel("cat5e", reach/2))
		require.InDelta(t, 25, line.Loss().At(100), 1e-9)
	})
	t.Run("couplers alone over the limit leave no reach", func(t *testing.T) {
		require.Zero(t, pairline.Reach(25, joint.Times(200), perMetre))
	})
	t.Run("cable that loses nothing reaches everywhere", func(t *testing.T) {
		require.True(t, math.IsInf(pairline.Reach(25, pairline.Loss{}, pairline.Loss{}), 1))
	})
	t.Run("a segment of one metre loses its loss of a metre", func(t *testing.T) {
		require.InDelta(t, perMetre.At(50), reel("cat5e", 1).Loss().At(50), 1e-12)
	})
}

func TestWorstPoint(t *testing.T) {
	t.Run("64 points are good to 0.0002 dB", func(t *testing.T) {
		for _, length := range []float64{20, 60, 100, 130} {
			for _, kind := range []string{"cat5e", "cat6", "cat6a", "cat7", "cat8"} {
				loss := reel(cableSlug(kind), length).Loss()
				coarse, _ := pairline.WorstPoint(loss.At, pairline.LinkSegmentLimit, pairline.LogGrid(pairline.AdditivePoints))
				fine, _ := pairline.WorstPoint(loss.At, pairline.LinkSegmentLimit, pairline.LogGrid(20_001))
				require.InDelta(t, fine, coarse, 2e-4, "%s %g m", kind, length)
			}
		}
	})
	t.Run("the grid runs from 1 to 100 MHz in equal ratios", func(t *testing.T) {
		grid := pairline.LogGrid(3)
		require.InDeltaSlice(t, []float64{1, 10, 100}, grid, 1e-9)
		require.InDelta(t, 100, grid[2], 0)
	})
	t.Run("a sampled loss is the loss", func(t *testing.T) {
		loss := reel("cat6", 40).Loss()
		points := pairline.Sample(loss.At, []float64{4, 100})
		require.Equal(t, []pairline.Point{{FreqMHz: 4, DB: loss.At(4)}, {FreqMHz: 100, DB: loss.At(100)}}, points)
	})
}
