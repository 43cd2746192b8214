package exchange

import (
	"encoding/xml"
	"io"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// sheetCells reads the cells of one sheet (ECMA-376 part 1, 18.3.1.4 and 18.3.1.73).
type sheetCells struct {
	*workbook
	row, column int
	kind        string
	style       int
	text        bounded
	wanted      bool
	aloud       int
	// joined are cells joined into one down a column.
	joined []joint
}

// joint is a column's cells from one row to another, all from 0.
type joint struct{ column, first, last int }

// mostJoints is how many joined cells of a sheet are looked at.
const mostJoints = 10_000

// join notes cells that are joined down a column (ECMA-376 part 1, 18.3.1.55). Cells joined across columns are a title.
func (s *sheetCells) join(place string) {
	from, to, _ := strings.Cut(place, ":")
	first, column, good := placeOf(from)
	last, other, well := placeOf(to)
	if good && well && column == other && last > first && len(s.joined) < mostJoints {
		s.joined = append(s.joined, joint{column, first, last})
	}
}

// spread gives each of the joined cells what they hold together, down to the last row that the sheet has.
func (s *sheetCells) spread() error {
	rows := s.cells.rows
	for _, each := range s.joined {
		if each.first >= len(rows) || each.column >= len(rows[each.first]) || rows[each.first][each.column] == "" {
			continue
		}
		text := rows[each.first][each.column]
		for row := each.first + 1; row <= min(each.last, len(rows)-1); row++ {
			if err := s.cells.put(row, each.column, text); err != nil {
				return err
			}
		}
	}
	return nil
}

func (w *workbook) readSheet(sheet sheetPart) error {
	w.cells.next(sheet.name)
	s := &sheetCells{workbook: w, row: -1}
	if err := w.each(sheet.part, s.token); err != nil {
		return err
	}
	return s.spread()
}

func (s *sheetCells) token(token xml.Token) error {
	switch token := token.(type) {
	case xml.StartElement:
		return s.begin(token)
	case xml.EndElement:
		return s.end(token.Name.Local)
	case xml.CharData:
		if s.wanted {
			s.text.write(token)
		}
	}
	return nil
}

func (s *sheetCells) begin(tag xml.StartElement) error {
	switch tag.Name.Local {
	case "row":
		s.row, s.column = s.row+1, -1
		if at, err := strconv.Atoi(attribute(tag, "r")); err == nil && at > 0 {
			s.row = at - 1
		}
	case "c":
		s.column++
		if row, column, ok := placeOf(attribute(tag, "r")); ok {
			s.row, s.column = row, column
		}
		s.kind = attribute(tag, "t")
		s.style, _ = strconv.Atoi(attribute(tag, "s")) // 0, the usual one, where none is named
		s.text.reset()
	case "mergeCell":
		s.join(attribute(tag, "ref"))
	case "conditionalFormatting", "dataValidations", "hyperlinks", "printOptions", "pageMargins", "pageSetup", "headerFooter", "drawing", "tableParts", "extLst":
		return io.EOF // what is behind the joined cells
	case "rPh":
		s.aloud++
	case "v", "t":
		s.wanted = s.aloud == 0
	}
	return nil
}

func (s *sheetCells) end(name string) error {
	switch name {
	case "v", "t":
		s.wanted = false
	case "rPh":
		s.aloud--
	case "c":
		if len(s.text.b) == 0 || s.row < 0 || s.column < 0 {
			return nil
		}
		text, err := s.value()
		if err != nil || text == "" {
			return err
		}
		return s.cells.put(s.row, s.column, text)
	case "mergeCells":
		return io.EOF
	}
	return nil
}

// value is the cell as one sees it, with its full figures.
func (s *sheetCells) value() (string, error) {
	switch s.kind {
	case "s":
		at, err := strconv.Atoi(strings.TrimSpace(string(s.text.b)))
		if err != nil || at < 0 || at >= len(s.shared) {
			return "", nil
		}
		return s.shared[at], nil
	case "b":
		if isSet(string(s.text.b)) {
			return "TRUE", nil
		}
		return "FALSE", nil
	case "d":
		for _, form := range []string{"2006-01-02T15:04:05", time.RFC3339, time.DateOnly} {
			if at, err := time.Parse(form, string(s.text.b)); err == nil {
				return dayOrTime(at), nil
			}
		}
	case "", "n":
		return s.forms.shown(string(s.text.b), s.style)
	}
	return s.text.String(), nil
}

// placeOf reads "C12" as row 11, column 2, both from 0.
func placeOf(name string) (row, column int, ok bool) {
	at := 0
	for ; at < len(name) && at < 4; at++ {
		letter := name[at] &^ 0x20
		if letter < 'A' || letter > 'Z' {
			break
		}
		column = column*26 + int(letter-'A') + 1
	}
	number, err := strconv.Atoi(name[at:])
	return number - 1, column - 1, err == nil && at > 0 && number > 0
}

var escape = regexp.MustCompile(`_x[0-9A-Fa-f]{4}_`)

func unescaped(text string) string {
	if !strings.Contains(text, "_x") {
		return text
	}
	return escape.ReplaceAllStringFunc(text, func(found string) string {
		sign, _ := strconv.ParseUint(found[2:6], 16, 16) // four digits
		return string(rune(sign))
	})
}
