package exchange

import "strings"

// formulaSigns begin what a spreadsheet takes for a formula when it opens separated text.
// Source: OWASP, "CSV Injection"; the wide forms, which some spreadsheets take alike, are those of Unicode's block of
// half-width and full-width forms.
const formulaSigns = "=+-@\t\r＝＋－＠"

// guarded puts an apostrophe before a text that a spreadsheet would take for a formula, and before one that begins as a
// guarded text does, so that [unguarded] always gives back what was written.
func guarded(text string) string {
	if isGuarded("'" + text) {
		return "'" + text
	}
	return text
}

func unguarded(text string) string {
	if isGuarded(text) {
		return text[1:]
	}
	return text
}

func isGuarded(text string) bool {
	rest := strings.TrimLeft(text, "'")
	return rest != text && strings.IndexAny(rest, formulaSigns) == 0
}
