package checks

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"stageloom/model/plan"
)

// sameWord reports whether two names are one to a reader.
func sameWord(a, b string) bool { return plan.Folded(a) == plan.Folded(b) }

// mates reports whether two connectors are of one sort, as far as both are stated; what stands in brackets is a byname.
func mates(a, b string) bool {
	a, _, _ = strings.Cut(a, "(")
	b, _, _ = strings.Cut(b, "(")
	return plan.Folded(a) == "" || plan.Folded(b) == "" || sameWord(a, b)
}

// longestQuote is how many characters of what somebody entered a finding repeats.
const longestQuote = 40

// quoted repeats what somebody entered, clipped.
func quoted(text string) string {
	if utf8.RuneCountInString(text) > longestQuote {
		text = string([]rune(text)[:longestQuote-1]) + "…"
	}
	return fmt.Sprintf("%q", text)
}
