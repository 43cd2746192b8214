package fields

import (
	"fmt"
	"strconv"
	"strings"

	"stageloom/model/quantity"
	"stageloom/model/words"
)

// unit is how the figures of a column are printed and read.
type unit struct {
	print func(words.Units, float64) string
	read  func(words.Units, string) (float64, error)
}

// The units that the names of plan's columns end in.
var (
	length = unit{
		words.Units.Metres,
		func(u words.Units, text string) (float64, error) { return quantity.ReadLength(text, u.Length) },
	}
	cableLength = unit{words.Units.Piece, length.read}
	coordinate  = unit{
		words.Units.Metres,
		func(u words.Units, text string) (float64, error) { return quantity.ReadCoordinate(text, u.Length) },
	}
	temperature = unit{
		words.Units.Degrees,
		func(u words.Units, text string) (float64, error) {
			return quantity.ReadTemperature(text, u.Temperature)
		},
	}
	decibels = unit{
		func(_ words.Units, dB float64) string { return quantity.PrintDecibels(dB, 1) },
		func(_ words.Units, text string) (float64, error) { return quantity.ReadDecibels(text) },
	}
	percent = plainUnit("%", "10 %")
	watts   = plainUnit("W", "15 W")
	degrees = plainUnit("°", "45°")
	factor  = plainUnit("", "1.15")
)

// units are the units by the endings of the columns' names.
var units = []struct {
	ending string
	unit   unit
}{
	{"_percent", percent},
	{"_degrees", degrees},
	{"_factor", factor},
	{"_dB_per_100m", decibels},
	{"_dB", decibels},
	{"length_m", cableLength},
	{"nominal_m", cableLength},
	{"_m", length},
	{"_C", temperature},
	{"_W", watts},
	{"_ms", plainUnit("ms", "2 ms")},
	{"_kg_per_100m", plainUnit("kg", "5.8 kg")},
	{"_kg", plainUnit("kg", "6.5 kg")},
	{"_MHz", plainUnit("MHz", "518.25 MHz")},
}

// unitOf is the unit that the name of a column ends in; lengths that may be less than nought are coordinates.
func unitOf(column string, low float64) unit {
	for _, known := range units {
		if strings.HasSuffix(column, known.ending) {
			if known.ending == "_m" && low < 0 {
				return coordinate
			}
			return known.unit
		}
	}
	return factor
}

// plainUnit is a unit of numbers that no other unit can be typed for; such tells how they are written.
func plainUnit(sign, such string) unit {
	return unit{
		func(_ words.Units, value float64) string {
			gap := " "
			if sign == "°" || sign == "" {
				gap = ""
			}
			return strconv.FormatFloat(value, 'f', -1, 64) + gap + sign
		},
		func(_ words.Units, text string) (float64, error) {
			number := strings.TrimSpace(strings.TrimSuffix(strings.TrimPrefix(text, "×"), sign))
			value, err := strconv.ParseFloat(strings.Replace(number, ",", ".", 1), 64)
			if err != nil {
				return 0, fmt.Errorf("%s is no number; write it as %s", quoted(text), such)
			}
			return value, nil
		},
	}
}
