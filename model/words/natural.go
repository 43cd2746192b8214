package words

import (
	"cmp"
	"slices"
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

// SortNatural sorts rows by a name of each in natural order, and rows of one name by the other order. It reads each name
// once, which for many rows costs far less than Natural at each comparison.
func SortNatural[T any](rows []T, name func(*T) string, then func(a, b *T) int) {
	type keyed struct {
		key, name string
		at        int
	}
	var text []byte
	order := make([]keyed, len(rows))
	ends := make([]int, len(rows))
	for i := range rows {
		order[i] = keyed{name: name(&rows[i]), at: i}
		text = appendNaturalKey(text, order[i].name)
		ends[i] = len(text)
	}
	keys, start := string(text), 0
	for i, end := range ends {
		order[i].key, start = keys[start:end], end
	}
	slices.SortFunc(order, func(a, b keyed) int {
		if c := cmp.Or(strings.Compare(a.key, b.key), strings.Compare(a.name, b.name)); c != 0 {
			return c
		}
		return cmp.Or(then(&rows[a.at], &rows[b.at]), cmp.Compare(a.at, b.at))
	})
	sorted := make([]T, len(rows))
	for i := range order {
		sorted[i] = rows[order[i].at]
	}
	copy(rows, sorted)
}

// appendNaturalKey appends what compares byte by byte as Natural compares: letters in lower case; a number as a nought, how
// many figures it has without leading noughts, and those.
func appendNaturalKey(key []byte, name string) []byte {
	for name != "" {
		if figures, rest := leadingFigures(name); figures != "" {
			figures = strings.TrimLeft(figures, "0")
			key = append(key, '0')
			count := len(figures)
			for ; count >= 255; count -= 255 {
				key = append(key, 255)
			}
			key = append(append(key, byte(count)), figures...)
			name = rest
			continue
		}
		if plain := name[0]; plain < utf8.RuneSelf {
			if plain >= 'A' && plain <= 'Z' {
				plain += 'a' - 'A'
			}
			key, name = append(key, plain), name[1:]
			continue
		}
		letter, width := utf8.DecodeRuneInString(name)
		key = utf8.AppendRune(key, unicode.ToLower(letter))
		name = name[width:]
	}
	return key
}
