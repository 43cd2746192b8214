package report

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"stageloom/model/assess"
	"stageloom/model/atomicfile"
	"stageloom/model/exchange"
)

// SaveSpreadsheet writes Spreadsheet to disk: as a workbook where path ends in .xlsx, as one file for each sheet where it
// ends in .csv (plan.csv gives plan-links.csv …). Each file is whole or as it was before; one that is not begun when ctx
// ends is not written. It returns the files written.
func SaveSpreadsheet(ctx context.Context, path string, a *assess.Assessment) ([]string, error) {
	book := Spreadsheet(a)
	switch strings.ToLower(filepath.Ext(path)) {
	case ".xlsx":
		err := atomicfile.Write(path, func(w io.Writer) error { return exchange.WriteXLSX(untilDone{ctx, w}, book) }, nil)
		if err != nil {
			return nil, err
		}
		return []string{path}, nil
	case ".csv":
		var written []string
		for _, sheet := range book.Sheets {
			name := strings.TrimSuffix(path, filepath.Ext(path)) + "-" + strings.ReplaceAll(strings.ToLower(sheet.Name), " ", "-") + ".csv"
			if err := atomicfile.Write(name, func(w io.Writer) error { return exchange.WriteCSV(untilDone{ctx, w}, sheet, exchange.Comma) }, nil); err != nil {
				return written, err
			}
			written = append(written, name)
		}
		return written, nil
	}
	return nil, fmt.Errorf("%s: a spreadsheet ends in .xlsx, or in .csv for a file for each sheet", path)
}

// untilDone refuses to write once a context has ended, so that the file stays as it was.
type untilDone struct {
	ctx context.Context
	io.Writer
}

// Write implements io.Writer.
func (w untilDone) Write(data []byte) (int, error) {
	if err := w.ctx.Err(); err != nil {
		return 0, err
	}
	return w.Writer.Write(data)
}
