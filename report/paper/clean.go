package paper

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

const (
	lacking   = '□' // printed for what can't be; all four faces have it
	mostMarks = 2   // accents stacked on one letter before they reach the next row
	quoted    = 32  // runes of a string repeated in a notice
)

// flaw is one way in which a string is printed otherwise than it was given.
type flaw int

const (
	flawBytes flaw = iota
	flawGlyph
	flawControl
	flawDirection
	flawBreak
	flawMarks
	flawArabic
)

// printable is a string made ready for the page.
type printable struct {
	text  string
	face  Face
	flaws map[flaw][]rune // what was met, at most a few runes of each
}

// fallback is the face that has letters which the other lacks.
var fallback = map[Face]Face{Mono: Bold, Oblique: Regular}

// clean makes any string fit for one line of the page in a face.
func clean(text string, face Face) printable {
	if plain(text) {
		return printable{text: text, face: face}
	}
	p := printable{face: face, flaws: map[flaw][]rune{}}
	kept := p.strip(text)
	if second, ok := fallback[face]; ok && !face.covers(kept) && second.covers(kept) {
		p.face = second
	}
	p.text = p.fill(kept)
	return p
}

// plain reports whether the text is printable ASCII with single spaces, which
// needs no work.
func plain(text string) bool {
	for i := range len(text) {
		if text[i] < ' ' || text[i] > '~' {
			return false
		}
	}
	return true
}

// strip removes what has no place on a page and composes accents.
func (p *printable) strip(text string) string {
	var out strings.Builder
	out.Grow(len(text))
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRuneInString(text[i:])
		if r == utf8.RuneError && size == 1 {
			p.note(flawBytes, r)
			out.WriteRune(lacking)
		} else if kept := p.sift(r); kept != 0 {
			out.WriteRune(kept)
		}
		i += size
	}
	return p.limitMarks(norm.NFC.String(out.String()))
}

// sift returns the rune to keep in place of r, or 0 for none.
func (p *printable) sift(r rune) rune {
	switch {
	case r == '\n' || r == '\r' || r == '\u2028' || r == '\u2029' || r == '\v' || r == '\f':
		p.note(flawBreak, r)
		return ' '
	case r == '\t':
		return ' '
	case isDirection(r):
		p.note(flawDirection, r)
		return 0
	case unicode.IsControl(r):
		p.note(flawControl, r)
		return 0
	case isInvisible(r):
		return 0
	case unicode.In(r, unicode.Arabic, unicode.Syriac, unicode.Nko) && unicode.IsLetter(r):
		p.note(flawArabic, r)
	}
	return r
}

// isDirection reports whether r is a bidirectional control of UAX #9, table 4.
func isDirection(r rune) bool {
	return r == '\u061c' || r == '\u200e' || r == '\u200f' ||
		(r >= '\u202a' && r <= '\u202e') || (r >= '\u2066' && r <= '\u2069')
}

// isInvisible reports whether r is a joiner, selector or tag that only changes
// its neighbours, or the soft hyphen.
func isInvisible(r rune) bool {
	return r == '\u00ad' || (r >= '\u200b' && r <= '\u200d') || (r >= '\u2060' && r <= '\u2064') ||
		(r >= '\ufe00' && r <= '\ufe0f') || r == '\ufeff' || (r >= 0xe0000 && r <= 0xe0fff) ||
		(r >= 0x1f3fb && r <= 0x1f3ff)
}

// limitMarks drops accents beyond a few on one letter, which would run into the
// rows above and below.
func (p *printable) limitMarks(text string) string {
	run := 0
	return strings.Map(func(r rune) rune {
		if !unicode.Is(unicode.Mn, r) {
			run = 0
			return r
		}
		if run++; run > mostMarks {
			p.note(flawMarks, r)
			return -1
		}
		return r
	}, text)
}

// fill puts □ where the face has no glyph.
func (p *printable) fill(text string) string {
	m := p.face.metrics()
	return strings.Map(func(r rune) rune {
		if r == utf8.RuneError {
			p.note(flawBytes, r)
			return lacking
		}
		if !m.has(r) {
			p.note(flawGlyph, r)
			return lacking
		}
		return r
	}, text)
}

// covers reports whether the face can set every rune of the text. Mono sets
// accents beside their letter.
func (f Face) covers(text string) bool {
	m := f.metrics()
	for _, r := range text {
		if !m.has(r) || (f == Mono && unicode.Is(unicode.Mn, r)) {
			return false
		}
	}
	return true
}

// note remembers a flaw and the rune that brought it.
func (p *printable) note(kind flaw, r rune) {
	const most = 4
	if met := p.flaws[kind]; len(met) < most && !slices.Contains(met, r) {
		p.flaws[kind] = append(met, r)
	}
}

// cut returns the text shortened to a width, with an ellipsis.
func (p printable) cut(size, width float64) string {
	return truncate(p.text, p.face, size, width)
}

// sentences says what was changed in the string, in a fixed order.
func (p *printable) sentences() []string {
	var out []string
	for kind := flawBytes; kind <= flawArabic; kind++ {
		if met, ok := p.flaws[kind]; ok {
			out = append(out, kind.words(met))
		}
	}
	return out
}

// words says what was changed in a string.
func (kind flaw) words(met []rune) string {
	switch kind {
	case flawBytes:
		return "bytes that are not text (UTF-8) are printed as □"
	case flawGlyph:
		return "characters this typeface lacks (" + codePoints(met) + ") are printed as □"
	case flawControl:
		return "control characters (" + codePoints(met) + ") are left out"
	case flawDirection:
		return "direction controls (" + codePoints(met) + ") are left out"
	case flawBreak:
		return "line breaks are printed as spaces"
	case flawMarks:
		return fmt.Sprintf("more than %d accents on one letter are left out", mostMarks)
	default:
		return "right-to-left letters are printed in reading order but not joined"
	}
}

// codePoints lists runes as U+0041 does.
func codePoints(runes []rune) string {
	words := make([]string, len(runes))
	for i, r := range runes {
		words[i] = fmt.Sprintf("%U", r)
	}
	return strings.Join(words, " ")
}

// quote returns the beginning of a string in quotation marks.
func quote(text string) string {
	text = strings.TrimSpace(text)
	if text == "" {
		return "A text without letters"
	}
	if runes := []rune(text); len(runes) > quoted {
		text = string(runes[:quoted]) + "…"
	}
	return "“" + text + "”"
}
