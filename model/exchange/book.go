package exchange

import (
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Book is what is written: named sheets of typed columns.
type Book struct{ Sheets []Sheet }

// Sheet is one sheet: its columns, and rows of as many cells.
type Sheet struct {
	Name    string
	Columns []Column
	Rows    [][]Cell
}

// Column is the head of a column and how its cells are shown: Width in signs (0 for a usual one), Digits behind the point
// of its figures in a workbook (separated text holds them in full).
type Column struct {
	Head   string
	Width  float64
	Digits int
}

// Cell is a text, a figure or blank. The zero Cell is blank.
type Cell struct {
	text    string
	figure  float64
	numeric bool
}

// Text is a cell of text, which no spreadsheet takes for a formula or a figure.
func Text(text string) Cell { return Cell{text: text} }

// Figure is a cell of a number; one that is not finite is blank.
func Figure(value float64) Cell {
	if math.IsNaN(value) || math.IsInf(value, 0) {
		return Cell{}
	}
	return Cell{figure: value, numeric: true}
}

// Count is a cell of a whole number.
func Count(n int) Cell { return Figure(float64(n)) }

// Optional is a cell of the figure where it is set, else a blank one.
func Optional(value float64, set bool) Cell {
	if !set {
		return Cell{}
	}
	return Figure(value)
}

// String is the cell as separated text shows it, unguarded, with a point before decimals.
func (c Cell) String() string {
	if c.numeric {
		return strconv.FormatFloat(c.figure, 'f', -1, 64)
	}
	return c.text
}

// Form is how separated text is written. The zero Form is comma, point and UTF-8 without a mark.
type Form struct {
	// Separator is ',', ';' or '\t'.
	Separator byte
	// DecimalComma writes 1,5 for one and a half.
	DecimalComma bool
	// Mark puts the byte order mark in front by which older spreadsheets know UTF-8.
	Mark bool
}

// Separations by what a spreadsheet expects where it is used, and for the clipboard.
var (
	Comma     = Form{Separator: ',', Mark: true}
	Semicolon = Form{Separator: ';', DecimalComma: true, Mark: true}
	Tabs      = Form{Separator: '\t'}
)

// WriteCSV writes one sheet as separated text, its head first, lines ended as RFC 4180 has it.
func WriteCSV(w io.Writer, sheet Sheet, form Form) error {
	if form.Separator == 0 {
		form.Separator = ','
	}
	if strings.IndexByte(separators, form.Separator) < 0 {
		return fmt.Errorf("%q separates no cells", form.Separator)
	}
	var b strings.Builder
	if form.Mark {
		b.WriteString("\ufeff")
	}
	heads := make([]Cell, len(sheet.Columns))
	for i, column := range sheet.Columns {
		heads[i] = Text(column.Head)
	}
	if len(heads) > 0 {
		form.row(&b, heads)
	}
	for _, row := range sheet.Rows {
		form.row(&b, row)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func (f Form) row(b *strings.Builder, cells []Cell) {
	for i, cell := range cells {
		if i > 0 {
			b.WriteByte(f.Separator)
		}
		b.WriteString(f.cell(cell, len(cells) == 1))
	}
	b.WriteString("\r\n")
}

// cell is a cell between its separators; the only cell of a row is quoted when blank, so that the row is no blank line.
func (f Form) cell(c Cell, alone bool) string {
	text := c.String()
	if c.numeric && f.DecimalComma {
		text = strings.Replace(text, ".", ",", 1)
	}
	if !c.numeric {
		text = guarded(sound(text))
	}
	if text == "" && !alone {
		return ""
	}
	parting := string(f.Separator)
	if !c.numeric {
		parting = separators // the spreadsheet that opens it may take another one
	}
	if text == "" || strings.ContainsAny(text, "\"\r\n"+parting) || text != strings.TrimSpace(text) {
		return `"` + strings.ReplaceAll(text, `"`, `""`) + `"`
	}
	return text
}

// sound is a text without the signs that neither text files nor XML 1.0 hold.
func sound(text string) string {
	return strings.Map(func(sign rune) rune {
		if sign < ' ' && sign != '\n' && sign != '\t' && sign != '\r' || sign == utf8.RuneError || sign == 0xFFFE || sign == 0xFFFF {
			return -1
		}
		return sign
	}, text)
}

// CopyTable writes the cells of a table for the clipboard, as spreadsheets exchange them.
func CopyTable(heads []string, rows [][]Cell) string {
	var b strings.Builder
	sheet := Sheet{Rows: rows}
	for _, head := range heads {
		sheet.Columns = append(sheet.Columns, Column{Head: head})
	}
	_ = WriteCSV(&b, sheet, Tabs) // a builder takes everything
	return b.String()
}

// PasteTable reads the cells that a spreadsheet put on the clipboard.
func PasteTable(text string) ([][]string, error) {
	if len(text) > mostBytes {
		return nil, errors.New("the clipboard holds too much for a table")
	}
	rows, err := separated(strings.TrimPrefix(text, "\ufeff"), '\t')
	if err != nil {
		return nil, fmt.Errorf("the clipboard cannot be read as a table: %w", err)
	}
	for _, row := range rows {
		for i := range row {
			row[i] = unguarded(row[i])
		}
	}
	return rows, nil
}
