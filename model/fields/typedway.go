package fields

import (
	"errors"
	"fmt"
	"strings"

	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/words"
)

// longestWay bounds a typed way in metres, as the plan does.
const longestWay = 20000

// doubtWord stands behind a typed length of which an end moved since.
const doubtWord = "doubtful"

// typedWords are what may be typed behind a length, and who gave it then; doubtful is no one.
var typedWords = map[string]string{
	"": "", "typed": "", "pace": plan.Paced, "paced": plan.Paced, "paces": plan.Paced, "tape": plan.Taped, "taped": plan.Taped,
	"venue": plan.Venue, "venue says": plan.Venue, "the venue": plan.Venue, "the venue says": plan.Venue, "says the venue": plan.Venue,
}

// TypedText is the typed length of a link's way with who gave it: "62 m, paced"; blank where none was typed.
func TypedText(link plan.Link, units words.Units) string {
	if link.TypedWay == 0 {
		return ""
	}
	said := []string{units.Metres(link.TypedWay)}
	if by := map[string]string{plan.Paced: "paced", plan.Taped: "taped", plan.Venue: "the venue says"}[link.TypedBy]; by != "" {
		said = append(said, by)
	}
	if link.Doubtful {
		said = append(said, doubtWord)
	}
	return strings.Join(said, ", ")
}

// SetTyped reads the length of a way with who gave it into a link: "62 m, paced", "203 ft taped", "62, the venue says", "62";
// a blank takes it back. What is typed anew is beyond doubt, unless it says doubtful itself.
func SetTyped(link *plan.Link, text string, units words.Units) error {
	text = strings.TrimSpace(text)
	if text == "" {
		link.SetTyped(0, "")
		return nil
	}
	length, by := lengthBefore(text, units)
	by = strings.ToLower(strings.Join(strings.Fields(strings.NewReplacer(",", " ", ";", " ").Replace(by)), " "))
	doubtful := by == doubtWord || strings.HasSuffix(by, " "+doubtWord)
	by = strings.TrimSpace(strings.TrimSuffix(by, doubtWord))
	who, known := typedWords[by]
	if !known {
		return fmt.Errorf("%q does not say who gave the length: write paced, taped or the venue says behind it, for instance 62 m, paced", plan.Clipped(by))
	}
	metres, err := quantity.ReadLength(strings.TrimSpace(length), units.Length)
	switch {
	case err != nil:
		return err
	case metres > longestWay:
		return fmt.Errorf("a way of more than %s is no way on a site", units.Metres(longestWay))
	case metres < 0.001:
		return errors.New("a way has some length; leave the field blank to measure it on the plan")
	}
	link.SetTyped(metres, who)
	link.Doubtful = doubtful
	return nil
}

// lengthBefore cuts a text behind the longest beginning that reads as a length; where none does, all of it is the length.
func lengthBefore(text string, units words.Units) (length, rest string) {
	var spaced strings.Builder
	for i, r := range text {
		spaced.WriteRune(r)
		if r == ';' || r == ',' && !decimal(text, i) {
			spaced.WriteRune(' ')
		}
	}
	fields := strings.Fields(spaced.String())
	for n := len(fields); n > 0; n-- {
		length = strings.TrimRight(strings.Join(fields[:n], " "), ",;")
		if _, err := quantity.ReadLength(length, units.Length); err == nil {
			return length, strings.Join(fields[n:], " ")
		}
	}
	return text, ""
}

// decimal reports whether a comma stands between digits.
func decimal(text string, at int) bool {
	digit := func(i int) bool { return i >= 0 && i < len(text) && text[i] >= '0' && text[i] <= '9' }
	return digit(at-1) && digit(at+1)
}

func sayTyped(s State, link plan.Link) string { return TypedText(link, s.Units) }

func putTyped(s State, e *plan.Edit, key plan.Key, value string) error {
	var refused error
	err := plan.Update(e, key, func(r *plan.Link) { refused = SetTyped(r, value, s.Units) })
	if refused != nil {
		return refused
	}
	return err
}
