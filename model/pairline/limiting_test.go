package pairline_test

import (
	"math"
	"math/cmplx"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/pairline"
	"stageloom/model/standards"
)

// cable gives the figures of a category that exists.
func cable(slug standards.CableSlug) standards.Cable {
	found, err := standards.CableBySlug(slug)
	if err != nil {
		panic(err)
	}
	return found
}

func connection(slug standards.HardwareSlug) pairline.Interface {
	found, err := standards.HardwareBySlug(slug)
	if err != nil {
		panic(err)
	}
	return found.Figures
}

// reel is a stranded reel at 20 °C.
func reel(slug standards.CableSlug, length float64) pairline.Segment {
	return standards.Reel(cable(slug)).Segment(length, 20)
}

// transparent is a connection that neither loses nor reflects nor leaks.
var transparent = pairline.Interface{
	Name: "nothing", ReturnLossDB: math.Inf(1), NEXTDB: math.Inf(1), PowerSumNEXTDB: math.Inf(1), FEXTDB: math.Inf(1),
}

// cableSlug reads a case table.
func cableSlug(text string) standards.CableSlug { return standards.CableSlug(text) }

func lineOf(parts ...pairline.Part) pairline.Line { return pairline.Line{Parts: parts} }

// mixed has unlike ends.
func mixed() pairline.Line {
	return lineOf(reel("cat6a", 60), connection("cat6a"), connection("cat5e"), reel("cat5e", 20))
}

func TestJoinsAndEnds(t *testing.T) {
	whole := lineOf(reel("cat5e", 50))
	cut := lineOf(reel("cat5e", 20), transparent, reel("cat5e", 30))
	mixed := mixed()

	t.Run("a join that is nothing leaves an uncut cable", func(t *testing.T) {
		for _, freq := range pairline.LogGrid(32) {
			require.InDelta(t, whole.Loss().At(freq), cut.Loss().At(freq), 1e-12)
			require.InDelta(t, whole.ResponseAt(freq).LossDB, cut.ResponseAt(freq).LossDB, 1e-9)
			require.InDelta(t, whole.ResponseAt(freq).ReturnLossNearDB, cut.ResponseAt(freq).ReturnLossNearDB, 1e-9)
			require.InDelta(t, whole.NEXT(freq).LikelyDB, cut.NEXT(freq).LikelyDB, 1e-9)
			require.InDelta(t, whole.NEXT(freq).WorstDB, cut.NEXT(freq).WorstDB, 1e-9)
			require.InDelta(t, whole.ACRF(freq).WorstDB, cut.ACRF(freq).WorstDB, 1e-9)
			require.InDelta(t, whole.ReturnLossEnvelopeDB(freq), cut.ReturnLossEnvelopeDB(freq), 1e-9)
		}
		require.InDelta(t, whole.Reflections().RippleDB, cut.Reflections().RippleDB, 1e-9)
	})
	t.Run("a piece of no length changes nothing", func(t *testing.T) {
		none := reel("cat6", 0)
		longer := lineOf(whole.Parts[0], none)
		for _, freq := range []float64{1, 10, 100} {
			require.InDelta(t, whole.ResponseAt(freq).LossDB, longer.ResponseAt(freq).LossDB, 1e-12)
			require.InDelta(t, whole.ResponseAt(freq).ReturnLossNearDB, longer.ResponseAt(freq).ReturnLossNearDB, 1e-9)
			require.InDelta(t, whole.NEXT(freq).LikelyDB, longer.NEXT(freq).LikelyDB, 1e-12)
			require.InDelta(t, whole.DelayNs(freq), longer.DelayNs(freq), 1e-12)
		}
		require.InDelta(t, whole.LoopResistance(), longer.LoopResistance(), 1e-12)
	})
	t.Run("a reversed line swaps its ends and keeps its loss", func(t *testing.T) {
		for _, freq := range pairline.LogGrid(16) {
			near, far := mixed.ResponseAt(freq), mixed.Reversed().ResponseAt(freq)
			require.InDelta(t, near.LossDB, far.LossDB, 1e-9, "a passive line is reciprocal")
			require.InDelta(t, near.ReturnLossNearDB, far.ReturnLossFarDB, 1e-9)
			require.InDelta(t, near.ReturnLossFarDB, far.ReturnLossNearDB, 1e-9)
			require.Equal(t, mixed.WorseEndNEXT(freq), mixed.Reversed().WorseEndNEXT(freq))
			require.InDelta(t, mixed.ACRF(freq).WorstDB, mixed.Reversed().ACRF(freq).WorstDB, 1e-9)
		}
		require.NotEqual(t, mixed.NEXT(100), mixed.Reversed().NEXT(100), "crosstalk depends on the end")
		require.Equal(t, mixed, mixed.Reversed().Reversed())
	})
}

func TestReflectionsOfOneCable(t *testing.T) {
	t.Run("a matched line reflects nothing", func(t *testing.T) {
		matched := reel("cat5e", 50)
		matched.Cable.K1 = 0 // without conductor loss the impedance is the nominal one at every frequency
		response := lineOf(matched).ResponseAt(30)
		require.True(t, math.IsInf(response.ReturnLossNearDB, 1))
		require.True(t, math.IsInf(response.ReturnLossFarDB, 1))
		require.InDelta(t, matched.Loss().At(30), response.LossDB, 1e-12)
		require.Zero(t, lineOf(matched).Reflections().RippleDB)
	})
	t.Run("a lossless half wave hides its impedance and a quarter wave shows its square", func(t *testing.T) {
		lossless := pairline.Segment{Cable: pairline.Cable{}, StrandFactor: 1, UnitFactor: 1, Impedance: 120, Length: 50}
		half := 1000 / (2 * 534.0 / 100 * 50) // MHz, where 50 m are half a wave
		require.Greater(t, lineOf(lossless).ResponseAt(half).ReturnLossNearDB, 200.0)
		want := (1.44 - 1) / (1.44 + 1) // textbook: Z²/100 against 100 Ω
		require.InDelta(t, -20*math.Log10(want), lineOf(lossless).ResponseAt(half/2).ReturnLossNearDB, 1e-9)
	})
	t.Run("a long line shows the mismatch of its own impedance alone", func(t *testing.T) {
		long := reel("cat5e", 1000)
		long.Impedance = 115
		q := 1000 / (2 * math.Pi * 20 / math.Ln10) * 1.2 * 1.967 / 534 / 10 // at 100 MHz
		z := 1.15 * complex(1+q, -q)
		want := -20 * math.Log10(cmplx.Abs((z-1)/(z+1)))
		require.InDelta(t, want, lineOf(long).ResponseAt(100).ReturnLossNearDB, 1e-9)
	})
}

func TestCascadeOfManyParts(t *testing.T) {
	mixed := mixed()
	t.Run("at 200 dB and far beyond the cascade stays exact", func(t *testing.T) {
		var line pairline.Line
		for range pairline.MaxSegments {
			line.Parts = append(line.Parts, reel("cat5e", 1000))
		}
		response := line.ResponseAt(100)
		require.InDelta(t, line.Loss().At(100), response.LossDB, 0.01)
		require.Greater(t, response.LossDB, 8000.0)
	})
	t.Run("a lone connection loses its loss and reflects its reflection", func(t *testing.T) {
		lone := lineOf(connection("cat5e"))
		response := lone.ResponseAt(100)
		require.InDelta(t, 0.4, response.LossDB, 1e-12)
		require.InDelta(t, 20, response.ReturnLossNearDB, 1e-9)
	})
	t.Run("the transmission has the size of the loss and the phase of the delay", func(t *testing.T) {
		through := mixed.Transmission(31.25)
		require.InDelta(t, mixed.ResponseAt(31.25).LossDB, -20*math.Log10(cmplx.Abs(through)), 1e-9)
		require.InDelta(t, cmplx.Abs(through-mixed.Reversed().Transmission(31.25)), 0, 1e-12)
		cables := lineOf(reel("cat6a", 60))
		step := 0.01
		turn := cmplx.Phase(cables.Transmission(50) / cables.Transmission(50+step))
		q := 1000 / (2 * math.Pi * 20 / math.Ln10) * 1.2 * 1.82 / 534 / math.Sqrt(50)
		require.InDelta(t, 60*5.34*(1+q/2), turn/(2*math.Pi*step)*1e3, 0.1, "group delay in ns, the slope of β")
	})
	t.Run("connections count one by one", func(t *testing.T) {
		joint := connection("cat6a")
		line := lineOf(joint, joint, joint)
		require.InDelta(t, 0.6, line.Loss().At(100), 1e-12)
		require.InDelta(t, 7.5, line.DelayNs(100), 1e-12)
		require.InDelta(t, 0.18, line.LoopResistance(), 1e-12)
	})
}

func TestPoorerSide(t *testing.T) {
	five, six := connection("cat5e"), connection("cat6a")
	t.Run("a mixed connection is rated by its poorer side whichever way round", func(t *testing.T) {
		require.Equal(t, five, pairline.Poorer(five, six))
		require.Equal(t, five, pairline.Poorer(six, five))
	})
	t.Run("each figure is the poorer one", func(t *testing.T) {
		odd := six
		odd.NEXTDB, odd.Name = 40, "odd"
		mixed := pairline.Poorer(odd, five)
		require.InDelta(t, 40, mixed.NEXTDB, 0)
		require.InDelta(t, five.FEXTDB, mixed.FEXTDB, 0)
	})
	t.Run("a coupler of good hardware is only as good as the plug in it, side by side", func(t *testing.T) {
		joint := pairline.Coupler(six, six, five)
		require.Equal(t, [2]pairline.Interface{six, five}, joint)
	})
}

func TestTemperatureFactor(t *testing.T) {
	cases := []struct {
		name     string
		celsius  float64
		screened bool
		want     float64
	}{
		{"20 °C is the reference", 20, false, 1},
		{"cold buys nothing", -20, false, 1},
		{"unscreened gains 0.4 % per kelvin to 40 °C", 40, false, 1.08},
		{"unscreened gains 0.6 % per kelvin beyond", 60, false, 1.20},
		{"unscreened at 50 °C has both slopes", 50, false, 1.14},
		{"screened gains 0.2 % per kelvin throughout", 60, true, 1.08},
		{"screened at 30 °C", 30, true, 1.02},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) { // TIA-568-C.2 6.4.7, published
			require.InDelta(t, c.want, pairline.TemperatureFactor(c.celsius, c.screened), 1e-12)
		})
	}
}

func TestReflections(t *testing.T) {
	t.Run("long reels ripple by under a fifth of a decibel and do not ring", func(t *testing.T) {
		joint := connection("cat6a")
		found := lineOf(reel("cat6a", 60), joint, joint, reel("cat6a", 60)).Reflections()
		require.Less(t, found.RippleDB, 0.2)
		require.False(t, found.Rings)
	})
	t.Run("many short pieces of unlike cable ring by some decibels", func(t *testing.T) {
		var line pairline.Line
		for i := range 8 {
			piece := reel("cat5e", 2)
			piece.Impedance = []float64{85, 115}[i%2]
			if i > 0 {
				line.Parts = append(line.Parts, connection("cat5e"), connection("cat5e"))
			}
			line.Parts = append(line.Parts, piece)
		}
		found := line.Reflections()
		require.Greater(t, found.RippleDB, 1.0)
		require.Negative(t, found.ReturnLossMarginDB)
		require.True(t, found.Rings)
	})
	t.Run("the parabola finds the crest between grid points", func(t *testing.T) {
		line := lineOf(reel("cat5e", 3), connection("cat5e"), connection("cat5e"), reel("cat5e", 3))
		coarse, fine := line.Reflections(), pairline.ReflectionsOf(line.Responses(pairline.LogGrid(200_001)))
		require.InDelta(t, fine.RippleDB, coarse.RippleDB, 1e-3)
		require.InDelta(t, fine.ReturnLossMarginDB, coarse.ReturnLossMarginDB, 1e-3)
	})
	t.Run("the crest of a parabola over the logarithm of frequency is found exactly", func(t *testing.T) {
		var sweep []pairline.Response
		for _, freq := range pairline.LogGrid(9) {
			off := math.Log(freq / 12)
			sweep = append(sweep, pairline.Response{FreqMHz: freq, RippleDB: -(2 - 0.1*off*off), ReturnLossNearDB: 40, ReturnLossFarDB: 50})
		}
		found := pairline.ReflectionsOf(sweep)
		require.InDelta(t, 2, found.RippleDB, 1e-9)
		require.InDelta(t, 12, found.RippleMHz, 1e-9)
		require.InDelta(t, 25, found.ReturnLossMarginDB, 1e-9, "the nearer end is the worse one here")
	})
	t.Run("no sweep finds nothing", func(t *testing.T) {
		require.Zero(t, pairline.ReflectionsOf(nil).RippleDB)
	})
	t.Run("the return loss limit is 15 dB to 20 MHz and falls to 8.0 at 100 MHz", func(t *testing.T) {
		// TSB-95, published
		require.InDelta(t, 15, pairline.ReturnLossLimit(1), 1e-12)
		require.InDelta(t, 15, pairline.ReturnLossLimit(20), 1e-12)
		require.InDelta(t, 8.0, pairline.ReturnLossLimit(100), 0.05)
	})
}
