package exchange_test

import (
	"archive/zip"
	"bytes"
	"encoding/csv"
	"encoding/xml"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/text/encoding/charmap"

	"stageloom/model/catalogue"
	"stageloom/model/exchange"
	"stageloom/model/goldentest"
	"stageloom/model/patch"
	"stageloom/model/plan"
)

// bands are the lists of invented bands, with the separator that the independent reader takes them apart by.
var bands = map[string]rune{
	"harvest-brass.csv": ';', "waldkapelle-1252.tsv": '\t', "bal-perdu-1252.csv": ';', "stereo-tide.csv": ',', "northern-lamps.csv": ',',
	"gaps-and-spares.csv": ';', "names-only.txt": '\t', "line-and-multi.csv": ';', "two-languages.csv": ';', "notes-below.csv": ';',
	"quoted-commas.csv": ',', "guest-of-honour.csv": ';', "meadow-larks.xlsx": 0,
}

func TestListsOfBandsAreUnderstoodAndEachRowIsTakenOrTold(t *testing.T) {
	folder := filepath.Join("..", "..", "testdata", "lists", "bands")
	there, err := filepath.Glob(filepath.Join(folder, "*.[ctx]*[vxt]"))
	require.NoError(t, err)
	require.Len(t, there, len(bands), "each list is looked at")
	p := stageOfBands(t)
	for name, separator := range bands {
		t.Run(name, func(t *testing.T) {
			data, err := os.ReadFile(filepath.Join(folder, name))
			require.NoError(t, err)
			d := document(t, name, data)
			in := listFor(p, "", d.Grids[0])
			layout := exchange.Guess(d.Grids[0], exchange.InputFieldsOf(patch.Of(p)))
			goldentest.Text(t, filepath.Join(folder, name+".golden"), understood(t, p, d, layout, in))
			filled := rowsOfSheet(t, data)
			if separator != 0 {
				filled = rowsOfText(t, name, data, separator)
			}
			require.NotEmpty(t, filled)
			told := map[int]bool{layout.Head: true}
			for _, fault := range append(append([]exchange.Fault{}, in.Faults...), in.Told...) {
				told[fault.Row] = true
			}
			for _, row := range in.Rows {
				told[row.Row] = true
			}
			for _, row := range filled {
				require.True(t, told[row], "row %d is neither taken nor told", row)
			}
		})
	}
}

// stageOfBands is a plan with what the lists name.
func stageOfBands(t testing.TB) *plan.Plan {
	t.Helper()
	p, err := plan.Do(club(t, "FOH"), plan.NewIDSource(5, 6), func(e *plan.Edit) error {
		e.AddDevice(plan.Device{Name: "Drums", Kind: "sub-snake-12-4"})
		return catalogue.Use(e, "sub-snake-12-4")
	})
	require.NoError(t, err)
	return p
}

// understood says all that is made of a list.
func understood(t testing.TB, p *plan.Plan, d exchange.Document, layout exchange.Layout, in exchange.Inputs) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s, separated by %q, head in row %d\n", d.Encoding, d.Separator, layout.Head)
	for _, notice := range d.Notices {
		fmt.Fprintf(&b, "notice: %s\n", notice)
	}
	fmt.Fprintf(&b, "columns: %s\n\n", strings.Join(layout.Fields, " | "))
	for _, row := range in.Rows {
		i := row.Input
		fmt.Fprintf(&b, "row %d: %d %s | %s | %s | 48 V %v | %s | %s | %q\n", row.Row, i.Number, i.Name, i.Source, i.Use, i.Phantom, i.Stand, i.Riser, i.Note)
	}
	outcome := in.Outcome(p, "")
	for _, part := range []struct {
		title string
		lines []string
	}{{"faults", faults(in.Faults)}, {"told", faults(in.Told)}, {"not patched", faults(outcome.Patching.Left)}} {
		fmt.Fprintf(&b, "\n%s\n", part.title)
		for _, line := range part.lines {
			fmt.Fprintf(&b, "- %s\n", line)
		}
	}
	fmt.Fprintf(&b, "\nin the plan\n")
	for _, change := range outcome.Changes {
		fmt.Fprintf(&b, "- %s\n", change)
	}
	fmt.Fprintf(&b, "\nnotes and sub-snakes there\n")
	next := imported(t, p, "", in.GoodOnly())
	for input := range next.Inputs.All() {
		if input.Note != "" || input.Snake != "" {
			fmt.Fprintf(&b, "- %d %s: %q, socket %d\n", input.Number, input.Name, input.Note, input.SnakeWay)
		}
	}
	return b.String()
}

// rowsOfText are the rows with something in them, read by the library for separated text and none of the room's own. A row
// counts as the room counts it: a cell of two lines is in one row.
func rowsOfText(t testing.TB, name string, data []byte, separator rune) (rows []int) {
	t.Helper()
	if strings.Contains(name, "1252") {
		text, err := charmap.Windows1252.NewDecoder().Bytes(data)
		require.NoError(t, err)
		data = text
	}
	r := csv.NewReader(bytes.NewReader(data))
	r.Comma, r.FieldsPerRecord, r.LazyQuotes = separator, -1, false
	blank, last := 0, 0 // the library leaves out blank lines, and cells hold some
	for number := 1; ; number++ {
		cells, err := r.Read()
		if err == io.EOF {
			return rows
		}
		require.NoError(t, err)
		line, _ := r.FieldPos(0)
		blank += max(0, line-last-1)
		last = line + strings.Count(strings.Join(cells, ""), "\n")
		if strings.TrimSpace(strings.Join(cells, "")) != "" {
			rows = append(rows, number+blank)
		}
	}
}

// rowsOfSheet are the rows with a cell in the markup of a workbook's first sheet.
func rowsOfSheet(t testing.TB, data []byte) (rows []int) {
	t.Helper()
	archive, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil
	}
	part, err := archive.Open("xl/worksheets/sheet1.xml")
	require.NoError(t, err)
	defer func() { _ = part.Close() }()
	var sheet struct {
		Rows []struct {
			Number string `xml:"r,attr"`
			Cells  []struct {
				Value string `xml:"v"`
			} `xml:"c"`
		} `xml:"sheetData>row"`
	}
	require.NoError(t, xml.NewDecoder(part).Decode(&sheet))
	for _, row := range sheet.Rows {
		for _, cell := range row.Cells {
			if cell.Value != "" {
				number, err := strconv.Atoi(row.Number)
				require.NoError(t, err)
				rows = append(rows, number)
				break
			}
		}
	}
	return rows
}
