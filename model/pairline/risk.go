package pairline

import (
	"math"
	"slices"
)

// Tolerance is how far real cables and connections scatter about their figures. It is judgement, to be shown as such.
type Tolerance struct {
	// Cable is one standard deviation of a cable's loss, as a part of its loss.
	Cable float64
	// SameKind is the correlation between cables of one kind, 0 to 1; cables of different kinds scatter independently.
	SameKind float64
	// InterfaceDB is one standard deviation of a connection's loss in dB at 100 MHz.
	InterfaceDB float64
}

// DefaultTolerance is 3 % for a cable, correlation one half within a kind, and 0.05 dB for a connection. Judgement.
func DefaultTolerance() Tolerance { return Tolerance{Cable: 0.03, SameKind: 0.5, InterfaceDB: 0.05} }

// SpreadDB is one standard deviation in dB of the line's loss at 100 MHz:
// σ² = σc²·Σ over kinds [ρ·(ΣIL)² + (1−ρ)·ΣIL²] + n·σw².
func (l Line) SpreadDB(t Tolerance) float64 {
	type kindSums struct {
		cable          Cable
		plain, squares float64
	}
	var kinds []kindSums // in order of appearance, so that equal lines give equal digits
	variance := 0.0
	for _, part := range l.Parts {
		switch p := part.(type) {
		case Segment:
			at := slices.IndexFunc(kinds, func(k kindSums) bool { return k.cable == p.Cable })
			if at < 0 {
				at = len(kinds)
				kinds = append(kinds, kindSums{cable: p.Cable})
			}
			loss := p.Loss().At(GradeMHz)
			kinds[at].plain += loss
			kinds[at].squares += loss * loss
		case Interface:
			variance += t.InterfaceDB * t.InterfaceDB
		}
	}
	for _, kind := range kinds {
		variance += t.Cable * t.Cable * (t.SameKind*kind.plain*kind.plain + (1-t.SameKind)*kind.squares)
	}
	return math.Sqrt(variance)
}

// Risk is the chance, 0 to 1, that a margin is negative when it scatters about marginDB with standard deviation spreadDB:
// Φ(−margin/spread). Both are taken at 100 MHz, where a line is graded. Catalogue figures are maxima, so it is an upper estimate; say so where it is shown.
func Risk(marginDB, spreadDB float64) float64 {
	if spreadDB == 0 {
		return riskWithoutSpread(marginDB)
	}
	return normal(-marginDB / spreadDB)
}

// riskWithoutSpread is the limit of Risk as the spread vanishes.
func riskWithoutSpread(marginDB float64) float64 {
	switch {
	case marginDB > 0:
		return 0
	case marginDB < 0:
		return 1
	default:
		return 0.5
	}
}

// RiskBetween is the chance that a margin is negative when it lies anywhere, equally likely, from one margin to another,
// each with its spread in dB: [A(z2) − A(z1)]/(z2 − z1) with A(z) = z·Φ(z) + φ(z) and z = −margin/spread.
// Both spreads must be above zero.
func RiskBetween(margin1DB, spread1DB, margin2DB, spread2DB float64) float64 {
	z1, z2 := -margin1DB/spread1DB, -margin2DB/spread2DB
	if math.Abs(z2-z1) < 1e-4 { // the difference quotient would lose its digits; the midpoint is good to 1e-9
		return normal((z1 + z2) / 2)
	}
	return (normalIntegral(z2) - normalIntegral(z1)) / (z2 - z1)
}

// pieceK is the widest piece, in kelvin, in which −margin/spread is taken as straight over temperature.
const pieceK = 2

// RiskOver is the chance that the line exceeds limitDB at 100 MHz when the temperature of all its cables lies anywhere,
// equally likely, from lowC to highC. The range is cut at every second degree, which takes in the bends of the temperature
// factor at 20 and 40 °C and leaves each piece straight to 0.0001. With lowC = highC it is the Risk at that temperature.
func (l Line) RiskOver(limitDB, lowC, highC float64, t Tolerance) float64 {
	at := func(temperatureC float64) (marginDB, spreadDB float64) {
		line := l.AtTemperature(temperatureC)
		return limitDB - line.Loss().At(GradeMHz), line.SpreadDB(t)
	}
	margin1, spread1 := at(lowC)
	if !(lowC < highC) {
		return Risk(margin1, spread1)
	}
	sum := 0.0
	for from := lowC; from < highC; {
		to := min(highC, pieceK*(math.Floor(from/pieceK)+1))
		margin2, spread2 := at(to)
		sum += (to - from) * RiskBetween(margin1, spread1, margin2, spread2)
		from, margin1, spread1 = to, margin2, spread2
	}
	return sum / (highC - lowC)
}

// normal is Φ, the standard normal distribution.
func normal(z float64) float64 { return 0.5 * math.Erfc(-z/math.Sqrt2) }

// normalIntegral is A(z) = z·Φ(z) + φ(z), whose slope is Φ.
func normalIntegral(z float64) float64 {
	return z*normal(z) + math.Exp(-z*z/2)/math.Sqrt(2*math.Pi)
}
