package exchange

import (
	"encoding/xml"
	"fmt"
	"path"
	"strconv"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"
)

const (
	// mostForms are the cell formats of a workbook, longestForm the signs of one, as spreadsheets have them.
	mostForms, longestForm = 65_000, 255
	// mostShown is how many different figures are shown as their formats have it.
	mostShown = 100_000
)

var errTooManyShown = fmt.Errorf("it has more than %d figures in formats of their own: save the list as CSV", mostShown)

// numberForms knows how a workbook shows its figures.
type numberForms struct {
	from1904 bool
	// forms are the number formats of the cells' styles: one of the standard's own by its number, else its code.
	forms []numberForm
	// show is a workbook of one cell, in which the spreadsheet library shows a figure by its format.
	show   *excelize.File
	styles map[numberForm]int
	known  map[figureShown]string
}

type numberForm struct {
	number int
	code   string
}

type figureShown struct {
	form numberForm
	raw  string
}

// readForms reads the number formats of the styles (ECMA-376 part 1, 18.8.10 and 18.8.31).
func (w *workbook) readForms() error {
	codes := map[int]string{}
	cells := false
	return w.each(path.Dir(w.at)+"/styles.xml", func(token xml.Token) error {
		switch token := token.(type) {
		case xml.StartElement:
			number, _ := strconv.Atoi(attribute(token, "numFmtId")) // 0 is the general one
			switch token.Name.Local {
			case "numFmt":
				if code := attribute(token, "formatCode"); len(code) <= longestForm && len(codes) < mostForms {
					codes[number] = code
				}
			case "cellXfs":
				cells = true
			case "xf":
				if cells && len(w.forms.forms) < mostForms {
					w.forms.forms = append(w.forms.forms, numberForm{number, codes[number]})
				}
			}
		case xml.EndElement:
			if token.Name.Local == "cellXfs" {
				cells = false
			}
		}
		return nil
	})
}

// shown is a figure as one takes it from the sheet: a date in the order year, month, day; the figure itself where only its
// digits and marks are shown otherwise; else what is shown, as in "50 m".
func (n *numberForms) shown(raw string, style int) (string, error) {
	value, err := strconv.ParseFloat(raw, 64)
	if err != nil {
		return raw, nil
	}
	form := numberForm{}
	if style > 0 && style < len(n.forms) {
		form = n.forms[style]
	}
	if form.isDate() {
		if at, err := excelize.ExcelDateToTime(value, n.from1904); err == nil {
			return dayOrTime(at), nil
		}
	}
	plain := strconv.FormatFloat(value, 'f', -1, 64)
	if form.isPlain() {
		return plain, nil
	}
	shown, err := n.formatted(figureShown{form, raw}, value)
	if strings.Trim(shown, "0123456789.,'’ \u00a0\u202f+-eE#") == "" {
		return plain, err
	}
	return shown, err
}

// isDate reports whether a figure is shown as a day: the number formats 14 to 17, 22 and 27 to 31 of ECMA-376 part 1, 18.8.30,
// or a code with year and day in it.
func (f numberForm) isDate() bool {
	if f.code != "" {
		code := strings.ToLower(f.code)
		return strings.Contains(code, "yy") && strings.Contains(code, "d")
	}
	return f.number >= 14 && f.number <= 17 || f.number == 22 || f.number >= 27 && f.number <= 31
}

// isPlain tells of formats that show nothing but digits and marks.
func (f numberForm) isPlain() bool {
	if f.code != "" {
		return strings.EqualFold(f.code, "general") || strings.Trim(f.code, "0#?.,_ ") == ""
	}
	return f.number <= 4 || f.number == 11 || f.number == 48
}

func dayOrTime(at time.Time) string {
	if at.Equal(at.Truncate(24 * time.Hour)) {
		return at.Format(time.DateOnly)
	}
	return at.Format(time.DateTime)
}

// formatted asks the spreadsheet library, once for each figure and format.
func (n *numberForms) formatted(asked figureShown, value float64) (string, error) {
	if known, found := n.known[asked]; found {
		return known, nil
	}
	if n.show == nil {
		n.show, n.styles, n.known = excelize.NewFile(), map[numberForm]int{}, map[figureShown]string{}
	}
	if len(n.known) >= mostShown {
		return "", errTooManyShown
	}
	style, found := n.styles[asked.form]
	if !found {
		look := &excelize.Style{NumFmt: asked.form.number}
		if asked.form.code != "" {
			look = &excelize.Style{CustomNumFmt: &asked.form.code}
		}
		var err error
		if style, err = n.show.NewStyle(look); err != nil {
			style = 0 // a format that is none shows the bare figure
		}
		n.styles[asked.form] = style
	}
	const sheet, cell = "Sheet1", "A1"
	shown, err := strconv.FormatFloat(value, 'f', -1, 64), n.show.SetCellValue(sheet, cell, value)
	if err == nil {
		err = n.show.SetCellStyle(sheet, cell, cell, style)
	}
	if err == nil {
		shown, err = n.show.GetCellValue(sheet, cell)
	}
	if err != nil {
		return "", errDamaged
	}
	n.known[asked] = shown
	return shown, nil
}
