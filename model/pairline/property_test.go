package pairline_test

import (
	"math"
	"math/cmplx"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/pairline"
	"stageloom/model/standards"
)

// anySegment draws a cable that Validate accepts.
func anySegment() *rapid.Generator[pairline.Segment] {
	return rapid.Custom(func(t *rapid.T) pairline.Segment {
		built := standards.Reel(rapid.SampledFrom(standards.Cables()).Draw(t, "cable"))
		built.Conductor = rapid.SampledFrom(standards.Conductors()).Draw(t, "conductor")
		built.Screened = rapid.Bool().Draw(t, "screened")
		built.Impedance = rapid.Float64Range(85, 115).Draw(t, "impedance")
		segment := built.Segment(rapid.Float64Range(0.1, 200).Draw(t, "length"), rapid.Float64Range(-20, 60).Draw(t, "temperature"))
		segment.UnitFactor = rapid.Float64Range(0.8, 2).Draw(t, "unit")
		return segment
	})
}

// anyLine draws a line of one to eight cables, joined by couplers or by nothing, now and then with a panel in front.
func anyLine() *rapid.Generator[pairline.Line] {
	return rapid.Custom(func(t *rapid.T) pairline.Line {
		var line pairline.Line
		hardware := rapid.SampledFrom(standards.AllHardware())
		if rapid.Bool().Draw(t, "panel") {
			line.Parts = append(line.Parts, hardware.Draw(t, "panel").Figures)
		}
		for i := range rapid.IntRange(1, 8).Draw(t, "cables") {
			if i > 0 && rapid.Bool().Draw(t, "coupled") {
				joint := hardware.Draw(t, "coupler").Figures
				line.Parts = append(line.Parts, joint, joint)
			}
			line.Parts = append(line.Parts, anySegment().Draw(t, "segment"))
		}
		return line
	})
}

var anyFreq = rapid.Float64Range(1, 100)

func TestCascadeOfAnyLine(t *testing.T) {
	t.Run("it is accepted, loses, never gains, and reflects less than all", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			line, freq := anyLine().Draw(t, "line"), anyFreq.Draw(t, "MHz")
			require.NoError(t, line.Validate())
			response := line.ResponseAt(freq)
			require.Positive(t, line.Loss().At(freq))
			// The formulas of connections are passive to within the mismatch they are used with.
			require.Greater(t, response.LossDB, -0.05)
			require.Greater(t, response.ReturnLossNearDB, 0.0)
			require.Greater(t, response.ReturnLossFarDB, 0.0)
		})
	})
	t.Run("its loss is the same from both ends and its return losses swap", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			line, freq := anyLine().Draw(t, "line"), anyFreq.Draw(t, "MHz")
			one, other := line.ResponseAt(freq), line.Reversed().ResponseAt(freq)
			require.InDelta(t, one.LossDB, other.LossDB, 1e-9)
			require.InDelta(t, one.ReturnLossNearDB, other.ReturnLossFarDB, 1e-6)
			require.InDelta(t, line.Loss().At(freq), line.Reversed().Loss().At(freq), 1e-9)
			require.InDelta(t, line.DelayNs(freq), line.Reversed().DelayNs(freq), 1e-9)
			require.InDelta(t, line.LoopResistance(), line.Reversed().LoopResistance(), 1e-9)
		})
	})
	t.Run("cutting any cable anywhere changes nothing", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			line, freq := anyLine().Draw(t, "line"), anyFreq.Draw(t, "MHz")
			which := rapid.IntRange(0, len(line.Segments())-1).Draw(t, "which")
			cut := cutCable(line, which, rapid.Float64Range(0.01, 0.99).Draw(t, "where"))
			require.InDelta(t, line.ResponseAt(freq).LossDB, cut.ResponseAt(freq).LossDB, 1e-8)
			require.InDelta(t, line.NEXT(freq).WorstDB, cut.NEXT(freq).WorstDB, 1e-8)
			require.InDelta(t, line.NEXT(freq).LikelyDB, cut.NEXT(freq).LikelyDB, 1e-8)
			require.InDelta(t, line.ACRF(freq).LikelyDB, cut.ACRF(freq).LikelyDB, 1e-8)
			require.InDelta(t, line.ReturnLossEnvelopeDB(freq), cut.ReturnLossEnvelopeDB(freq), 1e-8)
			require.InDelta(t, line.PhaseDelayNs(freq), cut.PhaseDelayNs(freq), 1e-8)
		})
	})
}

func TestFiguresOfAnyLine(t *testing.T) {
	t.Run("warmer cable never loses less", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			line, freq := anyLine().Draw(t, "line"), anyFreq.Draw(t, "MHz")
			cool := rapid.Float64Range(-20, 60).Draw(t, "cool")
			warm := rapid.Float64Range(cool, 60).Draw(t, "warm")
			require.LessOrEqual(t, line.AtTemperature(cool).Loss().At(freq), line.AtTemperature(warm).Loss().At(freq)+1e-12)
		})
	})
	t.Run("worst crosstalk is never better than likely and the far end is the reverse", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			line, freq := anyLine().Draw(t, "line"), anyFreq.Draw(t, "MHz")
			for _, talk := range []pairline.Crosstalk{line.NEXT(freq), line.WorseEndNEXT(freq), line.ACRN(freq), line.ACRF(freq)} {
				require.LessOrEqual(t, talk.WorstDB, talk.LikelyDB+1e-9)
			}
			require.LessOrEqual(t, line.PowerSumNEXTDB(freq), line.NEXT(freq).LikelyDB)
			require.Equal(t, line.WorseEndNEXT(freq), line.Reversed().WorseEndNEXT(freq))
		})
	})
	t.Run("its additive loss collapses to three numbers", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			line, freq := anyLine().Draw(t, "line"), anyFreq.Draw(t, "MHz")
			sum := 0.0
			for _, part := range line.Parts {
				sum += part.Loss().At(freq)
			}
			require.InDelta(t, sum, line.Loss().At(freq), 1e-9)
		})
	})
}

func TestRiskAndPowerOfAnyLine(t *testing.T) {
	t.Run("more tolerance or less margin never lowers the risk of a healthy line", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			margin, spread := rapid.Float64Range(0, 10).Draw(t, "margin"), rapid.Float64Range(0.01, 3).Draw(t, "spread")
			require.LessOrEqual(t, pairline.Risk(margin, spread), pairline.Risk(margin, spread*1.5))
			require.LessOrEqual(t, pairline.Risk(margin, spread), pairline.Risk(margin-0.5, spread))
		})
	})
	t.Run("power drawn over it balances or is refused", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			line := anyLine().Draw(t, "line")
			power := rapid.SampledFrom(standards.PowerTypes()).Draw(t, "power")
			feed, err := power.Draw(line.LoopResistance())
			if err != nil {
				return
			}
			require.InDelta(t, power.DevicePower, feed.DevicePower, 1e-6)
			require.InDelta(t, power.SourceVoltage*feed.Current, feed.DevicePower+feed.LinePower, 1e-6)
			require.GreaterOrEqual(t, feed.DeviceVoltage, power.DeviceVoltage)
		})
	})
}

// cutCable cuts one cable of a line in two without a join.
func cutCable(line pairline.Line, which int, where float64) pairline.Line {
	var cut pairline.Line
	for _, part := range line.Parts {
		segment, ok := part.(pairline.Segment)
		if ok && which == 0 {
			rest := segment
			segment.Length *= where
			rest.Length -= segment.Length
			cut.Parts = append(cut.Parts, segment, rest)
		} else {
			cut.Parts = append(cut.Parts, part)
		}
		if ok {
			which--
		}
	}
	return cut
}

func TestAnyGarbageIsRefusedOrFinite(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		segment := anySegment().Draw(t, "segment")
		wild := rapid.Float64().Draw(t, "wild")
		fields := []*float64{
			&segment.Length, &segment.StrandFactor, &segment.UnitFactor, &segment.TemperatureC, &segment.Impedance,
			&segment.ConductorOhmPer100m, &segment.Cable.K1, &segment.Cable.K2, &segment.Cable.K3,
		}
		*fields[rapid.IntRange(0, len(fields)-1).Draw(t, "field")] = wild
		line := lineOf(segment)
		if line.Validate() != nil {
			return
		}
		for _, figure := range []float64{
			line.Loss().At(100), line.ResponseAt(100).LossDB, line.NEXT(1).WorstDB, line.LoopResistance(), line.DelayNs(1),
		} {
			require.False(t, math.IsNaN(figure) || math.IsInf(figure, 0))
		}
	})
}

func TestLikePiecesInARowAreReckonedAsOneByOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		row, freq := anyLine().Draw(t, "row"), anyFreq.Draw(t, "MHz")
		line := pairline.Line{Parts: append([]pairline.Part{}, anyLine().Draw(t, "before").Parts...)}
		for range rapid.IntRange(1, 40).Draw(t, "times") {
			line.Parts = append(line.Parts, row.Parts...)
		}
		line.Parts = append(line.Parts, anyLine().Draw(t, "after").Parts...)
		response, turned := line.ResponseAt(freq), line.Reversed().ResponseAt(freq)
		if passed := cmplx.Abs(line.Transmission(freq)); passed > 1e-200 { // which takes one part after the other
			require.InDelta(t, -20*math.Log10(passed), response.LossDB, 1e-6)
		}
		require.InDelta(t, response.LossDB, turned.LossDB, 1e-6)
		require.InDelta(t, response.ReturnLossFarDB, turned.ReturnLossNearDB, 1e-6)
	})
}
