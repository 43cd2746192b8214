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

// toTenth rounds metres to the nearest tenth of a unit.
func toTenth(metres, unit float64) float64 { return math.Round(metres/unit*10) / 10 * unit }

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
	b.Run = geom.RoundMM(b.Way/unit+b.Rises/unit+b.Slack/unit) * unit
	b.printParts(unit)
	if b.Whole != nil && unit == 1 {
		b.Whole = b.Whole.printed()
	}
	return b
}

// printParts rounds the parts, each beginning where the one before it ends, and adds up what is laid and missing.
func (b *Budget) printParts(unit float64) {
	b.Parts = slices.Clone(b.Parts)
	at, laid := 0.0, 0.0
	for i := range b.Parts {
		part := &b.Parts[i]
		part.Length = toTenth(part.Length, unit)
		if part.What == Cable && !part.Assumed {
			laid += part.Length
		}
	}
	b.Laid = geom.RoundMM(laid/unit) * unit
	if b.Missing > 0 {
		b.Missing = max(geom.RoundMM((b.Run-b.Laid)/unit), 0.1) * unit
	}
	for i := range b.Parts {
		part := &b.Parts[i]
		if part.What == Cable && part.Assumed {
			part.Length = b.Missing
		}
		part.Start = geom.RoundMM(at/unit) * unit
		at += part.Length
	}
}

// printed is the whole with the lengths that its pieces are printed with in metres.
func (w *Whole) printed() *Whole {
	whole := *w
	whole.Length, whole.Missing = 0, 0
	for _, step := range w.Steps {
		length := toTenth(step.Length, 1)
		if step.Link != "" {
			length = step.printed
			whole.Missing += step.printedLack
		}
		whole.Length += length
	}
	whole.Length, whole.Missing = geom.RoundMM(whole.Length), geom.RoundMM(whole.Missing)
	return &whole
}
