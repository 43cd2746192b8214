package panel

import (
	"fmt"
	"strconv"
	"strings"

	"stageloom/model/plan"
	"stageloom/model/quantity"
)

// measure is how a figure is printed and read, and between which bounds it may lie, in its own unit.
type measure struct {
	print     func(float64) string
	read      func(string) (float64, error)
	low, high float64
}

// within reads a figure and holds it to its bounds.
func (m measure) within(text string) (float64, error) {
	value, err := m.read(text)
	if err != nil {
		return 0, err
	}
	if value < m.low || value > m.high {
		return 0, fmt.Errorf("this must lie between %s and %s", m.print(m.low), m.print(m.high))
	}
	return value, nil
}

// Measures of what the fields hold.
func (u Units) length(low, high float64) measure {
	return measure{u.Metres, func(text string) (float64, error) { return quantity.ReadLength(text, u.Length) }, low, high}
}

func (u Units) coordinate() measure {
	return measure{u.Metres, func(text string) (float64, error) { return quantity.ReadCoordinate(text, u.Length) }, -20000, 20000}
}

func (u Units) temperature(low, high float64) measure {
	return measure{
		func(c float64) string { return quantity.PrintTemperature(c, u.Temperature, 0) },
		func(text string) (float64, error) { return quantity.ReadTemperature(text, u.Temperature) }, low, high,
	}
}

func decibels(low, high float64) measure {
	return measure{func(dB float64) string { return quantity.PrintDecibels(dB, 1) }, quantity.ReadDecibels, low, high}
}

func share() measure { return measure{percent, readPercent, 0, 100} }

// plainNumber is a number without a unit of its own, such as a factor; the unit after it is left out when it is read.
func plainNumber(unit string, low, high float64) measure {
	return measure{
		func(v float64) string {
			return strings.TrimSpace(strconv.FormatFloat(v, 'f', -1, 64) + " " + unit)
		},
		func(text string) (float64, error) {
			number := strings.TrimSpace(strings.TrimSuffix(strings.TrimPrefix(text, "×"), unit))
			value, err := strconv.ParseFloat(strings.Replace(number, ",", ".", 1), 64)
			if err != nil {
				return 0, fmt.Errorf("%q is no number; write it as %s", text, strconv.FormatFloat(max(low, 1), 'f', -1, 64))
			}
			return value, nil
		}, low, high,
	}
}

// figure adds a field of a figure that is always set; a text that was not touched keeps it to the last digit.
func (b *rowsForm[R]) figure(id, name string, m measure, at func(*R) *float64) *FormField {
	f := b.add(id, name, func(row R) string { return m.print(*at(&row)) })
	b.setting(f, func(text string) (func(*R), error) {
		value, err := m.within(text)
		return func(row *R) { *at(row) = value }, err
	})
	return f
}

// fromNought adds a field of a figure whose nought is shown and typed as a blank.
func (b *rowsForm[R]) fromNought(id, name string, m measure, at func(*R) *float64) *FormField {
	f := b.add(id, name, func(row R) string {
		if *at(&row) == 0 {
			return ""
		}
		return m.print(*at(&row))
	})
	b.setting(f, func(text string) (func(*R), error) {
		if text == "" {
			return func(row *R) { *at(row) = 0 }, nil
		}
		value, err := m.within(text)
		return func(row *R) { *at(row) = value }, err
	})
	f.blank(m.print(0))
	return f
}

// optional adds a field of a figure that may be left to the plan, which blank says.
func (b *rowsForm[R]) optional(id, name string, m measure, blank func(R) string, at func(*R) *plan.Optional) *FormField {
	f := b.add(id, name, func(row R) string {
		if figure := *at(&row); figure.Set {
			return m.print(figure.Value)
		}
		return ""
	})
	b.setting(f, func(text string) (func(*R), error) {
		if text == "" {
			return func(row *R) { *at(row) = plan.Optional{} }, nil
		}
		value, err := m.within(text)
		return func(row *R) { *at(row) = plan.Some(value) }, err
	})
	said := blank(b.rows[0])
	for _, row := range b.rows[1:] {
		if blank(row) != said {
			said = "by each one's own"
		}
	}
	f.blank(said)
	return f
}

// whole adds a field of a whole number whose nought is shown and typed as a blank.
func (b *rowsForm[R]) whole(id, name, blank string, low, high int, at func(*R) *int) *FormField {
	f := b.add(id, name, func(row R) string {
		if *at(&row) == 0 {
			return ""
		}
		return strconv.Itoa(*at(&row))
	})
	b.setting(f, func(text string) (func(*R), error) {
		if text == "" {
			return func(row *R) { *at(row) = 0 }, nil
		}
		value, err := strconv.Atoi(text)
		if err != nil || value < low || value > high {
			return nil, fmt.Errorf("this is a whole number from %d to %d", low, high)
		}
		return func(row *R) { *at(row) = value }, nil
	})
	f.blank(blank)
	return f
}
