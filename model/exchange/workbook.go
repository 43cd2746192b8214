package exchange

import (
	"bytes"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"
)

// mostUnpacked is how much a workbook may unpack to, in bytes.
const mostUnpacked = 128 << 20

// mostSheets is how many sheets of a workbook are read.
const mostSheets = 50

// readWorkbook reads the sheets of an xlsx file that hold something. The spreadsheet library has crashed on damaged files
// before, so a crash in it is only another file that cannot be read.
func readWorkbook(data []byte) (grids []Grid, err error) {
	defer func() {
		if crash := recover(); crash != nil {
			grids, err = nil, errDamaged
		}
	}()
	f, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{UnzipSizeLimit: mostUnpacked, UnzipXMLSizeLimit: mostUnpacked})
	if err != nil {
		return nil, workbookFault(data, err)
	}
	defer func() { _ = f.Close() }() // it was only read
	names := f.GetSheetList()
	for _, name := range names[:min(len(names), mostSheets)] {
		s := sheetReader{file: f, name: name, dates: map[int]bool{}}
		grid, err := s.grid()
		if err != nil {
			return nil, err
		}
		grid, filled, err := bounded(grid)
		if err != nil {
			return nil, err
		}
		if filled {
			grids = append(grids, grid)
		}
	}
	return grids, nil
}

var errDamaged = errors.New("the workbook is cut off or damaged: open it in a spreadsheet and save it again")

func workbookFault(data []byte, err error) error {
	switch {
	case strings.Contains(err.Error(), "unzip size exceeds"):
		return fmt.Errorf("it unpacks to more than %d MB", mostUnpacked>>20)
	case bytes.Contains(data[:min(len(data), 200)], []byte("opendocument")):
		return errors.New("it is an OpenDocument sheet: save it as .xlsx or CSV")
	}
	return errDamaged
}

// sheetReader reads one sheet; dates remembers which styles show a number as a date.
type sheetReader struct {
	file  *excelize.File
	name  string
	dates map[int]bool
}

func (s *sheetReader) grid() (Grid, error) {
	g := Grid{Name: s.name}
	shown, err := s.file.Rows(s.name)
	if err != nil {
		return g, errDamaged
	}
	defer func() { _ = shown.Close() }() // it was only read
	raw, err := s.file.Rows(s.name)
	if err != nil {
		return g, errDamaged
	}
	defer func() { _ = raw.Close() }() // it was only read
	for shown.Next() && raw.Next() {
		if len(g.Rows) >= mostRows {
			return g, errTooManyRows
		}
		cells, err := shown.Columns()
		if err != nil {
			return g, errDamaged
		}
		figures, err := raw.Columns(excelize.Options{RawCellValue: true})
		if err != nil {
			return g, errDamaged
		}
		cells = cells[:min(len(cells), mostColumns+1)]
		for i := range cells {
			if i < len(figures) && figures[i] != cells[i] {
				cells[i] = s.figure(len(g.Rows)+1, i, cells[i], figures[i])
			}
		}
		g.Rows = append(g.Rows, cells)
	}
	if shown.Error() != nil || raw.Error() != nil {
		return g, errDamaged
	}
	return g, nil
}

// figure is a cell whose figure differs from what is shown: a date in the order year, month, day; the figure itself where only its
// digits and marks are shown otherwise; else what is shown, as in "50 m".
func (s *sheetReader) figure(row, column int, shown, raw string) string {
	value, err := strconv.ParseFloat(raw, 64)
	if err != nil {
		return shown
	}
	if strings.Trim(shown, "0123456789.,'’ \u00a0\u202f+-eE#") == "" && !s.isDate(row, column) {
		return strconv.FormatFloat(value, 'f', -1, 64)
	}
	if s.isDate(row, column) {
		if at, err := excelize.ExcelDateToTime(value, false); err == nil {
			if at.Equal(at.Truncate(24 * time.Hour)) {
				return at.Format(time.DateOnly)
			}
			return at.Format(time.DateTime)
		}
	}
	return shown
}

// isDate tells whether the cell's style shows a number as a day: the number formats 14 to 17 and 22 of ECMA-376 part 1, 18.8.30,
// or one of its own with year and day in it.
func (s *sheetReader) isDate(row, column int) bool {
	style, err := s.file.GetCellStyle(s.name, Letter(column)+strconv.Itoa(row))
	if err != nil {
		return false
	}
	known, found := s.dates[style]
	if found {
		return known
	}
	date := false
	if look, err := s.file.GetStyle(style); err == nil && look != nil {
		date = look.NumFmt >= 14 && look.NumFmt <= 17 || look.NumFmt == 22 || look.NumFmt >= 27 && look.NumFmt <= 31
		if own := look.CustomNumFmt; own != nil {
			form := strings.ToLower(*own)
			date = strings.Contains(form, "yy") && strings.Contains(form, "d")
		}
	}
	s.dates[style] = date
	return date
}
