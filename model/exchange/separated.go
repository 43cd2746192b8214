package exchange

import (
	"fmt"
	"strings"
)

// separators are those that are looked for, the least doubtful first.
const separators = "\t;,"

// separated takes text apart into rows of cells, within the bounds. A cell that begins with a quote ends with one, and a
// quote in it stands twice; a quote inside another cell is a sign like any other, as in 12' 6".
func separated(text string, separator byte) ([][]string, error) {
	var all gatherer
	err := eachCell(text, separator, all.put)
	return all.rows, err
}

// eachCell visits the cells of a text, row and column from 0, until visit fails.
func eachCell(text string, separator byte, visit func(row, column int, cell string) error) error {
	row, column := 0, 0
	for at := 0; at < len(text); {
		cell, next, closed := cellAt(text, at, separator)
		if !closed {
			return fmt.Errorf("row %d opens a quote (\") that is never closed: the file is cut off, or the quote is one too many", row+1)
		}
		if err := visit(row, column, cell); err != nil {
			return err
		}
		switch {
		case next < len(text) && text[next] == separator:
			column, at = column+1, next+1
			if at == len(text) {
				return visit(row, column, "")
			}
			continue
		case strings.HasPrefix(text[next:], "\r\n"):
			at = next + 2
		default:
			at = next + 1
		}
		row, column = row+1, 0
	}
	return nil
}

// cellAt reads the cell that begins at a place; next is where its separator or the end of its line stands.
func cellAt(text string, at int, separator byte) (cell string, next int, closed bool) {
	if text[at] != '"' {
		next = cellEnd(text, at, separator)
		return text[at:next], next, true
	}
	var quoted strings.Builder
	for at++; ; at++ {
		end := strings.IndexByte(text[at:], '"')
		if end < 0 {
			return "", at, false
		}
		quoted.WriteString(text[at : at+end])
		at += end + 1
		if at == len(text) || text[at] != '"' {
			break
		}
		quoted.WriteByte('"')
	}
	next = cellEnd(text, at, separator)
	quoted.WriteString(text[at:next])
	return quoted.String(), next, true
}

func cellEnd(text string, at int, separator byte) int {
	for ; at < len(text); at++ {
		if sign := text[at]; sign == separator || sign == '\n' || sign == '\r' {
			break
		}
	}
	return at
}

// mostLooked is how many rows decide on the separator.
const mostLooked = 60

// guessSeparator finds the separator under which the rows agree best in how many cells they have, the most cells among those
// that agree alike. A first line sep=; says it outright, and is taken off.
func guessSeparator(text string) (separator byte, rest string) {
	if first, after, _ := strings.Cut(text, "\n"); len(first) < 8 && strings.HasPrefix(strings.ToLower(first), "sep=") {
		if sign := strings.TrimRight(first[4:], "\r"); len(sign) == 1 && strings.Contains(separators, sign) {
			return sign[0], after
		}
	}
	best, score := byte(','), 0.0
	for i := range len(separators) {
		if got := agreement(text, separators[i]); got > score {
			best, score = separators[i], got
		}
	}
	return best, text
}

// agreement is 0 where the separator parts nothing, else above 1 for the share of rows of the usual width, and a little
// more for each cell.
func agreement(text string, separator byte) float64 {
	widths, filled := map[int]int{}, 0
	width, before := 0, ""
	ended := func() {
		if width > 1 || before != "" {
			widths[width]++
			filled++
		}
	}
	err := eachCell(firstLines(text, mostLooked), separator, func(_, column int, cell string) error {
		if column == 0 {
			ended()
		}
		width, before = column+1, cell
		return nil
	})
	if ended(); err != nil {
		return 0
	}
	usual := 1
	for width, count := range widths {
		if width > 1 && (count > widths[usual] || usual == 1 || count == widths[usual] && width > usual) {
			usual = width
		}
	}
	if usual == 1 {
		return 0
	}
	return float64(widths[usual])/float64(filled) + float64(min(usual, 20))/1000
}

// firstLines cuts a text after some line ends that stand in no quotes.
func firstLines(text string, most int) string {
	quoted := false
	for i := range len(text) {
		switch text[i] {
		case '"':
			quoted = !quoted
		case '\n', '\r':
			if !quoted {
				most--
			}
		}
		if most < 0 {
			return text[:i]
		}
	}
	return text
}
