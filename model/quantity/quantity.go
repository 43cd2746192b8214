// Package quantity reads lengths, temperatures and decibels as people write
// them ("45m", "148 ft", "1,5 km", `12' 6"`, "86 °F", "1.5 dB") and prints them
// with a stated number of digits, in metric or imperial units.
//
// Inside the program a length is in metres, a temperature in °C and a loss in
// dB, all float64; this package stands at the edge where text comes in and goes
// out.
//
// # The decimal mark
//
// A number holds one mark at most, and that mark, a point or a comma, is the
// decimal mark. Separators between thousands are refused, because 1,500 m is
// one and a half metres to one reader and one and a half kilometres to another:
// a comma with exactly three digits after it and a whole part other than 0
// before it is refused, and so are two marks in one number and blanks between
// digits. A point is always the decimal mark, as the program prints it.
package quantity

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// System is the family of units that a bare number is read in and that figures
// are printed in.
type System int

const (
	// Metric stands for metres and degrees Celsius.
	Metric System = iota
	// Imperial stands for feet and degrees Fahrenheit.
	Imperial
)

// String returns "metric" or "imperial".
func (s System) String() string {
	if s == Imperial {
		return "imperial"
	}
	return "metric"
}

// Error says in words why a text is not the quantity that was asked for.
type Error struct {
	Quantity string // what was asked for: "length", "coordinate", "temperature", "decibels"
	Read     string // the text as it was read, shortened when it is long
	Reason   string // what is wrong with it
	Write    string // what to write instead
}

// Error joins the four parts into one sentence.
func (e *Error) Error() string {
	return fmt.Sprintf("%s %q: %s; write %s", e.Quantity, e.Read, e.Reason, e.Write)
}

// noFigure is printed for NaN and infinities: a blank place on paper, never the
// letters of a floating-point format.
const noFigure = "–"

// figure writes value with digits digits after the point (0 to 9; others are
// brought into that range), a true minus sign and no negative zero.
func figure(value float64, digits int, unit string) string {
	if math.IsNaN(value) || math.IsInf(value, 0) {
		return noFigure
	}
	digits = min(9, max(0, digits))
	if scaled := math.Abs(value) * math.Pow10(digits); scaled < 1<<52 { // halves go up, as whoever reckons by hand has it
		value = math.Copysign(math.Round(scaled)/math.Pow10(digits), value)
	}
	text := strconv.FormatFloat(math.Abs(value), 'f', digits, 64)
	if value < 0 && strings.Trim(text, "0.") != "" {
		text = "−" + text
	}
	return text + " " + unit
}
