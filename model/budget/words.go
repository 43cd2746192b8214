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

// Metres prints missing metres, or a run, in tenths, rounded upwards.
func Metres(length float64) string { return figure(length) + " m" }

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
func (b Budget) Why() string {
	said := []string{b.verdict()}
	switch {
	case b.TooShort() && b.Grade != Uncabled:
		said = append(said, Metres(b.Missing)+" too short")
	case b.Bare() && b.Grade != Uncabled:
		said = append(said, "no cable yet, "+Metres(b.Missing)+" to go")
	}
	if b.Grade == Tight && b.AboveStandard() {
		said = append(said, fmt.Sprintf("above the standard's %.1f dB", standardLimitDB))
	}
	if b.PastDistance() {
		said = append(said, fmt.Sprintf("%s of cable, past the %.0f m stated for %s", Metres(b.Length()), b.Distance, b.TransportName))
	}
	return strings.Join(said, "; ")
}

// verdict says the grade with the figure that decided it.
func (b Budget) verdict() string {
	switch b.Grade {
	case Over:
		return fmt.Sprintf("over by %s dB at 100 MHz", figure(-b.MarginDB))
	case Tight:
		return fmt.Sprintf("tight: %s dB in hand, %s dB under what is wanted", InHand(b.MarginDB), figure(b.WantedDB-b.MarginDB))
	case Enough, Ample:
		return fmt.Sprintf("%s: %s dB in hand, %.1f dB wanted", b.Grade, InHand(b.MarginDB), b.WantedDB)
	case Uncabled:
		if b.Unknown() {
			return "a cable whose loss is not known: no grade can be given"
		}
		gap := "to go"
		if b.TooShort() {
			gap = "too short"
		}
		return fmt.Sprintf("uncabled: %s %s and no kind of cable chosen", Metres(b.Missing), gap)
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
