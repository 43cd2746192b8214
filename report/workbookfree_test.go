package report_test

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/exchange"
	"stageloom/report"
)

func TestASpreadsheetReplacesOnlyThatOfAnEarlierPrint(t *testing.T) {
	earlier, now := assess.Of(demo.Weekender()), assess.Of(bands(t, 12))
	folder := t.TempDir()
	at := func(name string) string { return filepath.Join(folder, name) }
	for _, name := range []string{"show.xlsx", "show.csv"} {
		require.NoError(t, report.FreeForSpreadsheet(at(name), now), "nothing is there")
		_, err := report.SaveSpreadsheet(context.Background(), at(name), earlier)
		require.NoError(t, err)
		require.NoError(t, report.FreeForSpreadsheet(at(name), now), "that of an earlier print")
	}
	var stock bytes.Buffer
	require.NoError(t, exchange.WriteXLSX(&stock, exchange.Book{Sheets: []exchange.Sheet{exchange.StockSheet(now.Plan)}}))
	links, err := os.ReadFile(at("show-links.csv"))
	require.NoError(t, err)
	for name, data := range map[string][]byte{"own.xlsx": stock.Bytes(), "text.xlsx": []byte("Dear crew,"), "renamed.xlsx": links} {
		require.NoError(t, os.WriteFile(at(name), data, 0o600))
		require.ErrorContains(t, report.FreeForSpreadsheet(at(name), now), name+" is there already and is not the spreadsheet of a print, so it is not replaced; choose another name")
	}
	require.NoError(t, os.WriteFile(at("show-stock.csv"), []byte("Kind,Length (m)\nCat 6A,50\n"), 0o600))
	require.ErrorContains(t, report.FreeForSpreadsheet(at("show.csv"), now), "show-stock.csv is there already")
	require.NoError(t, report.FreeForSpreadsheet("", now))
	require.ErrorContains(t, report.FreeForSpreadsheet(folder+".doc", now), ".xlsx")
	require.NoError(t, os.Mkdir(at("x.xlsx"), 0o700))
	require.ErrorContains(t, report.FreeForSpreadsheet(at("x.xlsx"), now), "is a folder")
}

func TestAPrintAndItsSpreadsheetAreNotOneFile(t *testing.T) {
	folder, now := t.TempDir(), assess.Of(demo.Weekender())
	at := func(name string) string { return filepath.Join(folder, name) }
	require.NoError(t, os.Mkdir(at("under"), 0o700))
	refused := func(pdf, workbook string) {
		t.Helper()
		require.ErrorContains(t, report.ApartFromSpreadsheet(pdf, workbook, now), "is where the print goes too, and one would replace the other; choose another name")
	}
	refused(at("x.xlsx"), at("x.xlsx"))
	refused(at("x.xlsx"), folder+"/./under/../x.xlsx")
	refused(at("show-links.csv"), at("show.csv"))
	require.NoError(t, report.ApartFromSpreadsheet(at("x.pdf"), at("x.xlsx"), now))
	require.NoError(t, report.ApartFromSpreadsheet(at("x.pdf"), "", now))
	if err := os.Symlink("x.xlsx", at("link.xlsx")); err != nil {
		t.Skip("no links here")
	}
	refused(at("x.xlsx"), at("link.xlsx"))
	require.NoError(t, os.WriteFile(at("x.xlsx"), nil, 0o600))
	require.NoError(t, os.Link(at("x.xlsx"), at("hard.xlsx")))
	refused(at("hard.xlsx"), at("link.xlsx"))
}
