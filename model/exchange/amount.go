package exchange

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"stageloom/model/fields"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/words"
)

// Amount is what "12 x 50 m Cat 6A" says: how many, how long in metres, and the words behind. Quantity is 0 where none
// is written.
type Amount struct {
	Quantity int
	Length   float64
	Rest     string
}

// mostOfOne is the most cables that one row stands for, as the plan has it.
const mostOfOne = 10000

var (
	timesBefore = regexp.MustCompile(`^\s*(\d{1,9})\s*(?:[xX×*]|pcs\.?|of)\s*(.*)$`)
	timesBehind = regexp.MustCompile(`^\s*(.*\D)\s*[xX×*]\s*(\d{1,9})\s*$`)
)

// ReadAmount reads "12 x 50 m", "12×164 ft Cat 6A", "50 m x 12", "50 m" or "50"; a bare length is in the given system.
func ReadAmount(text string, bare quantity.System) (Amount, error) {
	return readAmountIn(text, "", bare)
}

// readAmountIn reads an amount whose length is in a unit that stands elsewhere, blank where none does.
func readAmountIn(text, unit string, bare quantity.System) (Amount, error) {
	a, rest := Amount{}, strings.TrimSpace(text)
	if rest == "" {
		return a, errors.New("nothing is written; write for instance 12 x 50 m")
	}
	if found := timesBefore.FindStringSubmatch(rest); found != nil {
		a.Quantity, _ = strconv.Atoi(found[1]) // nine digits at most
		rest = found[2]
	} else if found := timesBehind.FindStringSubmatch(rest); found != nil {
		a.Quantity, _ = strconv.Atoi(found[2]) // nine digits at most
		rest = found[1]
	}
	if a.Quantity > mostOfOne || a.Quantity == 0 && rest != strings.TrimSpace(text) {
		return a, fmt.Errorf("%q: a row stands for 1 to %d cables", plan.Clipped(text), mostOfOne)
	}
	figure, words := cutLength(rest)
	a.Rest = strings.Trim(words, " ,;:·-–")
	if own := unitOf(figure); unit != "" && own != "" && own != unit {
		return a, fmt.Errorf("%q is in %s, but its unit is %s", plan.Clipped(figure), own, unit)
	}
	metres, err := readLength(inUnit(figure, unit), bare)
	a.Length = metres
	return a, err
}

// unitOf is the unit that stands behind the figure of a length, blank where none does.
func unitOf(length string) string {
	rest := length[figureEnd(length):]
	unit, _ := unitNamed(rest[:unitEnd(rest)])
	return unit
}

// saysUnit reports whether the length of an amount names its unit.
func saysUnit(text string) bool {
	if found := timesBefore.FindStringSubmatch(text); found != nil {
		text = found[2]
	}
	length, _ := cutLength(strings.TrimSpace(text))
	return unitOf(length) != ""
}

// inUnit is a length with a unit that stands elsewhere, where it names none itself.
func inUnit(length, unit string) string {
	if unit == "" || saysUnit(length) {
		return length
	}
	return length + " " + unit
}

// unitWords are what may stand behind the figure of a length; feet may be followed by inches.
var unitWords = strings.Fields(`m metre metres meter meters mm cm km ft foot feet in inch inches yd yard yards ' " ′ ″ ’ ”`)

// cutLength cuts a length off the front of a text: a figure, its unit, and inches behind feet. A text that begins with no
// figure is all length, for its reader to refuse.
func cutLength(text string) (length, rest string) {
	at := figureEnd(text)
	if at == 0 {
		return text, ""
	}
	for range 2 {
		unit := unitEnd(text[at:])
		if unit == 0 {
			break
		}
		at += unit
		inches := len(text[at:]) - len(strings.TrimLeft(text[at:], " "))
		figure := figureEnd(text[at+inches:])
		if figure == 0 || unitEnd(text[at+inches+figure:]) == 0 {
			break
		}
		at += inches + figure
	}
	return strings.TrimRight(text[:at], " ,;:"), text[at:]
}

// figureEnd is how many bytes a text's first figure takes.
func figureEnd(text string) int {
	end := strings.IndexFunc(text, func(sign rune) bool { return !strings.ContainsRune("0123456789.,+-−", sign) })
	if end < 0 {
		return len(text)
	}
	return end
}

// unitEnd is how many bytes the unit at the front of a text takes, with the blanks before it; 0 where none stands there.
func unitEnd(text string) int {
	word := strings.TrimLeft(text, " \u00a0")
	end := strings.IndexFunc(word, func(sign rune) bool { return !unicode.IsLetter(sign) })
	if end < 0 {
		end = len(word)
	}
	if end == 0 {
		_, end = utf8.DecodeRuneInString(word)
	}
	if !slices.Contains(unitWords, strings.ToLower(word[:end])) {
		return 0
	}
	return len(text) - len(word) + end
}

// readLength reads the length of a cable in metres, within what a plan holds.
func readLength(text string, bare quantity.System) (float64, error) {
	return fields.Of(plan.ReelsTable, "length").Parse(words.Units{Length: bare}, text)
}
