package paper

import (
	"slices"

	"golang.org/x/text/unicode/bidi"
)

// visual puts one cleaned line in the order in which a page that reads left to
// right shows it. It is a simple form of UAX #9 for one level of embedding:
// stretches from the first to the last right-to-left letter are turned round,
// and figures within them turned back. The library's own ordering leaves brackets
// and accents wrong (golang/go issues 72089, 71809 and 50633, open in 2026), so
// that only its classes of letters are used.
func visual(line string) string {
	runes := []rune(line)
	classes := make([]bidi.Class, len(runes))
	found := false
	for i, r := range runes {
		properties, _ := bidi.LookupRune(r)
		classes[i] = properties.Class()
		found = found || leftward(classes[i])
	}
	if !found {
		return line
	}
	for start := 0; start < len(runes); {
		end := stretch(classes, start)
		if end > start {
			turn(runes[start:end], classes[start:end])
		}
		start = max(end, start+1)
	}
	return string(runes)
}

// leftward reports whether letters of the class read right to left.
func leftward(class bidi.Class) bool { return class == bidi.R || class == bidi.AL }

// stretch returns the end of the right-to-left stretch that begins at start: it
// lasts until a left-to-right letter, less what follows its last leftward one.
func stretch(classes []bidi.Class, start int) int {
	if !leftward(classes[start]) {
		return start
	}
	end := start + 1
	for i := start; i < len(classes) && classes[i] != bidi.L; i++ {
		if leftward(classes[i]) || classes[i] == bidi.NSM {
			end = i + 1
		}
	}
	return end
}

// turn reverses a stretch, keeps figures readable, mirrors its brackets and
// leaves accents behind the letter they belong to.
func turn(runes []rune, classes []bidi.Class) {
	slices.Reverse(runes)
	slices.Reverse(classes)
	for i := 0; i < len(runes); {
		end := i + 1
		switch {
		case isFigure(classes[i]):
			for end < len(runes) && (isFigure(classes[end]) || withinFigure(classes, end)) {
				end++
			}
			slices.Reverse(runes[i:end])
		case classes[i] == bidi.NSM:
			for end < len(runes) && classes[end-1] == bidi.NSM {
				end++
			}
			slices.Reverse(runes[i:end])
		default:
			runes[i] = mirrored(runes[i])
		}
		i = end
	}
}

// isFigure reports whether the class is that of a digit.
func isFigure(class bidi.Class) bool { return class == bidi.EN || class == bidi.AN }

// withinFigure reports whether place i is a separator between two digits.
func withinFigure(classes []bidi.Class, i int) bool {
	return (classes[i] == bidi.CS || classes[i] == bidi.ES) &&
		i+1 < len(classes) && isFigure(classes[i+1])
}

// mirrored returns the bracket that closes what r opens, and the reverse.
func mirrored(r rune) rune {
	const pairs = "()[]{}<>«»‹›≤≥"
	runes := []rune(pairs)
	if i := slices.Index(runes, r); i >= 0 {
		return runes[i^1]
	}
	return r
}
