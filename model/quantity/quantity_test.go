package quantity_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/quantity"
)

const tiny = 1e-9

type reading struct {
	name, text string
	bare       quantity.System
	want       float64
}

func TestReadLength(t *testing.T) {
	for _, c := range []reading{
		{"metres without a blank", "45m", quantity.Metric, 45},
		{"metres with a blank", " 45 m ", quantity.Metric, 45},
		{"a bare number follows the wish for metres", "45", quantity.Metric, 45},
		{"a bare number follows the wish for feet", "10", quantity.Imperial, 3.048},
		{"a written unit goes before the wish", "45 m", quantity.Imperial, 45},
		{"a decimal comma", "1,5 km", quantity.Metric, 1500},
		{"a decimal point", "1.5 km", quantity.Metric, 1500},
		{"three decimals after a point", "1.500 m", quantity.Metric, 1.5},
		{"three decimals after a comma when the whole part is nothing", "0,125 m", quantity.Metric, 0.125},
		{"two decimals after a comma", "12,25", quantity.Metric, 12.25},
		{"four decimals after a comma", "1,2345 m", quantity.Metric, 1.2345},
		{"no whole part", ".5 m", quantity.Metric, 0.5},
		{"centimetres", "3 cm", quantity.Metric, 0.03},
		{"millimetres", "1500 MM", quantity.Metric, 1.5},
		// NIST Handbook 44, appendix C: 1 foot = 0.3048 m, 1 inch = 25.4 mm,
		// 1 yard = 0.9144 m, each exactly.
		{"a foot", "1 ft", quantity.Metric, 0.3048},
		{"an inch", "1 in", quantity.Metric, 0.0254},
		{"a yard", "1 yard", quantity.Metric, 0.9144},
		{"feet in words", "148 Feet", quantity.Metric, 45.1104},
		{"feet and inches by marks", `12' 6"`, quantity.Metric, 3.81},
		{"feet and inches without a blank", `12'6"`, quantity.Metric, 3.81},
		{"feet and inches by printer's marks", "12′ 6″", quantity.Metric, 3.81},
		{"feet and inches by curled marks", "12’ 6”", quantity.Metric, 3.81},
		{"feet and inches by units", "12ft 6.0in", quantity.Metric, 3.81},
		{"a blank that does not break", "45\u00a0m", quantity.Metric, 45},
		{"nothing at all of a length", "-0 m", quantity.Metric, 0},
		{"a leading plus", "+5 m", quantity.Metric, 5},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := quantity.ReadLength(c.text, c.bare)
			require.NoError(t, err)
			require.InDelta(t, c.want, got, tiny)
			require.False(t, math.Signbit(got))
		})
	}
}

func TestReadLengthRefuses(t *testing.T) {
	for _, c := range []struct{ name, text, says string }{
		{"nothing", "  ", "nothing is written"},
		{"a word", "long", "a number is missing"},
		{"a sign alone", "-", "there is no number in it"},
		{"a comma that may part thousands", "1,500 m", "write 1500 for thousands or 1.500 for decimals"},
		{"marks of both kinds", "1,234.5 m", "separators between thousands are not read"},
		{"two points", "1.234.5", "separators between thousands are not read"},
		{"a blank between thousands", "1 500 m", "two numbers stand side by side"},
		{"a narrow blank between thousands", "1\u202f500 m", "two numbers stand side by side"},
		{"an apostrophe between thousands", "1'500", "the second number has no unit"},
		{"a mark and no decimals", "5. m", "no digit follows the decimal mark"},
		{"a fraction", `6 1/2 in`, "fractions are not read"},
		{"an exponent", "1e3 m", `"e" is no unit of length here`},
		{"an unknown unit", "3 rods", `"rods" is no unit of length here`},
		{"metres and centimetres", "5 m 30 cm", "only feet and inches are read together"},
		{"inches before feet", "6 in 12 ft", "only feet and inches are read together"},
		{"three parts", "1 ft 2 in 3 in", "only feet and inches are read together"},
		{"a foot of inches after feet", `12' 12"`, "fewer than 12 inches"},
		{"less than nothing", "-5 m", "it is less than nothing"},
		{"less than nothing by a true minus", "−5 m", "it is less than nothing"},
		{"more than any venue", "101 km", "it is more than 100 km"},
		{"a number past all bounds", strings.Repeat("9", 39), "it is more than 100 km"},
		{"not a number", "NaN", "a number is missing"},
		{"an infinity", "Inf m", "a number is missing"},
		{"an endless text", strings.Repeat("9", 500), "this is no length"},
		{"bytes that are no text", "4\xff m", "this is no length"},
		{"digits of another script", "٤٥ m", "a number is missing"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := quantity.ReadLength(c.text, quantity.Metric)
			require.ErrorContains(t, err, c.says)
			var refusal *quantity.Error
			require.ErrorAs(t, err, &refusal)
			require.Equal(t, "length", refusal.Quantity)
			require.NotEmpty(t, refusal.Write)
			require.LessOrEqual(t, len([]rune(refusal.Read)), 41)
		})
	}
}

func TestReadCoordinate(t *testing.T) {
	t.Run("a coordinate may lie on either side of zero", func(t *testing.T) {
		for text, want := range map[string]float64{"-6": -6, "−6,5 m": -6.5, "-1 ft 6 in": -0.4572, "86 m": 86} {
			got, err := quantity.ReadCoordinate(text, quantity.Metric)
			require.NoError(t, err)
			require.InDelta(t, want, got, tiny)
		}
	})
	t.Run("but not off the map", func(t *testing.T) {
		_, err := quantity.ReadCoordinate("-100001 m", quantity.Metric)
		require.ErrorContains(t, err, `coordinate "-100001 m": it is more than 100 km; write`)
	})
}

func TestReadTemperature(t *testing.T) {
	for _, c := range []reading{
		{"a bare number in Celsius", "30", quantity.Metric, 30},
		{"a bare number in Fahrenheit", "86", quantity.Imperial, 30},
		{"a degree sign alone follows the wish", "86°", quantity.Imperial, 30},
		{"Fahrenheit is written", "86 °F", quantity.Metric, 30},
		{"below zero", "-5 °C", quantity.Imperial, -5},
		{"below zero by a true minus", "−5 °C", quantity.Metric, -5},
		{"letters alone", "86f", quantity.Metric, 30},
		{"a blank after the degree sign", "40 ° C", quantity.Metric, 40},
		{"the word deg", "40 deg C", quantity.Metric, 40},
		{"signs in one piece", "40 ℃", quantity.Imperial, 40},
		{"a decimal comma", "37,5 °C", quantity.Metric, 37.5},
		// The fixed points of the two scales: NIST SP 811, appendix B.
		{"water freezes at 32 °F", "32 °F", quantity.Metric, 0},
		{"water boils at 212 °F", "212 °F", quantity.Metric, 100},
		{"the scales meet at −40", "-40 °F", quantity.Metric, -40},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := quantity.ReadTemperature(c.text, c.bare)
			require.NoError(t, err)
			require.InDelta(t, c.want, got, tiny)
		})
	}
	for _, c := range []struct{ name, text, says string }{
		{"another scale", "300 K", `"k" is no unit of temperature here; write °C or °F after the number`},
		{"hotter than any cable", "500 °C", "it is outside -90 to 150 °C"},
		{"colder than any place", "-200 °F", "it is outside -90 to 150 °C"},
		{"a range", "20 °C 40 °C", "there is more than one number in it"},
		{"not a number", "NaN", "a number is missing"},
		{"nothing", "", "nothing is written"},
	} {
		t.Run(c.name+" is refused", func(t *testing.T) {
			_, err := quantity.ReadTemperature(c.text, quantity.Metric)
			require.ErrorContains(t, err, c.says)
		})
	}
}

func TestReadDecibels(t *testing.T) {
	for text, want := range map[string]float64{"1.5 dB": 1.5, "1,5": 1.5, "-2.2db": -2.2, "−2.2 dB": -2.2, "+3 DB": 3, "-0": 0} {
		t.Run("reads "+text, func(t *testing.T) {
			got, err := quantity.ReadDecibels(text)
			require.NoError(t, err)
			require.InDelta(t, want, got, tiny)
			require.Equal(t, want < 0, math.Signbit(got))
		})
	}
	for text, says := range map[string]string{
		"1.5 m": `"m" is not dB`, "1001 dB": "more than 1000 dB", "1 dB 2 dB": "more than one number", "+Inf": "a number is missing",
	} {
		t.Run("refuses "+text, func(t *testing.T) {
			_, err := quantity.ReadDecibels(text)
			require.ErrorContains(t, err, says)
		})
	}
}

func TestPrint(t *testing.T) {
	for _, c := range []struct{ name, got, want string }{
		{"metres", quantity.PrintLength(45, quantity.Metric, 1), "45.0 m"},
		{"feet", quantity.PrintLength(45, quantity.Imperial, 1), "147.6 ft"},
		{"whole feet", quantity.PrintLength(30.48, quantity.Imperial, 0), "100 ft"},
		{"Celsius", quantity.PrintTemperature(30, quantity.Metric, 0), "30 °C"},
		{"Fahrenheit", quantity.PrintTemperature(30, quantity.Imperial, 0), "86 °F"},
		{"a true minus", quantity.PrintDecibels(-2.24, 1), "−2.2 dB"},
		{"no negative zero", quantity.PrintDecibels(-0.04, 1), "0.0 dB"},
		{"digits below the range", quantity.PrintDecibels(1.5, -3), "2 dB"},
		{"digits above the range", quantity.PrintDecibels(0.5, 40), "0.500000000 dB"},
		{"not a number", quantity.PrintDecibels(math.NaN(), 1), "–"},
		{"an infinity", quantity.PrintLength(math.Inf(1), quantity.Metric, 1), "–"},
		{"the name of the metric units", quantity.Metric.String(), "metric"},
		{"the name of the imperial units", quantity.Imperial.String(), "imperial"},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, c.got) })
	}
}

func TestWhatIsPrintedIsReadBack(t *testing.T) {
	systems := rapid.SampledFrom([]quantity.System{quantity.Metric, quantity.Imperial})
	t.Run("a coordinate, to half its last digit", rapid.MakeCheck(func(t *rapid.T) {
		metres := rapid.Float64Range(-99_999, 99_999).Draw(t, "metres")
		system, other := systems.Draw(t, "system"), systems.Draw(t, "other")
		digits := rapid.IntRange(0, 6).Draw(t, "digits")
		got, err := quantity.ReadCoordinate(quantity.PrintLength(metres, system, digits), other)
		require.NoError(t, err)
		require.InDelta(t, metres, got, 0.5*math.Pow10(-digits)+tiny)
	}))
	t.Run("a temperature, to half its last digit", rapid.MakeCheck(func(t *rapid.T) {
		celsius := rapid.Float64Range(-40, 149).Draw(t, "celsius")
		system, other := systems.Draw(t, "system"), systems.Draw(t, "other")
		digits := rapid.IntRange(0, 6).Draw(t, "digits")
		got, err := quantity.ReadTemperature(quantity.PrintTemperature(celsius, system, digits), other)
		require.NoError(t, err)
		require.InDelta(t, celsius, got, 0.5*math.Pow10(-digits)+tiny)
	}))
	t.Run("decibels, to half their last digit", rapid.MakeCheck(func(t *rapid.T) {
		decibels := rapid.Float64Range(-999, 999).Draw(t, "decibels")
		digits := rapid.IntRange(0, 6).Draw(t, "digits")
		got, err := quantity.ReadDecibels(quantity.PrintDecibels(decibels, digits))
		require.NoError(t, err)
		require.InDelta(t, decibels, got, 0.5*math.Pow10(-digits)+tiny)
	}))
	t.Run("any text is read to a bounded figure or refused in words", rapid.MakeCheck(func(t *rapid.T) {
		text := rapid.OneOf(rapid.String(), rapid.StringMatching(`[-+]?[0-9]{0,4}[.,]?[0-9]{0,4} ?(m|ft|in|'|"|°F|dB)?[0-9 ]{0,3}`)).Draw(t, "text")
		metres, err := quantity.ReadLength(text, quantity.Metric)
		if err != nil {
			var refusal *quantity.Error
			require.ErrorAs(t, err, &refusal)
			return
		}
		require.True(t, metres >= 0 && metres <= quantity.LongestLength)
	}))
}
