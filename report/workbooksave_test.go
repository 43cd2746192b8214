package report_test

import (
	"context"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/report"
)

func TestASpreadsheetIsSavedWholeOrAsAFileForEachSheet(t *testing.T) {
	a := assess.Of(bands(t, 12))
	folder := t.TempDir()
	written, err := report.SaveSpreadsheet(context.Background(), filepath.Join(folder, "show.xlsx"), a)
	require.NoError(t, err)
	require.Equal(t, []string{filepath.Join(folder, "show.xlsx")}, written)
	written, err = report.SaveSpreadsheet(context.Background(), filepath.Join(folder, "show.csv"), a)
	require.NoError(t, err)
	require.Len(t, written, len(report.Spreadsheet(a).Sheets))
	for _, path := range written {
		require.FileExists(t, path)
	}
	require.Contains(t, written, filepath.Join(folder, "show-pull-list.csv"))
	_, err = report.SaveSpreadsheet(context.Background(), filepath.Join(folder, "show.doc"), a)
	require.ErrorContains(t, err, ".xlsx")
	ended, stop := context.WithCancel(context.Background())
	stop()
	for _, name := range []string{"given-up.xlsx", "given-up.csv"} {
		written, err = report.SaveSpreadsheet(ended, filepath.Join(folder, name), a)
		require.ErrorIs(t, err, context.Canceled)
		require.Empty(t, written)
		require.NoFileExists(t, filepath.Join(folder, name))
	}
	_, err = report.SaveSpreadsheet(context.Background(), filepath.Join(folder, "nowhere", "show.xlsx"), a)
	require.Error(t, err)
}

func TestASheetOfLabelsIsReadAsItIsWritten(t *testing.T) {
	for _, paper := range []string{"A4", "Letter"} {
		sheet := report.LabelSheetFor(paper)
		read, err := report.ReadLabelSheet(sheet.String(), paper)
		require.NoError(t, err)
		require.Equal(t, sheet, read)
	}
	for _, text := range []string{"3x8", "a,b,c,d,e,f", "3x8,70x37,0,0.5,0"} {
		_, err := report.ReadLabelSheet(text, "A4")
		require.ErrorContains(t, err, "is no sheet")
	}
}
