package budget

import (
	"math"
	"slices"

	"stageloom/model/geom"
)

// upToTenth rounds metres up to a tenth of a unit that is so many metres long; what rounding to the millimetre may have added
// is forgiven. This is the one place where lengths of a run are rounded.
func upToTenth(metres, unit float64) float64 {
	const forgiven = 0.00051
	return max(0, math.Ceil((metres-forgiven)/unit*10)) / 10 * unit
}

// Printed is the budget with its lengths as they are printed in tenths of a unit that is so many metres long, 1 or a foot:
// way, rises and slack are rounded up and add to the run, cables are rounded to the nearest and add to what is laid, and run
// less laid is what is missing. The figures stay metres. In metres the run is the one that is reckoned with; in feet it may
// be up to three tenths of a foot more than that, never less.
func (b Budget) Printed(unit float64) Budget {
	m := b.Measured.exact
	if m == [3]float64{} { // put together by hand, or nothing to measure
		return b
	}
	b.Way, b.Rises, b.Slack = upToTenth(m[0], unit), upToTenth(m[1], unit), upToTenth(m[2], unit)
	b.Run, b.Laid = geom.RoundMM(b.Way/unit+b.Rises/unit+b.Slack/unit)*unit, 0
	assumed := -1
	for i := range b.Parts {
		switch part := &b.Parts[i]; {
		case part.What != Cable:
		case part.Assumed:
			assumed = i
		default:
			b.Laid += math.Round(part.Length/unit*10) / 10
		}
	}
	b.Laid = geom.RoundMM(b.Laid) * unit
	if b.Missing > 0 {
		b.Missing = max(geom.RoundMM((b.Run-b.Laid)/unit), 0.1) * unit
	}
	if assumed >= 0 {
		b.Parts = slices.Clone(b.Parts)
		b.Parts[assumed].Length = b.Missing
	}
	return b
}
