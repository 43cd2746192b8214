package exchange_test

import (
	"archive/zip"
	"bytes"
	"encoding/csv"
	"io"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"

	"stageloom/model/exchange"
)

func csvOf(t testing.TB, sheet exchange.Sheet, form exchange.Form) string {
	t.Helper()
	var b strings.Builder
	require.NoError(t, exchange.WriteCSV(&b, sheet, form))
	return b.String()
}

func xlsxOf(t testing.TB, book exchange.Book) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, exchange.WriteXLSX(&b, book))
	return b.Bytes()
}

// Source: OWASP, "CSV Injection": cells that begin with = + - @, a tab or a carriage return are taken for formulas.
func TestNoTextBecomesAFormula(t *testing.T) {
	for _, text := range []string{"=1+1", "+49 30 1234", "-12 dB", "@SUM(A1)", "\t=1", "\r=1", "=HYPERLINK(\"http://x\")"} {
		sheet := exchange.Sheet{Name: "Notes", Columns: []exchange.Column{{Head: "Note"}}, Rows: [][]exchange.Cell{{exchange.Text(text)}, {exchange.Figure(-5.5)}}}
		for _, form := range []exchange.Form{exchange.Comma, exchange.Semicolon, exchange.Tabs} {
			out := csvOf(t, sheet, form)
			r := csv.NewReader(strings.NewReader(strings.TrimPrefix(out, "\ufeff")))
			r.Comma = rune(form.Separator)
			rows, err := r.ReadAll()
			require.NoError(t, err)
			require.Equal(t, "'"+text, strings.ReplaceAll(rows[1][0], "\n", "\r")[:len(text)+1], "guarded")
			require.Equal(t, "-5", rows[2][0][:2], "a figure stays a figure")
		}
		f, err := excelize.OpenReader(bytes.NewReader(xlsxOf(t, exchange.Book{Sheets: []exchange.Sheet{sheet}})))
		require.NoError(t, err)
		kind, err := f.GetCellType("Notes", "A2")
		require.NoError(t, err)
		require.Contains(t, []excelize.CellType{excelize.CellTypeSharedString, excelize.CellTypeInlineString}, kind)
		formula, err := f.GetCellFormula("Notes", "A2")
		require.NoError(t, err)
		require.Empty(t, formula)
		value, err := f.GetCellValue("Notes", "A3", excelize.Options{RawCellValue: true})
		require.NoError(t, err)
		require.Equal(t, "-5.5", value)
	}
}

func TestNumbersStayNumbersInAWorkbook(t *testing.T) {
	book := exchange.Book{Sheets: []exchange.Sheet{{
		Name: "Links", Columns: []exchange.Column{{Head: "Length (m)", Digits: 1}, {Head: "Joins"}, {Head: "Tag"}},
		Rows: [][]exchange.Cell{{exchange.Figure(49.25), exchange.Count(3), exchange.Text("0123")}, {{}, exchange.Figure(math.NaN()), exchange.Text("")}},
	}}}
	f, err := excelize.OpenReader(bytes.NewReader(xlsxOf(t, book)))
	require.NoError(t, err)
	cell := func(at string, raw bool) string {
		value, err := f.GetCellValue("Links", at, excelize.Options{RawCellValue: raw})
		require.NoError(t, err)
		return value
	}
	require.Equal(t, "49.25", cell("A2", true))
	require.Contains(t, []string{"49.3", "49.2"}, cell("A2", false), "shown with one digit")
	require.Equal(t, "3", cell("B2", false))
	require.Equal(t, "0123", cell("C2", true), "a text of digits keeps its noughts")
	require.Empty(t, cell("A3", true)+cell("B3", true)+cell("C3", true))
}

func TestTheSameBookGivesTheSameBytes(t *testing.T) {
	var book exchange.Book
	for _, name := range []string{"Links", "Stock", "links", "Patch/1 [a]:*?", "", strings.Repeat("long name ", 10), strings.Repeat("long name ", 10)} {
		book.Sheets = append(book.Sheets, exchange.Sheet{Name: name, Columns: []exchange.Column{{Head: "A", Digits: 2}}, Rows: [][]exchange.Cell{{exchange.Figure(1)}}})
	}
	first := xlsxOf(t, book)
	for range 5 {
		require.Equal(t, first, xlsxOf(t, book))
	}
	f, err := excelize.OpenReader(bytes.NewReader(first))
	require.NoError(t, err)
	require.Equal(t, []string{"Links", "Stock", "links 2", "Patch-1 -a----", "Sheet", "long name long name long name l", "long name long name long n 2"}, f.GetSheetList())
	z, err := zip.NewReader(bytes.NewReader(first), int64(len(first)))
	require.NoError(t, err)
	for _, file := range z.File {
		r, err := file.Open()
		require.NoError(t, err)
		text, err := io.ReadAll(r)
		require.NoError(t, err)
		require.NotContains(t, string(text), "<f>", file.Name)
	}
}

var cellText = rapid.OneOf(
	rapid.StringMatching(`['=+@\-]{0,3}[a-zA-Z0-9 äöß€,;"'=\n]{0,12}[a-z]`),
	rapid.Just(""), rapid.SampledFrom([]string{"'", "''=", "=", "\t-", "a\tb", `"`, `""`, `a"b`}),
)

func TestWhatIsWrittenIsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		width := rapid.IntRange(2, 5).Draw(t, "width")
		sheet := exchange.Sheet{Name: "Sheet"}
		want := [][]string{nil}
		for range width {
			sheet.Columns = append(sheet.Columns, exchange.Column{Head: "Head"})
			want[0] = append(want[0], "Head")
		}
		for range rapid.IntRange(1, 6).Draw(t, "rows") {
			var row []exchange.Cell
			var words []string
			for range width {
				cell := exchange.Text(cellText.Draw(t, "text"))
				if rapid.Bool().Draw(t, "numeric") {
					cell = exchange.Figure(float64(rapid.IntRange(-1e9, 1e9).Draw(t, "thousandths")) / 1000)
				}
				row = append(row, cell)
				words = append(words, cell.String())
			}
			row[width-1], words[width-1] = exchange.Text("end"), "end"
			sheet.Rows = append(sheet.Rows, row)
			want = append(want, words)
		}
		for _, form := range []exchange.Form{{}, exchange.Comma, exchange.Tabs} {
			var b bytes.Buffer
			require.NoError(t, exchange.WriteCSV(&b, sheet, form))
			head := ""
			if form.Separator != 0 && !form.Mark {
				head = "sep=\t\n"
			}
			d, err := exchange.Read("x.csv", strings.NewReader(head+b.String()))
			require.NoError(t, err)
			require.Equal(t, want, d.Grids[0].Rows)
		}
		var b bytes.Buffer
		require.NoError(t, exchange.WriteXLSX(&b, exchange.Book{Sheets: []exchange.Sheet{sheet}}))
		d, err := exchange.Read("x.xlsx", &b)
		require.NoError(t, err)
		require.Len(t, d.Grids[0].Rows, len(want))
		for i, row := range d.Grids[0].Rows {
			for j := range row {
				require.Equal(t, want[i][j], row[j])
			}
		}
		rows, err := exchange.PasteTable(exchange.CopyTable(want[0], sheet.Rows))
		require.NoError(t, err)
		require.Equal(t, want, rows)
	})
}

func TestADecimalCommaGoesWithSemicolons(t *testing.T) {
	sheet := exchange.Sheet{Rows: [][]exchange.Cell{{exchange.Figure(1.5), exchange.Text("1.5"), exchange.Text("a;b")}}}
	require.Equal(t, "\ufeff1,5;1.5;\"a;b\"\r\n", csvOf(t, sheet, exchange.Semicolon))
	require.Error(t, exchange.WriteCSV(io.Discard, sheet, exchange.Form{Separator: 'x'}))
	require.Error(t, exchange.WriteXLSX(io.Discard, exchange.Book{}))
}
