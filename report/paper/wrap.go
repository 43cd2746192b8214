package paper

import (
	"strings"
	"unicode/utf8"
)

const ellipsis = "…"

// wrap breaks a cleaned text into lines no wider than width millimetres. It
// breaks at spaces, after a dash, a stroke or a hyphen without a figure behind it
// inside a word, and within a word that is wider than a line. It never breaks at
// a no-break space.
func wrap(text string, face Face, size, width float64) []string {
	m, limit := face.metrics(), width/(size*pointMM)
	var lines []string
	for {
		text = strings.TrimLeft(text, " ")
		cut := lineEnd(text, m, limit)
		if cut == len(text) {
			return append(lines, strings.TrimRight(text, " "))
		}
		lines = append(lines, strings.TrimRight(text[:cut], " "))
		text = text[cut:]
	}
}

// lineEnd returns how many bytes of the text go on one line of limit ems: at
// least one rune of a text that is not empty.
func lineEnd(text string, m *metrics, limit float64) int {
	room, breakAt, previous := int(limit*1000+0.5), 0, ' '
	for i, r := range text {
		if r == ' ' {
			breakAt = i + 1
		} else if room -= int(m.width[r&0xffff]); room < 0 {
			if breakAt > 0 {
				return breakAt
			}
			return max(i, firstRune(text))
		}
		if r == ' ' {
			room -= int(m.width[' '])
		}
		if end := i + utf8.RuneLen(r); breaksAfter(r) && previous != ' ' && !(r == '-' && beginsFigure(text[end:])) {
			breakAt = end
		}
		previous = r
	}
	return len(text)
}

// breaksAfter reports whether a line may end behind the rune. A sign before a
// figure follows a space, so that it is never torn off.
func breaksAfter(r rune) bool { return r == '-' || r == '–' || r == '—' || r == '/' }

// beginsFigure reports whether a text begins with a figure: a tag such as 6A-01
// stays on one line.
func beginsFigure(text string) bool { return text != "" && text[0] >= '0' && text[0] <= '9' }

// firstRune returns the length in bytes of the first rune.
func firstRune(text string) int {
	_, size := utf8.DecodeRuneInString(text)
	return size
}

// truncate shortens a cleaned text with an ellipsis so that it is no wider than
// width millimetres. A width that takes no letter gives "".
func truncate(text string, face Face, size, width float64) string {
	if face.width(text, size) <= width {
		return text
	}
	m := face.metrics()
	room := int(width/(size*pointMM)*1000) - int(m.em(ellipsis)*1000)
	if room < 0 {
		return ""
	}
	for i, r := range text {
		if room -= int(m.width[r&0xffff]); room < 0 {
			return strings.TrimRight(text[:i], " ") + ellipsis
		}
	}
	return text
}
