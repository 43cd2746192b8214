package exchange

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"path"
	"strings"
)

// mostSheets is how many sheets of a workbook are read.
const mostSheets = 50

// workbook is an xlsx file (ECMA-376 part 1, 18) while its sheets are read.
type workbook struct {
	*parts
	at     string
	sheets []sheetPart
	shared []string
	forms  numberForms
	cells  gatherer
}

type sheetPart struct{ name, relation, part string }

// readWorkbook reads the sheets of an xlsx file that hold something. The spreadsheet library, which shows figures as their
// formats have it, has crashed on odd files before, so a crash in it is only another file that cannot be read.
func readWorkbook(data []byte) (grids []Grid, err error) {
	defer func() {
		if crash := recover(); crash != nil {
			grids, err = nil, errDamaged
		}
	}()
	all, err := openParts(data)
	if err != nil {
		return nil, err
	}
	w := &workbook{parts: all, at: "xl/workbook.xml"}
	for _, step := range []func() error{w.find, w.list, w.relate, w.readShared, w.readForms} {
		if err := step(); err != nil {
			return nil, err
		}
	}
	if len(w.sheets) == 0 {
		return nil, w.notOne(data)
	}
	for _, sheet := range w.sheets[:min(len(w.sheets), mostSheets)] {
		if err := w.readSheet(sheet); err != nil {
			return nil, err
		}
		if grid, some := filled(Grid{Name: sheet.name, Rows: w.cells.rows}); some {
			grids = append(grids, grid)
		}
	}
	return grids, nil
}

// notOne says what an archive is that lists no sheets.
func (w *workbook) notOne(data []byte) error {
	switch {
	case bytes.Contains(data[:min(len(data), 200)], []byte("opendocument")):
		return errors.New("it is an OpenDocument sheet: save it as .xlsx or CSV")
	case w.has("xl/workbook.bin"):
		return errors.New("it is a binary workbook (.xlsb): save it as .xlsx or CSV")
	case w.has("[Content_Types].xml"):
		return errDamaged
	}
	return errors.New("it is an archive, and no workbook: unpack it first, or save the list as CSV or xlsx")
}

// find finds the part that lists the sheets.
func (w *workbook) find() error {
	return w.each("_rels/.rels", func(token xml.Token) error {
		if tag, is := token.(xml.StartElement); is && strings.HasSuffix(attribute(tag, "Type"), "/officeDocument") {
			w.at = strings.TrimPrefix(attribute(tag, "Target"), "/")
			return io.EOF
		}
		return nil
	})
}

// list lists the sheets, and learns from which day dates are counted.
func (w *workbook) list() error {
	return w.each(w.at, func(token xml.Token) error {
		tag, is := token.(xml.StartElement)
		switch {
		case !is:
		case tag.Name.Local == "workbookPr":
			w.forms.from1904 = isSet(attribute(tag, "date1904"))
		case tag.Name.Local == "sheet" && len(w.sheets) <= mostSheets:
			w.sheets = append(w.sheets, sheetPart{name: attribute(tag, "name"), relation: attribute(tag, "id")})
		}
		return nil
	})
}

func isSet(text string) bool { return text == "1" || strings.EqualFold(text, "true") }

// relate finds the part of each sheet.
func (w *workbook) relate() error {
	folder, file := path.Split(w.at)
	return w.each(folder+"_rels/"+file+".rels", func(token xml.Token) error {
		tag, is := token.(xml.StartElement)
		if !is || tag.Name.Local != "Relationship" {
			return nil
		}
		target := attribute(tag, "Target")
		if !strings.HasPrefix(target, "/") {
			target = folder + target
		}
		for i := range w.sheets {
			if w.sheets[i].relation == attribute(tag, "Id") && strings.HasSuffix(attribute(tag, "Type"), "/worksheet") {
				w.sheets[i].part = target
			}
		}
		return nil
	})
}

// readShared reads the texts that cells share; of rich text the letters, without how they are read aloud.
func (w *workbook) readShared() error {
	var text bounded
	held, wanted, aloud := 0, false, 0
	return w.each(path.Dir(w.at)+"/sharedStrings.xml", func(token xml.Token) error {
		switch token := token.(type) {
		case xml.StartElement:
			switch token.Name.Local {
			case "si":
				text.reset()
			case "rPh":
				aloud++
			case "t":
				wanted = aloud == 0
			}
		case xml.EndElement:
			switch token.Name.Local {
			case "t":
				wanted = false
			case "rPh":
				aloud--
			case "si":
				next := text.String()
				if held += len(next); held > mostBytes {
					return errTooMuchText
				}
				if w.shared = append(w.shared, next); len(w.shared) > mostCells {
					return errTooManyCells
				}
			}
		case xml.CharData:
			if wanted {
				text.write(token)
			}
		}
		return nil
	})
}

// bounded is a text that is kept no longer than shows that it is too long for a cell.
type bounded struct{ b []byte }

func (t *bounded) reset() { t.b = t.b[:0] }

func (t *bounded) write(more []byte) {
	t.b = append(t.b, more[:min(len(more), longestCell+1-len(t.b))]...)
}

// String is the text, its escaped signs (ECMA-376 part 1, 22.4.2.4) as themselves.
func (t *bounded) String() string { return unescaped(string(t.b)) }
