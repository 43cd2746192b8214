package standards_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/pairline"
	"stageloom/model/standards"
)

func celsius(c float64) *float64 { return &c }

func reckon(t *testing.T, q standards.Question) standards.Reckoning {
	t.Helper()
	r, err := standards.Reckon(q)
	require.NoError(t, err)
	return r
}

// joined is a chain whose coupler counts as Cat 6A on both sides, as crews' figures do.
func joined(t *testing.T, text string, temperatureC float64, joint pairline.Interface) pairline.Line {
	t.Helper()
	chain, err := standards.ParseChain(text)
	require.NoError(t, err)
	var line pairline.Line
	for i, piece := range chain.Cables {
		if i > 0 {
			line.Parts = append(line.Parts, joint, joint)
		}
		line.Parts = append(line.Parts, piece.Segment(piece.Length, temperatureC))
	}
	require.NoError(t, line.Validate())
	return line
}

// What crews find on AES50. Common practice, no source.
func TestFieldObservations(t *testing.T) {
	cases := []struct {
		name, chain string
		want        float64 // dB at 100 MHz, coupler as Cat 6A hardware
		reckoned    float64 // dB of margin in the reckoner: arithmetic of its rules, default coupler
		clean       bool
	}{
		{"one reel of 50 m stranded 5e runs clean", "cat5e 50", 13.2, +11.8, true},
		{"two of them give constant errors", "cat5e 50 + cat5e 50", 26.8, -2.2, false},
		{"one reel of 60 m low-loss 6A runs clean", "cat6a-own:18.5 60", 11.1, +13.9, true},
		{"two of them run clean", "cat6a-own:18.5 60 + cat6a-own:18.5 60", 22.6, +2.4, true},
		{"one of each runs clean and is tight", "cat6a-own:18.5 60 + cat5e 50", 24.7, +0.1, true},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			loss := joined(t, c.chain, 20, hardware(t, "cat6a").Figures).Loss().At(100)
			require.InDelta(t, c.want, loss, 0.05)
			require.Equal(t, c.clean, loss <= 25)
			got := reckon(t, standards.Question{Chain: c.chain, TemperatureC: celsius(20)})
			require.InDelta(t, c.reckoned, got.MarginDB, 0.05)
			require.Equal(t, c.clean, got.Grade != standards.Over)
		})
	}
	mixed := "cat6a-own:18.5 60 + cat5e 50"
	t.Run("the mixed run has 0.3 dB in hand", func(t *testing.T) {
		require.InDelta(t, 0.3, 25-joined(t, mixed, 20, hardware(t, "cat6a").Figures).Loss().At(100), 0.05)
		require.Equal(t, standards.Tight, reckon(t, standards.Question{Chain: mixed, TemperatureC: celsius(20)}).Grade)
	})
	t.Run("with a Cat 5e coupler the mixed run is over by a hair", func(t *testing.T) {
		over := 25 - joined(t, mixed, 20, hardware(t, "cat5e").Figures).Loss().At(100)
		require.Negative(t, over)
		require.Greater(t, over, -0.2)
		got := reckon(t, standards.Question{Chain: mixed, TemperatureC: celsius(20), Coupler: "cat5e"})
		require.Equal(t, standards.Over, got.Grade)
	})
	t.Run("at 30 °C the mixed run is over", func(t *testing.T) {
		require.Equal(t, standards.Over, reckon(t, standards.Question{Chain: mixed, TemperatureC: celsius(30)}).Grade)
		require.Greater(t, joined(t, mixed, 30, hardware(t, "cat6a").Figures).Loss().At(100), 25.0)
	})
	t.Run("low-loss cable reaches 20 to 30 % and more beyond 100 m, as two reels 133 m", func(t *testing.T) {
		got := reckon(t, standards.Question{Chain: "cat6a-own:18.5 60 + cat6a-own:18.5 60", TemperatureC: celsius(20)})
		require.Len(t, got.Reaches, 1)
		require.InDelta(t, 133, got.Reaches[0].Length, 0.5)
		require.Equal(t, 1, got.Reaches[0].Couplers)
	})
}
