package plan

import "strings"

// longestQuote is how many signs of a text a message quotes.
const longestQuote = 40

// Clipped is a text as a message quotes it: as it is, or its first 40 signs and an ellipsis. Every message that repeats what
// a file, a list or a hand gave goes through here, so that no message is as long as what it complains about.
func Clipped(text string) string {
	return ClippedTo(text, longestQuote)
}

// ClippedTo clips a text to another number of signs.
func ClippedTo(text string, most int) string {
	if len(text) <= most {
		return text
	}
	count := 0
	for at := range text {
		if count == most {
			return text[:at] + "…"
		}
		count++
	}
	return text
}

// Turns tells of a sign that it turns the order of the letters behind it, so that a name reads as another: the embeddings,
// overrides and isolates of UAX #9, table 4. The marks of scripts that run leftward turn nothing and may stand.
func Turns(sign rune) bool {
	return sign >= '\u202a' && sign <= '\u202e' || sign >= '\u2066' && sign <= '\u2069'
}

// firstByte begins every sign that Turns tells of in UTF-8, and few others.
const firstByte = 0xe2

// Straight is a text without the signs that Turns tells of.
func Straight(text string) string {
	if strings.IndexByte(text, firstByte) < 0 || strings.IndexFunc(text, Turns) < 0 {
		return text
	}
	return strings.Map(func(sign rune) rune {
		if Turns(sign) {
			return -1
		}
		return sign
	}, text)
}
