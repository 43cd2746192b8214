package quantity

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// longest is the number of runes past which a text is not a quantity.
const longest = 40

// Units as people and other programs type them, brought to one spelling.
var spelling = strings.NewReplacer(
	"\u00a0", " ", "\u2009", " ", "\u202f", " ", "\t", " ",
	"−", "-", "–", "-",
	"’", "'", "′", "'", "''", `"`, "”", `"`, "″", `"`,
	"° ", "°", "º ", "°", "º", "°", "℃", "°c", "℉", "°f", "deg ", "deg",
)

// part is one number with the unit written after it, "" for a bare number.
type part struct {
	value float64
	unit  string
}

// request is what a reader wants: the name of the quantity and an example of
// how to write it.
type request struct {
	quantity, example string
}

func (r request) refuse(text, reason, write string) error {
	if utf8.RuneCountInString(text) > longest {
		text = string([]rune(text)[:longest]) + "…"
	}
	if write == "" {
		write = r.example
	}
	return &Error{Quantity: r.quantity, Read: text, Reason: reason, Write: write}
}

// scan takes text apart into a sign and numbers with their units, in order.
func (r request) scan(text string) (negative bool, parts []part, err error) {
	if utf8.RuneCountInString(text) > longest || !utf8.ValidString(text) {
		return false, nil, r.refuse(text, "this is no "+r.quantity, "")
	}
	rest := strings.ToLower(strings.TrimSpace(spelling.Replace(text)))
	switch {
	case rest == "":
		return false, nil, r.refuse(text, "nothing is written", "")
	case strings.Contains(rest, "/"):
		return false, nil, r.refuse(text, "fractions are not read", "a decimal number such as 6.5")
	case rest[0] == '-' || rest[0] == '+':
		negative = rest[0] == '-'
		rest = strings.TrimSpace(rest[1:])
	}
	for rest != "" {
		digits := rest[:lengthOf(rest, isNumber)]
		if digits == "" {
			return false, nil, r.refuse(text, "a number is missing before "+strconv.Quote(rest), "")
		}
		rest = strings.TrimLeft(rest[len(digits):], " ")
		unit := rest[:lengthOf(rest, isUnit)]
		rest = strings.TrimLeft(rest[len(unit):], " ")
		if unit == "" && rest != "" {
			return false, nil, r.refuse(text, "two numbers stand side by side", "the digits together, without a blank between thousands")
		}
		value, err := r.number(text, digits)
		if err != nil {
			return false, nil, err
		}
		parts = append(parts, part{value: value, unit: unit})
	}
	if len(parts) == 0 {
		return false, nil, r.refuse(text, "there is no number in it", "")
	}
	return negative, parts, nil
}

// number reads digits with one decimal mark at most.
func (r request) number(text, digits string) (float64, error) {
	mark := strings.IndexAny(digits, ".,")
	if mark < 0 {
		return r.parse(text, digits)
	}
	whole, decimals := digits[:mark], digits[mark+1:]
	switch {
	case strings.ContainsAny(decimals, ".,"):
		return 0, r.refuse(text, "two marks in one number: separators between thousands are not read",
			"the digits together, with one decimal point or comma at most")
	case decimals == "":
		return 0, r.refuse(text, "no digit follows the decimal mark", "")
	case digits[mark] == ',' && len(decimals) == 3 && strings.Trim(whole, "0") != "":
		return 0, r.refuse(text, "a comma before three digits may part thousands or decimals",
			whole+decimals+" for thousands or "+whole+"."+decimals+" for decimals")
	}
	return r.parse(text, "0"+whole+"."+decimals)
}

func (r request) parse(text, digits string) (float64, error) {
	value, err := strconv.ParseFloat(digits, 64)
	if err != nil {
		return 0, r.refuse(text, "the number cannot be read", "")
	}
	return value, nil
}

func isNumber(c byte) bool { return c >= '0' && c <= '9' || c == '.' || c == ',' }

func isUnit(c byte) bool { return c != ' ' && (c < '0' || c > '9') }

// lengthOf counts the leading bytes of text that belong.
func lengthOf(text string, belongs func(byte) bool) int {
	for i := range len(text) {
		if !belongs(text[i]) {
			return i
		}
	}
	return len(text)
}
