package exchange

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"stageloom/model/plan"
)

// The bounds of what is read.
const (
	mostBytes   = 32 << 20
	mostRows    = 5 * plan.MaxRows
	mostColumns = 200
	longestCell = 4000
)

var errTooManyRows = fmt.Errorf("it has more than %d rows: cut it into several files", mostRows)

// Grid is one sheet as text: rows of cells, blank rows included, so that Rows[0] is what a spreadsheet numbers 1.
type Grid struct {
	Name string
	Rows [][]string
}

// Width is the most cells that a row has.
func (g Grid) Width() int {
	width := 0
	for _, row := range g.Rows {
		width = max(width, len(row))
	}
	return width
}

// cell is the cell of a row and column, both from 0, trimmed; blank beyond the row's end.
func (g Grid) cell(row, column int) string {
	if column < 0 || column >= len(g.Rows[row]) {
		return ""
	}
	return strings.TrimSpace(g.Rows[row][column])
}

// Document is a file as grids of text. Encoding and Separator are blank for a workbook.
type Document struct {
	Name      string
	Grids     []Grid
	Encoding  string
	Separator string
}

// Read reads a file of separated text or an xlsx workbook, whichever its bytes say it is; name is for messages and for the
// name of the one grid of a text. A file that is neither, too large, cut off or empty is an error that says so.
func Read(name string, from io.Reader) (Document, error) {
	name = filepath.Base(name)
	d, err := read(name, from)
	if err == nil && len(d.Grids) == 0 {
		err = errors.New("there is nothing in it")
	}
	if err != nil {
		return Document{}, fmt.Errorf("%s cannot be read: %w", name, err)
	}
	return d, nil
}

func read(name string, from io.Reader) (Document, error) {
	data, err := io.ReadAll(io.LimitReader(from, mostBytes+1))
	switch {
	case err != nil:
		return Document{}, err
	case len(data) > mostBytes:
		return Document{}, fmt.Errorf("it is larger than %d MB", mostBytes>>20)
	case bytes.HasPrefix(data, []byte("PK\x03\x04")):
		grids, err := readWorkbook(data)
		return Document{Name: name, Grids: grids}, err
	case bytes.HasPrefix(data, []byte("\xD0\xCF\x11\xE0")):
		return Document{}, errors.New("it is an old .xls workbook or one with a password: save it as .xlsx without a password, or as CSV")
	case bytes.HasPrefix(data, []byte("%PDF")):
		return Document{}, errors.New("it is a PDF: a list is read from CSV or xlsx")
	}
	return readText(name, data)
}

func readText(name string, data []byte) (Document, error) {
	text, encoding, err := decode(data)
	if err != nil {
		return Document{}, err
	}
	separator, text := guessSeparator(text)
	rows, err := separated(text, separator)
	if err != nil {
		return Document{}, err
	}
	for _, row := range rows {
		for i := range row {
			row[i] = unguarded(row[i])
		}
	}
	d := Document{Name: name, Encoding: encoding, Separator: string(separator)}
	grid := Grid{Name: strings.TrimSuffix(name, filepath.Ext(name)), Rows: rows}
	if grid, filled, err := bounded(grid); err != nil {
		return Document{}, err
	} else if filled {
		d.Grids = []Grid{grid}
	}
	return d, nil
}

// bounded refuses a grid with more than we read, takes blank rows off its end, and tells whether anything is left.
func bounded(g Grid) (Grid, bool, error) {
	last := 0
	for i, row := range g.Rows {
		if len(row) > mostColumns && strings.TrimSpace(strings.Join(row[mostColumns:], "")) != "" {
			return g, false, fmt.Errorf("row %d of %q has more than %d columns", i+1, g.Name, mostColumns)
		}
		g.Rows[i] = row[:min(len(row), mostColumns)]
		for j, cell := range g.Rows[i] {
			if len(cell) > longestCell {
				return g, false, fmt.Errorf("row %d, column %s of %q holds more than %d signs: is it cut off, or a quote missing?", i+1, Letter(j), g.Name, longestCell)
			}
			if strings.TrimSpace(cell) != "" {
				last = i + 1
			}
		}
	}
	g.Rows = g.Rows[:last]
	return g, last > 0, nil
}

// Letter names a column, from 0, as spreadsheets do: A, B, … Z, AA.
func Letter(column int) string {
	name := ""
	for column++; column > 0; column = (column - 1) / 26 {
		name = string(rune('A'+(column-1)%26)) + name
	}
	return name
}
