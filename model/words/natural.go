package words

import (
	"cmp"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Natural compares two names as a reader sorts them: figures by value, so that L2 stands before L10, letters without
// regard to case. Names that differ in case or leading zeros alone follow their bytes, so that no two are equal.
func Natural(a, b string) int {
	x, y := a, b
	for x != "" && y != "" {
		numberX, restX := leadingFigures(x)
		numberY, restY := leadingFigures(y)
		if numberX != "" && numberY != "" {
			if c := compareFigures(numberX, numberY); c != 0 {
				return c
			}
			x, y = restX, restY
			continue
		}
		letterX, widthX := utf8.DecodeRuneInString(x)
		letterY, widthY := utf8.DecodeRuneInString(y)
		if c := cmp.Compare(unicode.ToLower(letterX), unicode.ToLower(letterY)); c != 0 {
			return c
		}
		x, y = x[widthX:], y[widthY:]
	}
	if c := cmp.Compare(len(x), len(y)); c != 0 {
		return c
	}
	return strings.Compare(a, b)
}

func leadingFigures(text string) (figures, rest string) {
	end := 0
	for end < len(text) && text[end] >= '0' && text[end] <= '9' {
		end++
	}
	return text[:end], text[end:]
}

// compareFigures compares whole numbers of any length.
func compareFigures(a, b string) int {
	a, b = strings.TrimLeft(a, "0"), strings.TrimLeft(b, "0")
	if c := cmp.Compare(len(a), len(b)); c != 0 {
		return c
	}
	return strings.Compare(a, b)
}
