package report

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
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
	files, err := spreadsheetFiles(path, book)
	if err != nil {
		return nil, err
	}
	var written []string
	for _, file := range files {
		err := atomicfile.Write(file.path, func(w io.Writer) error {
			if file.whole {
				return exchange.WriteXLSX(untilDone{ctx, w}, book)
			}
			return exchange.WriteCSV(untilDone{ctx, w}, file.sheets[0], exchange.Comma)
		}, nil)
		if err != nil {
			return written, err
		}
		written = append(written, file.path)
	}
	return written, nil
}

// spreadsheetFile is a file to be written: a workbook, whole, or one sheet as separated text.
type spreadsheetFile struct {
	path   string
	sheets []exchange.Sheet
	whole  bool
}

func spreadsheetFiles(path string, book exchange.Book) ([]spreadsheetFile, error) {
	switch strings.ToLower(filepath.Ext(path)) {
	case ".xlsx":
		return []spreadsheetFile{{path, book.Sheets, true}}, nil
	case ".csv":
		var files []spreadsheetFile
		for _, sheet := range book.Sheets {
			name := strings.TrimSuffix(path, filepath.Ext(path)) + "-" + strings.ReplaceAll(strings.ToLower(sheet.Name), " ", "-") + ".csv"
			files = append(files, spreadsheetFile{name, []exchange.Sheet{sheet}, false})
		}
		return files, nil
	}
	return nil, fmt.Errorf("%s: a spreadsheet ends in .xlsx, or in .csv for a file for each sheet", path)
}

// ApartFromSpreadsheet refuses a place for a print that SaveSpreadsheet would then write over, by whatever way it is named.
func ApartFromSpreadsheet(pdf, path string, a *assess.Assessment) error {
	if path == "" {
		return nil
	}
	files, err := spreadsheetFiles(path, Spreadsheet(a))
	if err != nil {
		return err
	}
	for _, file := range files {
		if sameFile(pdf, file.path) {
			return fmt.Errorf("%s is where the print goes too, and one would replace the other; choose another name", file.path)
		}
	}
	return nil
}

// sameFile reports whether two names lead to one file, which need not be there.
func sameFile(a, b string) bool {
	for _, name := range []*string{&a, &b} {
		if absolute, err := filepath.Abs(*name); err == nil {
			*name = absolute
		}
		if target, err := atomicfile.Resolve(*name); err == nil {
			*name = target
		}
	}
	if a == b {
		return true
	}
	one, err := os.Stat(a)
	if err != nil {
		return false
	}
	other, err := os.Stat(b)
	return err == nil && os.SameFile(one, other)
}

// FreeForSpreadsheet reports whether SaveSpreadsheet may write to path, blank for nowhere: nothing is there, or the spreadsheet
// of an earlier print. The error says what is there, and what to do.
func FreeForSpreadsheet(path string, a *assess.Assessment) error {
	if path == "" {
		return nil
	}
	files, err := spreadsheetFiles(path, Spreadsheet(a))
	if err != nil {
		return err
	}
	for _, file := range files {
		if err := file.free(); err != nil {
			return err
		}
	}
	return nil
}

func (f spreadsheetFile) free() error {
	there, info, err := atomicfile.OpenRegular(f.path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case errors.Is(err, atomicfile.ErrNotRegular) && info.IsDir():
		return fmt.Errorf("%s is a folder; write the name of the file too", f.path)
	case errors.Is(err, atomicfile.ErrNotRegular):
		return fmt.Errorf("%s is a pipe or a device; write the name of a file", f.path)
	case err != nil:
		return fmt.Errorf("%s is there and cannot be looked at, so it is not replaced; choose another name: %w", f.path, err)
	}
	defer there.Close() // nothing was written
	if info.Size() == 0 {
		return nil
	}
	if document, err := exchange.Read(f.path, there); err != nil || !f.madeLike(document) {
		return fmt.Errorf("%s is there already and is not the spreadsheet of a print, so it is not replaced; choose another name", f.path)
	}
	return nil
}

// fewestAlike is how many heads of a sheet tell that it is one of ours, though a newer edition may have more of them.
const fewestAlike = 3

// madeLike reports whether a document has the sheets and heads that a print writes.
func (f spreadsheetFile) madeLike(document exchange.Document) bool {
	for i, grid := range document.Grids {
		at := i
		if f.whole {
			at = slices.IndexFunc(f.sheets, func(sheet exchange.Sheet) bool { return sheet.Name == grid.Name })
		}
		if at < 0 || at >= len(f.sheets) || f.whole != (document.Separator == "") {
			return false
		}
		for column, head := range f.sheets[at].Columns[:min(fewestAlike, len(f.sheets[at].Columns))] {
			if column >= len(grid.Rows[0]) || grid.Rows[0][column] != head.Head {
				return false
			}
		}
	}
	return len(document.Grids) > 0
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
