package quantity

import (
	"fmt"
	"strings"
)

// ColdestC and HottestC bound the temperatures that are read, in °C. What a
// cable may be reckoned at is narrower and is the reckoner's to say.
const (
	ColdestC = -90.0
	HottestC = 150.0
)

// ReadTemperature reads a temperature, [ColdestC] to [HottestC], and returns
// °C. A bare number, or one with ° alone, is in °C or °F as bare says. A text
// that is no such temperature gives an [*Error].
func ReadTemperature(text string, bare System) (float64, error) {
	r := request{"temperature", "for instance 30 °C or 86 °F"}
	negative, parts, err := r.scan(text)
	if err != nil {
		return 0, err
	}
	if len(parts) > 1 {
		return 0, r.refuse(text, "there is more than one number in it", "")
	}
	value := parts[0].value
	if negative {
		value = -value
	}
	celsius, known := inCelsius(value, parts[0].unit, bare)
	switch {
	case !known:
		return 0, r.refuse(text, fmt.Sprintf("%q is no unit of temperature here", parts[0].unit), "°C or °F after the number")
	case celsius < ColdestC || celsius > HottestC:
		return 0, r.refuse(text, fmt.Sprintf("it is outside %.0f to %.0f °C", ColdestC, HottestC), "")
	}
	return celsius, nil
}

// PrintTemperature prints celsius with digits digits after the point, as
// "30 °C" or "86 °F". NaN and infinities give "–".
func PrintTemperature(celsius float64, system System, digits int) string {
	if system == Imperial {
		return figure(celsius*9/5+32, digits, "°F")
	}
	return figure(celsius, digits, "°C")
}

func inCelsius(value float64, unit string, bare System) (celsius float64, known bool) {
	unit = strings.TrimPrefix(strings.TrimPrefix(unit, "°"), "deg")
	if unit == "" {
		unit = map[System]string{Metric: "c", Imperial: "f"}[bare]
	}
	switch unit {
	case "c":
		return value, true
	case "f":
		return (value - 32) * 5 / 9, true
	}
	return 0, false
}
