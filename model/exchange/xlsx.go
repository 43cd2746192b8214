package exchange

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"
)

const (
	longestSheetName = 31
	usualWidth       = 14
	longestXLSXCell  = 32767
)

// WriteXLSX writes a book as a workbook: heads bold and in sight while one scrolls, figures as numbers, every text a plain
// string. The same book gives the same bytes.
func WriteXLSX(w io.Writer, book Book) error {
	if len(book.Sheets) == 0 {
		return fmt.Errorf("a workbook needs a sheet")
	}
	f := excelize.NewFile()
	defer func() { _ = f.Close() }() // nothing of it lies on the disk
	names := map[string]bool{}
	for i, sheet := range book.Sheets {
		name := sheetName(sheet.Name, names)
		var err error
		if i == 0 {
			err = f.SetSheetName("Sheet1", name)
		} else {
			_, err = f.NewSheet(name)
		}
		if err == nil {
			err = writeSheet(f, name, sheet)
		}
		if err != nil {
			return fmt.Errorf("write sheet %q: %w", sheet.Name, err)
		}
	}
	f.SetActiveSheet(0)
	return f.Write(w)
}

// sheetName is a name that workbooks allow and no other sheet bears.
func sheetName(name string, taken map[string]bool) string {
	name = strings.Trim(strings.Map(func(sign rune) rune {
		if strings.ContainsRune(`:\/?*[]`, sign) || sign < ' ' {
			return '-'
		}
		return sign
	}, sound(name)), "' ")
	if name == "" {
		name = "Sheet"
	}
	stem, unique := name, cut(name, longestSheetName)
	for n := 2; taken[strings.ToLower(unique)]; n++ {
		unique = fmt.Sprintf("%s %d", cut(stem, longestSheetName-5), n)
	}
	taken[strings.ToLower(unique)] = true
	return unique
}

func cut(text string, most int) string {
	if utf8.RuneCountInString(text) > most {
		return string([]rune(text)[:most])
	}
	return text
}

func writeSheet(f *excelize.File, name string, sheet Sheet) error {
	styles, err := stylesOf(f, sheet.Columns)
	if err != nil {
		return err
	}
	for i, column := range sheet.Columns {
		width := column.Width
		if width == 0 {
			width = usualWidth
		}
		if err := f.SetColWidth(name, Letter(i), Letter(i), width); err != nil {
			return err
		}
		if err := setText(f, name, place(i, 1), column.Head, styles.head); err != nil {
			return err
		}
	}
	first := 1
	if len(sheet.Columns) > 0 {
		first = 2
		if err := f.SetPanes(name, &excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"}); err != nil {
			return err
		}
	}
	for i, row := range sheet.Rows {
		for j, cell := range row {
			if err := setCell(f, name, place(j, first+i), cell, styles.of(j)); err != nil {
				return err
			}
		}
	}
	return nil
}

func place(column, row int) string { return fmt.Sprintf("%s%d", Letter(column), row) }

type styles struct {
	head    int
	figures []int
}

func (s styles) of(column int) int {
	if column < len(s.figures) {
		return s.figures[column]
	}
	return 0
}

func stylesOf(f *excelize.File, columns []Column) (s styles, err error) {
	if s.head, err = f.NewStyle(&excelize.Style{Font: &excelize.Font{Bold: true}}); err != nil {
		return s, err
	}
	for _, column := range columns {
		form := "General"
		if column.Digits > 0 {
			form = "0." + strings.Repeat("0", column.Digits)
		}
		style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &form})
		if err != nil {
			return s, err
		}
		s.figures = append(s.figures, style)
	}
	return s, nil
}

func setCell(f *excelize.File, sheet, at string, cell Cell, style int) error {
	switch {
	case cell.numeric:
		if err := f.SetCellFloat(sheet, at, cell.figure, -1, 64); err != nil {
			return err
		}
		return f.SetCellStyle(sheet, at, at, style)
	case cell.text == "":
		return nil
	}
	return setText(f, sheet, at, cell.text, 0)
}

func setText(f *excelize.File, sheet, at, text string, style int) error {
	if err := f.SetCellStr(sheet, at, cut(sound(text), longestXLSXCell)); err != nil {
		return err
	}
	if style == 0 {
		return nil
	}
	return f.SetCellStyle(sheet, at, at, style)
}
