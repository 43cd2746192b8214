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

// Document is a file as grids of text. Encoding and Separator are blank for a workbook. Notices are sentences on what is
// worth a look though all was read: an encoding that is guessed, signs that were left out.
type Document struct {
	Name      string
	Grids     []Grid
	Encoding  string
	Separator string
	Notices   []string
}

// Read reads a file of separated text or an xlsx workbook, whichever its bytes say it is; name is for messages and for the
// name of the one grid of a text. A file that is neither, too large, cut off or empty is an error that says so.
func Read(name string, from io.Reader) (Document, error) { return ReadAs(name, from, "") }

// ReadAs reads a file as [Read] does, its text in the encoding that the user says it is in, blank for the guess.
func ReadAs(name string, from io.Reader, encoding string) (Document, error) {
	name = filepath.Base(name)
	d, err := read(name, from, encoding)
	if err == nil && len(d.Grids) == 0 {
		err = errNothing
	}
	if err != nil {
		return Document{}, fmt.Errorf("%s cannot be read: %w", plan.ClippedTo(name, longestName), err)
	}
	d.straighten()
	return d, nil
}

func read(name string, from io.Reader, encoding string) (Document, error) {
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
	return readText(name, data, encoding)
}

func readText(name string, data []byte, encoding string) (d Document, err error) {
	text, told := "", []string(nil)
	if encoding != "" {
		text, err = decodeAs(data, encoding)
	} else if text, encoding, err = decode(data); err == nil {
		if words := doubt(data, encoding); words != "" {
			told = append(told, words)
		}
	}
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
	d = Document{Name: name, Encoding: encoding, Separator: string(separator), Notices: told}
	if grid, some := filled(Grid{Name: strings.TrimSuffix(name, filepath.Ext(name)), Rows: rows}); some {
		d.Grids = []Grid{grid}
	}
	return d, nil
}

// straighten leaves out of cells what turns the letters behind it round, so that a name reads as it is written, and says so.
func (d *Document) straighten() {
	cells := 0
	for _, grid := range d.Grids {
		for _, row := range grid.Rows {
			for i, cell := range row {
				if strings.IndexFunc(cell, plan.Turns) >= 0 {
					cells++
					row[i] = strings.Map(func(sign rune) rune {
						if plan.Turns(sign) {
							return -1
						}
						return sign
					}, cell)
				}
			}
		}
	}
	switch cells {
	case 0:
	case 1:
		d.Notices = append(d.Notices, "a cell holds signs that are not seen and turn letters round: they are left out")
	default:
		d.Notices = append(d.Notices, fmt.Sprintf("%d cells hold signs that are not seen and turn letters round: they are left out", cells))
	}
}

// Letter names a column, from 0, as spreadsheets do: A, B, … Z, AA.
func Letter(column int) string {
	name := ""
	for column++; column > 0; column = (column - 1) / 26 {
		name = string(rune('A'+(column-1)%26)) + name
	}
	return name
}
