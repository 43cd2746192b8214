package budget

import (
	"fmt"
	"math"
	"strings"
)

// minus is the sign of a negative figure in print.
const minus = "−"

// almost is what rounding forgives, so that a margin of 2.4 reckoned as 2.3999999 is not printed as 2.3.
const almost = 1e-6

// WholeDB prints a margin for the crew in whole dB, with its sign, rounded downwards: "+2" is 2.0 to 2.9 in hand, "+0"
// is 0.0 to 0.9 in hand, and a link that is over by any amount shows "−1" or worse, never a zero.
func WholeDB(marginDB float64) string { return signed(math.Floor(marginDB+almost), 0) }

// TenthDB prints a margin for the engineer in tenths, with its sign, rounded downwards like WholeDB.
func TenthDB(marginDB float64) string { return signed(math.Floor(marginDB*10+almost)/10, 1) }

// LossTenths prints a loss in tenths of a dB, rounded upwards, so that limit less loss gives the margin printed.
func LossTenths(lossDB float64) string { return figure(lossDB) }

// TenthsLeft prints a loss rounded upwards, its limit downwards, and what the two leave as they are printed. Of what has to
// lie above its limit, the limit takes the place of the loss.
func TenthsLeft(lossDB, limitDB float64) (loss, limit, left string) {
	up, down := math.Ceil(lossDB*10-almost), math.Floor(limitDB*10+almost)
	return fmt.Sprintf("%.1f", up/10), fmt.Sprintf("%.1f", down/10), signed((down-up)/10, 1)
}

// CrosstalkLess prints near-end crosstalk in tenths of a dB, rounded downwards, and what stays of it above a loss as the two are
// printed: NEXT less loss gives the ACR-N printed.
func CrosstalkLess(nextDB, lossDB float64) (next, acr string) {
	_, next, acr = TenthsLeft(lossDB, nextDB)
	return next, strings.TrimPrefix(acr, "+")
}

// Metres prints missing metres, or a run, in tenths, rounded upwards.
func Metres(length float64) string { return figure(length) + " m" }

// TenthsDB are loss and margin as LossTenths and TenthDB print them.
func (b Budget) TenthsDB() (loss, margin float64) {
	return math.Ceil(b.LossDB*10-almost) / 10, math.Floor(b.MarginDB*10+almost) / 10
}

func signed(value float64, digits int) string {
	if value < 0 {
		return minus + fmt.Sprintf("%.*f", digits, -value)
	}
	return "+" + fmt.Sprintf("%.*f", digits, value)
}

func figure(value float64) string { return fmt.Sprintf("%.1f", math.Ceil(value*10-almost)/10) }

// Label is what the plan shows beside the link's name: its margin in whole dB, or nothing where it has none.
func (b Budget) Label() string {
	if !b.HasMargin() {
		return ""
	}
	return WholeDB(b.MarginDB)
}

// Why is the sentence that says why the link has its grade, and what else is to be known of it. Metres and tenths of dB.
func (b Budget) Why() string { return b.Printed(1).WhyIn(Metres) }

// WhyIn is Why with lengths in the words of a printer; give it a budget as printed in its unit.
func (b Budget) WhyIn(metres func(float64) string) string {
	said := []string{b.verdict(metres)}
	if part := b.PartIn(metres); part != "" {
		said = append(said, part)
	}
	switch {
	case b.Graded:
	case b.TooShort():
		said = append(said, metres(b.Missing)+" too short")
	case b.Bare() && !b.Measured.Wanting():
		said = append(said, "no cable yet, "+metres(b.Missing)+" to go")
	}
	if b.lineFaulty() {
		said = append(said, "a cable of it is faulty")
	}
	if limitDB, some := b.StandardDB(); some && b.Grade == Tight && b.AboveStandard() {
		said = append(said, fmt.Sprintf("above the standard's %.1f dB", limitDB))
	}
	if b.PastDistance() {
		said = append(said, fmt.Sprintf("%s of cable, past the %s stated for %s", metres(b.LineLength()), strings.Replace(metres(b.Distance), ".0 ", " ", 1), b.TransportName))
	}
	return strings.Join(said, "; ")
}

// PartIn says which electrical line the link is part of: "part of L01 + L02, 180.0 m in all"; blank where it is the line.
func (b Budget) PartIn(metres func(float64) string) string {
	if !b.PartOf() {
		return ""
	}
	var names []string
	for _, step := range b.Whole.Steps {
		switch {
		case step.Guest:
			names = append(names, "the tail of "+step.Name)
		case step.Link != "":
			names = append(names, step.Name)
		}
	}
	return fmt.Sprintf("part of %s, %s in all", strings.Join(names, " + "), metres(b.LineLength()))
}

// Once says what a grade rests on that is not laid yet: " once 36.4 m more of Cat 6A is laid"; blank where all is laid.
func (b Budget) Once(metres func(float64) string) string {
	if !b.Assumed() {
		if b.PartOf() && b.Whole.Missing > 0 {
			return fmt.Sprintf(" once %s more of the line is laid", metres(b.Whole.Missing))
		}
		return ""
	}
	more := metres(b.Missing)
	if b.TooShort() {
		more += " more"
	}
	return fmt.Sprintf(" once %s of %s is laid", more, b.FillName)
}

// verdict says the grade with the figure that decided it.
func (b Budget) verdict(metres func(float64) string) string {
	if b.Measured.Wanting() && b.Graded && b.lacksKind() || b.Measured.Wanting() && b.Bare() {
		return noMetres
	}
	once, word := b.Once(metres), b.Grade
	if b.ToBeTested() {
		word = ToTest
	}
	switch b.Grade {
	case Over:
		return fmt.Sprintf("over by %s dB %s%s", figure(-b.MarginDB), b.Reference(), once)
	case Tight:
		return fmt.Sprintf("tight%s: %s dB in hand, %s dB under what is wanted", once, InHand(b.MarginDB), figure(b.WantedDB-b.MarginDB))
	case Enough, Ample:
		return fmt.Sprintf("%s%s: %s dB in hand, %.1f dB wanted", word, once, InHand(b.MarginDB), b.WantedDB)
	case Uncabled:
		if b.Unknown() {
			return "a cable whose loss is not known: no grade can be given"
		}
		gap := "to go"
		if b.TooShort() {
			gap = "too short"
		}
		if b.PartOf() && !b.lacksKind() {
			return "uncabled: another piece of its line has no cable, and no kind chosen or no metres"
		}
		return fmt.Sprintf("uncabled: %s %s and no kind of cable chosen", metres(b.Missing), gap)
	}
	return fmt.Sprintf("%s carries no grade", b.TransportName)
}

// InHand prints a margin that is not negative in tenths without its sign, rounded downwards.
func InHand(marginDB float64) string { return fmt.Sprintf("%.1f", math.Floor(marginDB*10+almost)/10) }

// TemperatureWhy says which cable temperature was used and who decided it.
func (b Budget) TemperatureWhy() string {
	return fmt.Sprintf("%.0f °C, %s", b.TemperatureC, map[Origin]string{
		BySite: "default for where it lies", ByPlan: "set for the plan", ByLink: "set for the link",
	}[b.TemperatureBy])
}

// WantedWhy says which margin is wanted and who decided it.
func (b Budget) WantedWhy() string {
	why := map[Origin]string{ByPlan: "set for the plan", ByLink: "set for the link"}[b.WantedBy]
	if b.WantedBy == ByMargin {
		why = "for a temperature not under the default"
		if b.TemperatureC < b.SiteTemperatureC {
			why = fmt.Sprintf("because the temperature is under the default of %.0f °C", b.SiteTemperatureC)
		}
	}
	return fmt.Sprintf("%.1f dB, %s", b.WantedDB, why)
}

// Chance prints a chance of 0 to 1 in per cent: tenths near its ends, and never more figures than it deserves.
func Chance(chance float64) string {
	switch {
	case chance < 0.001:
		return "under 0.1 %"
	case chance > 0.999:
		return "over 99.9 %"
	case chance < 0.1 || chance > 0.9:
		return fmt.Sprintf("%.1f %%", 100*chance)
	}
	return fmt.Sprintf("%.0f %%", 100*chance)
}

// noMetres is said of a link that nothing can be reckoned of.
const noMetres = "no metres: nobody said how long its way is, so it has no grade and no cable can be picked"
