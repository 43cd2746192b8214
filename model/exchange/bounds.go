package exchange

import (
	"errors"
	"fmt"
	"strings"

	"stageloom/model/plan"
)

// The bounds of what is read. They are held to while reading, so that a small file that unpacks to much, or says one thing
// often, takes no more memory than they allow.
const (
	mostBytes   = 32 << 20 // of a file, and of the text of all its cells
	mostRows    = 5 * plan.MaxRows
	mostColumns = 200
	mostCells   = 1_000_000
	longestCell = 4000
)

var (
	errTooManyRows  = fmt.Errorf("it has more than %d rows: cut it into several files", mostRows)
	errTooManyCells = fmt.Errorf("it has more than %d cells: take out the columns that the list does not need, or cut it into several files", mostCells)
	errTooMuchText  = fmt.Errorf("its cells hold more than %d MB of text together: cut it into several files", mostBytes>>20)
	errNothing      = errors.New("there is nothing in it")
)

// gatherer gathers the cells of a file within the bounds, whatever the order in which they come.
type gatherer struct {
	sheet        string
	rows         [][]string
	cells, bytes int
}

// next begins another sheet; what was gathered before counts on.
func (g *gatherer) next(sheet string) { g.sheet, g.rows = sheet, nil }

// put puts a text into a row and column, both from 0. Blank cells beyond the bounds are nothing.
func (g *gatherer) put(row, column int, text string) error {
	blank := (column >= mostColumns || row >= mostRows) && strings.TrimSpace(text) == ""
	switch {
	case blank:
		return nil
	case row >= mostRows:
		return errTooManyRows
	case column >= mostColumns:
		return fmt.Errorf("row %d%s has more than %d columns: there is something in column %s; take out what the list does not need",
			row+1, g.of(), mostColumns, Letter(column))
	case len(text) > longestCell:
		return fmt.Errorf("row %d, column %s%s holds more than %d signs: is it cut off, or a quote missing?", row+1, Letter(column), g.of(), longestCell)
	}
	for len(g.rows) <= row {
		g.rows = append(g.rows, nil)
	}
	if more := column + 1 - len(g.rows[row]); more > 0 {
		g.cells += more
		if g.cells > mostCells {
			return errTooManyCells
		}
		g.rows[row] = append(g.rows[row], make([]string, more)...)
	}
	if g.bytes += len(text); g.bytes > mostBytes {
		return errTooMuchText
	}
	g.rows[row][column] = text
	return nil
}

func (g *gatherer) of() string {
	if g.sheet == "" {
		return ""
	}
	return fmt.Sprintf(" of %q", plan.Clipped(g.sheet))
}

// filled takes blank rows off the end of a grid, and reports whether anything is left.
func filled(g Grid) (Grid, bool) {
	last := len(g.Rows)
	for ; last > 0; last-- {
		if strings.TrimSpace(strings.Join(g.Rows[last-1], "")) != "" {
			break
		}
	}
	g.Rows = g.Rows[:last]
	return g, last > 0
}
