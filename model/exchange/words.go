package exchange

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"
	"unicode"

	"stageloom/model/fields"
	"stageloom/model/plan"
)

// Fault says why a cell, or a row where Column is blank, cannot be taken.
type Fault struct {
	// Row is the row's number in the sheet, from 1.
	Row int
	// Column is the column's letter, Head its head.
	Column, Head string
	Words        string
}

// String tells where and what: `row 12, column C "Length": …`.
func (f Fault) String() string {
	where := fmt.Sprintf("row %d", f.Row)
	if f.Column != "" {
		where += ", column " + f.Column
	}
	if f.Head != "" {
		where += fmt.Sprintf(" %q", plan.Clipped(f.Head))
	}
	return where + ": " + f.Words
}

var wholeNumber = regexp.MustCompile(`^(\d{1,9})(?:[.,]0+)?\s*(?:x|×|pcs\.?|pc\.?|off)?$`)

// readCount reads a whole number such as "12", "12.0" or "12 pcs".
func readCount(text string, low, high int) (int, error) {
	count, err := strconv.Atoi(figuresOf(text))
	if err != nil || count < low || count > high {
		return 0, fmt.Errorf("%q is no whole number from %d to %d", plan.Clipped(text), low, high)
	}
	return count, nil
}

// wholeOf reads a count as the field of the plan does that a column is.
func (r *sheetRows) wholeOf(field string) func(string) (int, error) {
	return func(text string) (int, error) { return r.field(field).Whole(figuresOf(text)) }
}

// figuresOf are the figures of a count, without what may stand behind them; another text stays.
func figuresOf(text string) string {
	if found := wholeNumber.FindStringSubmatch(strings.ToLower(text)); found != nil {
		return found[1]
	}
	return text
}

func isCount(text string) bool {
	_, err := readCount(text, 0, 1e9)
	return err == nil
}

// plain makes words comparable: letters and digits alone, small.
func plain(text string) string {
	return strings.Map(func(sign rune) rune {
		if unicode.IsLetter(sign) || unicode.IsDigit(sign) {
			return unicode.ToLower(sign)
		}
		return -1
	}, text)
}

var (
	yes = strings.Fields("x yes y true 1 on 48 48v p48 phantom ja oui si ✓ ✔ √ +48 +48v")
	no  = strings.Fields("- – — no n false 0 off none nein non")
)

// readYes reads whether a cell says yes: 48 V, x, yes; blank and no are no.
func readYes(text string) (bool, error) {
	word := strings.ToLower(strings.ReplaceAll(text, " ", ""))
	if word == "" {
		return false, nil
	}
	for _, each := range yes {
		if word == each {
			return true, nil
		}
	}
	for _, each := range no {
		if word == each {
			return false, nil
		}
	}
	return false, fmt.Errorf("%q is neither yes nor no", plan.Clipped(text))
}

func isYesOrNo(text string) bool {
	_, err := readYes(text)
	return err == nil
}

var day = regexp.MustCompile(`^(\d{1,4})([./-])(\d{1,2})([./-])(\d{1,4})$`)

var errDay = errors.New("write the day as year-month-day, for instance 2027-06-22")

// readDay reads a day and returns it as 2027-06-22. With points it is day.month.year, as where points are used; with
// strokes the day or the month must tell itself by being more than 12.
func readDay(text string) (string, error) {
	if at, err := time.Parse(time.DateTime, text); err == nil {
		return at.Format(time.DateOnly), nil
	}
	found := day.FindStringSubmatch(text)
	if found == nil || found[2] != found[4] {
		return "", fmt.Errorf("%q is no day that is understood: %w", plan.Clipped(text), errDay)
	}
	year, month, date, sure := dayParts(found)
	if !sure {
		return "", fmt.Errorf("%q may be two days, by which of them comes first: %w", text, errDay)
	}
	at := time.Date(year, time.Month(month), date, 0, 0, 0, 0, time.UTC)
	if at.Day() != date || int(at.Month()) != month || year < 1990 || year > 2200 {
		if _, err := fields.Of(plan.ReelsTable, "return").Words(text); err != nil {
			return "", err
		}
		return "", fmt.Errorf("%q is no day: %w", text, errDay)
	}
	return at.Format(time.DateOnly), nil
}

// dayParts takes a day's three figures apart; sure is false where either could be the month.
func dayParts(found []string) (year, month, date int, sure bool) {
	a, _ := strconv.Atoi(found[1]) // four digits at most
	b, _ := strconv.Atoi(found[3])
	c, _ := strconv.Atoi(found[5])
	if len(found[1]) == 4 {
		return a, b, c, true
	}
	if len(found[5]) <= 2 {
		c += 2000
	}
	if found[2] == "/" && b > 12 {
		return c, a, b, true
	}
	return c, b, a, found[2] != "/" || a > 12 || a == b
}
