package exchange

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
)

// guessOld tells which of the older encodings bytes are in that are no UTF-8: nothing in such a file says so, so the one wins
// whose letters make words.
func guessOld(data []byte) string {
	if looksShiftJIS(data) {
		return ShiftJIS
	}
	if plausible(data, charmap.Macintosh) > plausible(data, charmap.Windows1252) {
		return MacRoman
	}
	return Windows1252
}

// looksShiftJIS reports whether all bytes above 0x7F pair up as JIS X 0208 has it, or stand for half-width katakana, and most
// pairs stand beside another: Japanese runs on, where a western letter taken for half a pair stands alone.
func looksShiftJIS(data []byte) bool {
	pairs, beside, last := 0, 0, -2
	for at := 0; at < len(data); at++ {
		switch sign := data[at]; {
		case sign < 0x80:
		case sign >= 0xA1 && sign <= 0xDF:
			pairs++ // a half-width katakana, which stands alone in its byte
			if last == at-1 {
				beside++
			}
			last = at
		case sign == 0x80 || sign == 0xA0 || sign > 0xFC || at+1 == len(data):
			return false
		default:
			if trail := data[at+1]; trail < 0x40 || trail == 0x7F || trail > 0xFC {
				return false
			}
			pairs++
			if last == at-1 {
				beside++
			}
			at++
			last = at
		}
	}
	return pairs > 1 && beside*2 >= pairs
}

// usualSigns stand in lists beside letters and digits.
const usualSigns = "’‘“”–—…•·°×½¼¾€£§²³µΩ«»™®©±\u00a0"

// plausible is how well the bytes above 0x7F read in an encoding: a letter among letters speaks for it; a capital within a
// word, a rare sign within a word and a byte that means nothing speak against it.
func plausible(data []byte, letters *charmap.Charmap) int {
	points := 0
	for at, sign := range data {
		if sign < 0x80 {
			continue
		}
		points += plausibleAt(data, at, letters.DecodeByte(sign))
	}
	return points
}

func plausibleAt(data []byte, at int, sign rune) int {
	before, after := asciiAt(data, at-1), asciiAt(data, at+1)
	switch {
	case sign == utf8.RuneError || sign < 0xA0:
		return -4
	case unicode.IsLower(sign) && sign < 0x180:
		return 1
	case unicode.IsUpper(sign) && sign < 0x180 && !unicode.IsLower(before):
		return 1
	case strings.ContainsRune(usualSigns, sign):
		return 0
	case unicode.IsLetter(before) || unicode.IsLetter(after):
		return -1
	}
	return 0
}

func asciiAt(data []byte, at int) rune {
	if at < 0 || at >= len(data) || data[at] >= 0x80 {
		return ' '
	}
	return rune(data[at])
}

// doubt says that an encoding was guessed, blank where the file itself tells it.
func doubt(data []byte, name string) string {
	switch name {
	case MacRoman, ShiftJIS:
		return fmt.Sprintf("that it is %s is guessed from its letters: look whether the names read right, or choose another encoding", name)
	case Windows1252:
		if plausible(data, charmap.Windows1252) < 0 {
			return fmt.Sprintf("that it is %s is a guess, and some of its letters read oddly: look whether the names are right, or choose another encoding", name)
		}
	}
	return ""
}
