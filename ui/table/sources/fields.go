package sources

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/ui/panel"
	"stageloom/ui/table"
)

// column is a Column; number, choice and ranked are those of the other kinds.
func column(name, title string, width float32, help string) table.Column {
	return table.Column{Name: name, Title: title, Width: width, Help: help}
}

func number(name, title string, width float32, help string) table.Column {
	c := column(name, title, width, help)
	c.Kind = table.Number
	return c
}

func choice(name, title string, width float32, help string) table.Column {
	c := column(name, title, width, help)
	c.Kind = table.Choice
	return c
}

func ranked(name, title string, width float32, help string) table.Column {
	c := column(name, title, width, help)
	c.Kind = table.Ranked
	return c
}

func aside(c table.Column) table.Column {
	c.Aside = true
	return c
}

func naming(c table.Column) table.Column {
	c.Names = true
	return c
}

// updates is a Setter that reads what was typed into a row of a table of the plan. with leaves the row alone where it
// fails.
func updates[R plan.Row](with func(row *R, typed string) error) table.Setter {
	return func(e *plan.Edit, ref plan.Ref, typed string) error {
		var refused error
		err := plan.Update(e, ref.Key, func(row *R) { refused = with(row, strings.TrimSpace(typed)) })
		if refused != nil {
			return refused
		}
		return err
	}
}

// words sets a text that may be blank.
func words[R plan.Row](at func(*R) *string) table.Setter {
	return updates(func(row *R, typed string) error {
		text, err := readWords(typed)
		if err == nil {
			*at(row) = text
		}
		return err
	})
}

// dated sets a text that may be blank and may name a day.
func dated[R plan.Row](at func(*R) *string) table.Setter {
	return updates(func(row *R, typed string) error {
		text, err := readWords(typed)
		if wrong := plan.NoSuchDay(text); err == nil && wrong != "" {
			err = fmt.Errorf("there is no day %s: write year-month-day, for instance 2027-06-19", wrong)
		}
		if err == nil {
			*at(row) = text
		}
		return err
	})
}

// note sets a text that may be long.
func note[R plan.Row](at func(*R) *string) table.Setter {
	return updates(func(row *R, typed string) error {
		if n := utf8.RuneCountInString(typed); n > longestNote {
			return fmt.Errorf("it has %d characters, but at most %d are kept", n, longestNote)
		}
		*at(row) = typed
		return nil
	})
}

// named sets a name, which must not be blank.
func named[R plan.Row](at func(*R) *string) table.Setter {
	return updates(func(row *R, typed string) error {
		text, err := readWords(typed)
		if err == nil && text == "" {
			err = fmt.Errorf("a name is needed")
		}
		if err == nil {
			*at(row) = text
		}
		return err
	})
}

// The longest name and note that a plan keeps.
const (
	longestName = 200
	longestNote = 4000
)

func readWords(typed string) (string, error) {
	text := strings.Join(strings.Fields(typed), " ")
	if n := utf8.RuneCountInString(text); n > longestName {
		return "", fmt.Errorf("it has %d characters, but at most %d are kept", n, longestName)
	}
	return text, nil
}

// figure is how a figure is read and printed: in which units, between which bounds.
type figure struct {
	read      func(string) (float64, error)
	print     func(float64) string
	low, high float64
}

func (f figure) parse(typed string) (float64, error) {
	value, err := f.read(typed)
	if err == nil && (value < f.low || value > f.high) {
		err = fmt.Errorf("%s is too much or too little: it lies between %s and %s", typed, f.print(f.low), f.print(f.high))
	}
	return value, err
}

func metres(units panel.Units, low, high float64) figure {
	return figure{
		func(text string) (float64, error) { return quantity.ReadLength(text, units.Length) },
		units.Metres, low, high,
	}
}

func coordinate(units panel.Units) figure {
	return figure{
		func(text string) (float64, error) { return quantity.ReadCoordinate(text, units.Length) },
		units.Metres, -20000, 20000,
	}
}

func degrees(units panel.Units, low, high float64) figure {
	return figure{
		func(text string) (float64, error) { return quantity.ReadTemperature(text, units.Temperature) },
		func(c float64) string { return quantity.PrintTemperature(c, units.Temperature, 0) },
		low, high,
	}
}

func decibels(low, high float64) figure {
	return figure{quantity.ReadDecibels, func(dB float64) string { return quantity.PrintDecibels(dB, 1) }, low, high}
}

func percent(low, high float64) figure {
	return figure{
		func(text string) (float64, error) {
			digits := strings.Replace(strings.TrimSpace(strings.TrimSuffix(text, "%")), ",", ".", 1)
			value, err := strconv.ParseFloat(digits, 64)
			if err != nil {
				return 0, fmt.Errorf("%q is no share; write it as 10 %%", text)
			}
			return value, nil
		},
		func(value float64) string { return strconv.FormatFloat(value, 'f', -1, 64) + " %" }, low, high,
	}
}

// measured sets a figure; blank makes it 0 where that is allowed.
func measured[R plan.Row](f figure, blank bool, at func(*R) *float64) table.Setter {
	return updates(func(row *R, typed string) error {
		if typed == "" && blank {
			*at(row) = 0
			return nil
		}
		if typed == "" {
			return fmt.Errorf("a figure is needed, for instance %s", f.print(max(f.low, 1)))
		}
		value, err := f.parse(typed)
		if err == nil {
			*at(row) = value
		}
		return err
	})
}

// optional sets a figure that may be left blank; then what the plan says holds.
func optional[R plan.Row](f figure, at func(*R) *plan.Optional) table.Setter {
	return updates(func(row *R, typed string) error {
		if typed == "" {
			*at(row) = plan.Optional{}
			return nil
		}
		value, err := f.parse(typed)
		if err == nil {
			*at(row) = plan.Some(value)
		}
		return err
	})
}

// whole sets a whole number; blank is 0 where 0 is allowed.
func whole[R plan.Row](low, high int, at func(*R) *int) table.Setter {
	return updates(func(row *R, typed string) error {
		if typed == "" && low <= 0 {
			*at(row) = 0
			return nil
		}
		value, err := strconv.Atoi(typed)
		if err != nil || value < low || value > high {
			return fmt.Errorf("%q is no whole number from %d to %d", typed, low, high)
		}
		*at(row) = value
		return nil
	})
}

// picked reads one of a list of words, by its beginning where only one begins so.
func picked(typed string, options []string) (string, error) {
	var begin []string
	for _, option := range options {
		if strings.EqualFold(option, typed) {
			return option, nil
		}
		if typed != "" && strings.HasPrefix(strings.ToLower(option), strings.ToLower(typed)) {
			begin = append(begin, option)
		}
	}
	switch {
	case len(begin) == 1:
		return begin[0], nil
	case typed == "":
		return "", fmt.Errorf("it can't be blank; write one of %s", listed(options))
	case len(begin) > 1:
		return "", fmt.Errorf("%q may be %s; write more of it", typed, listed(begin))
	}
	return "", fmt.Errorf("%q is none of %s", typed, listed(options))
}

// mostListed is how many words a message lists.
const mostListed = 8

func listed(options []string) string {
	shown := slices.DeleteFunc(slices.Clone(options), func(option string) bool { return option == "" })
	if len(shown) > mostListed {
		return strings.Join(shown[:mostListed], ", ") + fmt.Sprintf(" and %d more", len(shown)-mostListed)
	}
	return strings.Join(shown, ", ")
}

// oneOf sets a word out of a list; the blank word is among them where it may be blank.
func oneOf[R plan.Row](at func(*R) *string, options ...string) table.Setter {
	return updates(func(row *R, typed string) error {
		word, err := picked(typed, options)
		if err == nil {
			*at(row) = word
		}
		return err
	})
}

// yes sets a tick: "yes" or blank.
func yes[R plan.Row](at func(*R) *bool) table.Setter {
	return updates(func(row *R, typed string) error {
		word, err := picked(typed, []string{"", "yes", "no", "48 V", "x", "1"})
		if err == nil {
			*at(row) = word != "" && word != "no"
		}
		return err
	})
}

func tick(on bool) string {
	if on {
		return "yes"
	}
	return ""
}

// catalogued is a list of rows by name, to be picked from.
type catalogued struct {
	names []string
	ids   map[string]string
}

func (c *catalogued) add(name, id string) {
	if c.ids == nil {
		c.ids = map[string]string{}
	}
	if _, found := c.ids[name]; !found {
		c.names = append(c.names, name)
		c.ids[name] = id
	}
}

// id finds a row by its name or the beginning of it.
func (c *catalogued) id(typed string) (string, error) {
	name, err := picked(typed, c.names)
	return c.ids[name], err
}

func fixed[R any](options ...string) func(R) []string { return func(R) []string { return options } }

func count(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}

// figureText prints a figure that is blank where it is 0.
func figureText(value float64, print func(float64) string) string {
	if value == 0 {
		return ""
	}
	return print(value)
}

func optionalText(o plan.Optional, print func(float64) string) string {
	if !o.Set {
		return ""
	}
	return print(o.Value)
}

func optionalValue(o plan.Optional) float64 { return o.Or(math.NaN()) }

// numbered is a figure that sorts last where it is blank.
func numbered(value float64, known bool) float64 {
	if !known {
		return math.NaN()
	}
	return value
}
