package exchange_test

import (
	"archive/zip"
	"bytes"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
	"pgregory.net/rapid"

	"stageloom/model/exchange"
)

func read(t testing.TB, text string) exchange.Document {
	t.Helper()
	d, err := exchange.Read("list.csv", strings.NewReader(text))
	require.NoError(t, err)
	return d
}

func TestAListIsReadWhateverItsEncoding(t *testing.T) {
	text := "Kind,Length,Note\r\nCat 6A,50 m,für Bühne – 2×\r\n"
	want := [][]string{{"Kind", "Length", "Note"}, {"Cat 6A", "50 m", "für Bühne – 2×"}}
	for _, c := range []struct {
		name, encoding string
		data           func() ([]byte, error)
	}{
		{"UTF-8", exchange.UTF8, func() ([]byte, error) { return []byte(text), nil }},
		{"UTF-8 with its mark", exchange.UTF8, func() ([]byte, error) { return []byte("\ufeff" + text), nil }},
		{"UTF-16, little end first, with its mark", exchange.UTF16, func() ([]byte, error) {
			return unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewEncoder().Bytes([]byte(text))
		}},
		{"UTF-16, big end first, with its mark", exchange.UTF16, func() ([]byte, error) {
			return unicode.UTF16(unicode.BigEndian, unicode.UseBOM).NewEncoder().Bytes([]byte(text))
		}},
		{"UTF-16 without a mark", exchange.UTF16, func() ([]byte, error) {
			return unicode.UTF16(unicode.LittleEndian, unicode.IgnoreBOM).NewEncoder().Bytes([]byte(text))
		}},
		{"Windows-1252", exchange.Windows1252, func() ([]byte, error) { return charmap.Windows1252.NewEncoder().Bytes([]byte(text)) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			data, err := c.data()
			require.NoError(t, err)
			d, err := exchange.Read("list.csv", bytes.NewReader(data))
			require.NoError(t, err)
			require.Equal(t, c.encoding, d.Encoding)
			require.Equal(t, want, d.Grids[0].Rows)
			require.Equal(t, "list", d.Grids[0].Name)
		})
	}
}

func TestTheSeparatorIsFoundByItself(t *testing.T) {
	for _, c := range []struct{ name, text, separator, cell string }{
		{"commas", "Kind,Length\nCat 6A,50\n", ",", "50"},
		{"semicolons with decimal commas", "Kind;Length;Loss\nCat 6A;50,5;9,1\nCat 6;20,5;3,2\n", ";", "50,5"},
		{"semicolons, one decimal comma a row, no head", "Cat 6A;50,5;1\nCat 6;20,5;2\n", ";", "20,5"},
		{"tabs with commas in the notes", "Kind\tLength\tNote\nCat 6A\t50\tlong, black\n", "\t", "50"},
		{"a first line that says it", "sep=;\r\nKind;Length\r\na,b;50\r\n", ";", "50"},
		{"commas with a semicolon in quotes", "Kind,Length\n\"a;b\",50\n\"c;d\",50\n", ",", "50"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := read(t, c.text)
			require.Equal(t, c.separator, d.Separator)
			row := d.Grids[0].Rows[1]
			require.Equal(t, c.cell, row[1])
		})
	}
	t.Run("one column has none", func(t *testing.T) {
		require.Equal(t, [][]string{{"12 x 50 m Cat 6A"}, {"3 x 20 m Cat 6"}}, read(t, "12 x 50 m Cat 6A\n3 x 20 m Cat 6\n").Grids[0].Rows)
	})
}

func TestQuotesAreThoseOfSpreadsheets(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       [][]string
	}{
		{"a quoted separator and line end", "a,\"b,\nc\"\nd,e\n", [][]string{{"a", "b,\nc"}, {"d", "e"}}},
		{"quotes in quotes", "\"say \"\"a\"\"\",b\n", [][]string{{`say "a"`, "b"}}},
		{"inches are no quotes", "12' 6\",b\nc,d\n", [][]string{{`12' 6"`, "b"}, {"c", "d"}}},
		{"a blank cell at the end", "a,\nb,c", [][]string{{"a", ""}, {"b", "c"}}},
		{"old line ends", "a,b\rc,d\r", [][]string{{"a", "b"}, {"c", "d"}}},
		{"blank lines count", "a,b\n\nc,d\n\n\n", [][]string{{"a", "b"}, {""}, {"c", "d"}}},
		{"a guarded formula", "'=1+1,'''x\n'-a,b\n", [][]string{{"=1+1", "'''x"}, {"-a", "b"}}},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, read(t, c.text).Grids[0].Rows) })
	}
}

// Go's own encoding/csv (RFC 4180) is the outside reader here.
func TestWellFormedTextIsReadAsByTheStandardReader(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		separator := rapid.SampledFrom([]rune{',', ';', '\t'}).Draw(t, "separator")
		width := rapid.IntRange(2, 5).Draw(t, "width")
		word := rapid.StringMatching(`[a-z0-9 äß"\n;,\t]{0,8}[a-z0-9]`)
		rows := rapid.SliceOfN(rapid.SliceOfN(word, width, width), 3, 8).Draw(t, "rows")
		var text bytes.Buffer
		w := csv.NewWriter(&text)
		w.Comma = separator
		require.NoError(t, w.WriteAll(rows))
		r := csv.NewReader(strings.NewReader(text.String()))
		r.Comma = separator
		want, err := r.ReadAll()
		require.NoError(t, err)
		d, err := exchange.Read("x.csv", strings.NewReader("sep="+string(separator)+"\n"+text.String()))
		require.NoError(t, err)
		require.Equal(t, want, d.Grids[0].Rows)
	})
}

func workbook(t testing.TB, fill func(*excelize.File)) []byte {
	t.Helper()
	f := excelize.NewFile()
	fill(f)
	var b bytes.Buffer
	require.NoError(t, f.Write(&b))
	return b.Bytes()
}

func TestAWorkbookIsReadAsOneSeesItWithItsFullFigures(t *testing.T) {
	data := workbook(t, func(f *excelize.File) {
		set := func(at string, value any, form string) {
			require.NoError(t, f.SetCellValue("Sheet1", at, value))
			if form != "" {
				style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &form})
				require.NoError(t, err)
				require.NoError(t, f.SetCellStyle("Sheet1", at, at, style))
			}
		}
		set("A1", "Kind", "")
		set("B1", "Length", "")
		set("A3", "Cat 6A", "")
		set("B3", 1234.56, "#,##0")
		set("C3", 50, `0" ft"`)
		set("D3", 46560, "dd.mm.yyyy")
		set("E3", true, "")
		_, err := f.NewSheet("Empty")
		require.NoError(t, err)
		_, err = f.NewSheet("Cases")
		require.NoError(t, err)
		require.NoError(t, f.SetCellValue("Cases", "B2", "Case 1"))
	})
	d, err := exchange.Read("stock.xlsx", bytes.NewReader(data))
	require.NoError(t, err)
	require.Len(t, d.Grids, 2)
	require.Equal(t, "Cases", d.Grids[1].Name)
	// 46560 days after 30 December 1899 is 22 June 2027: ECMA-376 part 1, 18.17.4.1, the 1900 date base.
	require.Equal(t, [][]string{{"Kind", "Length"}, nil, {"Cat 6A", "1234.56", "50 ft", "2027-06-22", "TRUE"}}, d.Grids[0].Rows)
	require.Equal(t, []string{"", "Case 1"}, d.Grids[1].Rows[1])
}

func TestFilesThatAreNoListSayWhatTheyAreAndWhatToDo(t *testing.T) {
	good := workbook(t, func(f *excelize.File) { require.NoError(t, f.SetCellValue("Sheet1", "A1", "x")) })
	var other bytes.Buffer
	z := zip.NewWriter(&other)
	for _, file := range [][2]string{{"mimetype", "application/vnd.oasis.opendocument.spreadsheet"}, {"content.xml", "<a/>"}} {
		w, err := z.CreateHeader(&zip.FileHeader{Name: file[0], Method: zip.Store})
		require.NoError(t, err)
		_, err = w.Write([]byte(file[1]))
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	for _, c := range []struct{ name, data, says string }{
		{"nothing", "", "there is nothing in it"},
		{"blank cells alone", ",,\n , \n", "there is nothing in it"},
		{"a picture", "\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR", "no text"},
		{"a PDF", "%PDF-1.7 ...", "it is a PDF"},
		{"an old or locked workbook", "\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1", "save it as .xlsx without a password"},
		{"an OpenDocument sheet", other.String(), "OpenDocument sheet: save it as .xlsx"},
		{"a workbook that is cut off", string(good[:len(good)/2]), "cut off or damaged"},
		{"marked text that is cut off", "\ufeffKind,F\xc3", "cut off or damaged"},
		{"a quote that is never closed", "a,b\nc,\"d\ne,f\n", "row 2 opens a quote"},
		{"a cell without an end", "a,b\nc," + strings.Repeat("x", 5000) + "\n", "row 2, column B"},
		{"too many columns", strings.Repeat("a,", 300) + "b\n", "more than 200 columns"},
		{"too many rows", strings.Repeat("a,b\n", 100_002), "more than 100000 rows"},
		{"too large", strings.Repeat("x", 33<<20), "larger than 32 MB"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := exchange.Read("/somewhere/list.csv", strings.NewReader(c.data))
			require.ErrorContains(t, err, "list.csv cannot be read: ")
			require.ErrorContains(t, err, c.says)
			require.NotContains(t, err.Error(), "somewhere")
		})
	}
}

func TestAWorkbookThatUnpacksWithoutEndIsRefused(t *testing.T) {
	good := workbook(t, func(f *excelize.File) { require.NoError(t, f.SetCellValue("Sheet1", "A1", "x")) })
	old, err := zip.NewReader(bytes.NewReader(good), int64(len(good)))
	require.NoError(t, err)
	var bomb bytes.Buffer
	z := zip.NewWriter(&bomb)
	for _, file := range old.File {
		require.NoError(t, z.Copy(file))
	}
	w, err := z.Create("xl/media/long.xml")
	require.NoError(t, err)
	block := make([]byte, 1<<20)
	for range 130 {
		_, err := w.Write(block)
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	require.Less(t, bomb.Len(), 1<<20)
	_, err = exchange.Read("bomb.xlsx", &bomb)
	require.ErrorContains(t, err, "unpacks to more than 128 MB")
}

func TestADamagedFileIsAnErrorAndNeverACrash(t *testing.T) {
	good := workbook(t, func(f *excelize.File) {
		for i := range 20 {
			require.NoError(t, f.SetCellValue("Sheet1", fmt.Sprintf("A%d", i+1), i))
		}
	})
	rapid.Check(t, func(t *rapid.T) {
		data := slices.Clone(good)
		for range rapid.IntRange(1, 8).Draw(t, "changes") {
			data[rapid.IntRange(0, len(data)-1).Draw(t, "at")] = rapid.Byte().Draw(t, "byte")
		}
		data = data[:rapid.IntRange(0, len(data)).Draw(t, "length")]
		d, err := exchange.Read("x.xlsx", bytes.NewReader(data))
		if err == nil {
			require.NotEmpty(t, d.Grids)
		}
	})
}
