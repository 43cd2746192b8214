package exchange_test

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/exchange"
)

// archive is a workbook written by hand, so that it may hold what no spreadsheet writes.
func archive(t testing.TB, sheet, shared func(io.Writer)) func() []byte {
	return func() []byte { return archived(t, sheet, shared) }
}

func archived(t testing.TB, sheet, shared func(io.Writer)) []byte {
	t.Helper()
	const head = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>`
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	part := func(name string, write func(io.Writer)) {
		w, err := z.Create(name)
		require.NoError(t, err)
		_, err = io.WriteString(w, head)
		require.NoError(t, err)
		write(w)
	}
	text := func(text string) func(io.Writer) { return func(w io.Writer) { _, _ = io.WriteString(w, text) } }
	part("[Content_Types].xml", text(`<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>`))
	part("_rels/.rels", text(`<Relationships><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>`))
	part("xl/workbook.xml", text(`<workbook xmlns:r="r"><sheets><sheet name="Stock" sheetId="1" r:id="rId1"/></sheets></workbook>`))
	part("xl/_rels/workbook.xml.rels", text(`<Relationships><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`))
	part("xl/worksheets/sheet1.xml", func(w io.Writer) {
		text("<worksheet><sheetData>")(w)
		sheet(w)
		text("</sheetData></worksheet>")(w)
	})
	if shared != nil {
		part("xl/sharedStrings.xml", func(w io.Writer) {
			text("<sst>")(w)
			shared(w)
			text("</sst>")(w)
		})
	}
	require.NoError(t, z.Close())
	return b.Bytes()
}

type hostileFile struct {
	data func() []byte
	says string
}

// hostile are small files that once took gigabytes, and what is said of them; blank where they are read.
func hostile(t testing.TB) map[string]hostileFile {
	rows := func(n int, row string) func(io.Writer) {
		return func(w io.Writer) {
			for i := range n {
				_, _ = fmt.Fprintf(w, row, i+1)
			}
		}
	}
	often := func(n int, text string) func(io.Writer) {
		return func(w io.Writer) { _, _ = io.WriteString(w, strings.Repeat(text, n)) }
	}
	long := strings.Repeat("long ", 600)
	return map[string]hostileFile{
		"20,000 rows with one cell in the last column": {
			archive(t, rows(20_000, `<row r="%[1]d"><c r="XFD%[1]d"><v>1</v></c></row>`), nil),
			"row 1 of \"Stock\" has more than 200 columns: there is something in column XFD",
		},
		"20,000 rows with a blank cell in the last column": {
			archive(t, rows(20_000, `<row r="%[1]d"><c r="A%[1]d"><v>1</v></c><c r="XFD%[1]d" s="1"/></row>`), nil), "",
		},
		"one long shared text used often": {
			archive(t, rows(20_000, `<row r="%[1]d"><c t="s"><v>0</v></c><c t="s"><v>0</v></c><c t="s"><v>0</v></c></row>`), often(1, "<si><t>"+long+"</t></si>")),
			"its cells hold more than 32 MB of text together",
		},
		"one shared text of 20 MB": {
			archive(t, rows(1, `<row r="%[1]d"><c t="s"><v>0</v></c></row>`), func(w io.Writer) {
				often(1, "<si>")(w)
				often(40_000, "<r><t>"+strings.Repeat("x", 500)+"</t></r>")(w)
				often(1, "</si>")(w)
			}), "row 1, column A of \"Stock\" holds more than 4000 signs",
		},
		"a sheet of one endless blank": {
			archive(t, often(8<<10, strings.Repeat(" ", 1<<10)), nil), "cut off or damaged",
		},
		"a sheet that names one cell without end": {
			archive(t, often(1_100_000, `<c r="A1" t="n"><v>1</v></c>`), nil), "far more tags than a list has cells",
		},
		"many shared texts of nothing": {
			archive(t, rows(1, `<row r="%d"><c t="s"><v>0</v></c></row>`), often(1_100_000, "<si/>")), "more than 1000000 cells",
		},
		"runs of rich text": {
			archive(t, rows(1, `<row r="%d"><c t="s"><v>0</v></c></row>`), func(w io.Writer) {
				often(1, "<si>")(w)
				often(750_000, "<r><rPr><b/><sz val=\"11\"/></rPr><t>x</t></r>")(w)
				often(1, "</si>")(w)
			}), "far more tags than a list has cells",
		},
		"three million cells": {
			archive(t, rows(20_000, `<row r="%[1]d"><c r="A%[1]d"><v>1</v></c><c r="EZ%[1]d"><v>1</v></c></row>`), nil), "more than 1000000 cells",
		},
		"a row far below":           {archive(t, rows(1, `<row r="1048576"><c r="A1048576"><v>%d</v></c></row>`), nil), "more than 100000 rows"},
		"4 MB of commas":            {times(4<<20, ","), "there is nothing in it"},
		"4 MB of commas in lines":   {times(4<<20/300, strings.Repeat(",", 299)+"\n"), "more than 1000000 cells"},
		"4 MB of commas and a word": {func() []byte { return append(times(4<<20, ",")(), 'x') }, "row 1 has more than 200 columns: there is something in column"},
		"4 MB of lines":             {times(4<<20, "\n"), "there is nothing in it"},
		"4 MB of quotes":            {times(4<<20, `"`), "holds more than 4000 signs"},
		"4 MB of odd letters":       {times(4<<19, "\x80,"), "more than 200 columns"},
	}
}

func times(n int, text string) func() []byte {
	return func() []byte { return bytes.Repeat([]byte(text), n) }
}

func TestASmallFileTakesNoMoreThanTheBoundsAllow(t *testing.T) {
	for name, c := range hostile(t) {
		t.Run(name, func(t *testing.T) {
			d, err := exchange.Read("list", bytes.NewReader(c.data()))
			if c.says != "" {
				require.ErrorContains(t, err, c.says)
				require.Less(t, len(err.Error()), 300)
				return
			}
			require.NoError(t, err)
			cells := 0
			for _, row := range d.Grids[0].Rows {
				cells += cap(row)
			}
			require.LessOrEqual(t, cells, 20_000*2, "what is kept is what is there")
		})
	}
}
