package words

import (
	"math"
	"strings"

	"stageloom/model/quantity"
)

// Units are how lengths and temperatures are shown; the zero Units are metres and °C.
type Units struct{ Length, Temperature quantity.System }

// Metres prints metres in tenths of the unit, without a nought behind the point.
func (u Units) Metres(metres float64) string {
	return strings.Replace(quantity.PrintLength(metres, u.Length, 1), ".0 ", " ", 1)
}

// Tenths is Metres for figures under each other: with a nought behind the point too.
func (u Units) Tenths(metres float64) string { return quantity.PrintLength(metres, u.Length, 1) }

// Piece prints the length of one cable as it was typed: in metres to the hundredth, as 60.96 m, in feet to the tenth.
func (u Units) Piece(metres float64) string {
	if tenths := metres * 10; u.Length == quantity.Imperial || math.Abs(tenths-math.Round(tenths)) < 0.05 {
		return u.Metres(metres)
	}
	return strings.Replace(quantity.PrintLength(metres, u.Length, 2), "0 ", " ", 1)
}

// Needed prints metres of a run, or missing of it, rounded up to a tenth of the unit.
func (u Units) Needed(metres float64) string { return u.Metres(u.needed(metres)) }

// NeededTenths is Needed for figures under each other.
func (u Units) NeededTenths(metres float64) string { return u.Tenths(u.needed(metres)) }

func (u Units) needed(metres float64) float64 {
	unit, forgiven := u.Unit(), 1e-6
	if u.Length == quantity.Imperial {
		forgiven = 0.05 // a metric cable is no longer than it prints
	}
	return math.Ceil(metres/unit*10-forgiven) / 10 * unit
}

// Degrees prints °C in the unit, in whole degrees.
func (u Units) Degrees(celsius float64) string {
	return quantity.PrintTemperature(celsius, u.Temperature, 0)
}

// Unit is how many metres the unit of length is: 1, or a foot.
func (u Units) Unit() float64 {
	if u.Length == quantity.Imperial {
		return quantity.Foot
	}
	return 1
}
