package panel

import (
	"errors"
	"fmt"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/quantity"
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
func TypedText(link plan.Link, units Units) string {
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
func SetTyped(link *plan.Link, text string, units Units) error {
	text = strings.TrimSpace(text)
	if text == "" {
		link.SetTyped(0, "")
		return nil
	}
	length, words := lengthBefore(text, units)
	words = strings.ToLower(strings.Join(strings.Fields(strings.NewReplacer(",", " ", ";", " ").Replace(words)), " "))
	doubtful := words == doubtWord || strings.HasSuffix(words, " "+doubtWord)
	words = strings.TrimSpace(strings.TrimSuffix(words, doubtWord))
	by, known := typedWords[words]
	if !known {
		return fmt.Errorf("%q does not say who gave the length: write paced, taped or the venue says behind it, for instance 62 m, paced", clipped(words))
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
	link.SetTyped(metres, by)
	link.Doubtful = doubtful
	return nil
}

// lengthBefore cuts a text behind the longest beginning that reads as a length; where none does, all of it is the length.
func lengthBefore(text string, units Units) (length, rest string) {
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

// decimal tells whether a comma stands between digits.
func decimal(text string, at int) bool {
	digit := func(i int) bool { return i >= 0 && i < len(text) && text[i] >= '0' && text[i] <= '9' }
	return digit(at-1) && digit(at+1)
}

// clipped keeps what is quoted short.
func clipped(text string) string {
	const most = 40
	if runes := []rune(text); len(runes) > most {
		return string(runes[:most]) + "…"
	}
	return text
}

// measuredBlank says what holds of a way while no length is typed; give it the budget as shown.
func measuredBlank(b budget.Budget, units Units) string {
	if b.Measured.Source == budget.Unknown {
		return "for instance 62 m, paced"
	}
	return units.Needed(b.Way) + ", " + b.Measured.Words()
}

// slackBlank says which share of the way is taken as slack while the link has none of its own.
func slackBlank(r *budget.Reckoner, link plan.Link) string {
	link.SlackPercent = plan.Optional{}
	return r.Of(link).Measured.PercentWhy()
}
