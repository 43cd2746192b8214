package exchange_test

import (
	"archive/zip"
	"encoding/xml"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

const feetWorkbook = "../../testdata/lists/warehouse/tidewater-feet.xlsx"

// part reads one part of a workbook as ECMA-376 has it: an archive of XML.
func part(t *testing.T, name string, into any) {
	t.Helper()
	archive, err := zip.OpenReader(feetWorkbook)
	require.NoError(t, err)
	defer func() { require.NoError(t, archive.Close()) }()
	file, err := archive.Open(name)
	require.NoError(t, err)
	require.NoError(t, xml.NewDecoder(file).Decode(into))
	require.NoError(t, file.Close())
}

// rawWorkbook is the cells of the first sheet, read without the library that the program reads workbooks with.
func rawWorkbook(t *testing.T) (lines [][]string) {
	var shared struct {
		Items []struct {
			Text string `xml:"t"`
		} `xml:"si"`
	}
	var sheet struct {
		Rows []struct {
			Cells []struct {
				Place string `xml:"r,attr"`
				Type  string `xml:"t,attr"`
				Value string `xml:"v"`
			} `xml:"c"`
		} `xml:"sheetData>row"`
	}
	part(t, "xl/sharedStrings.xml", &shared)
	part(t, "xl/worksheets/sheet1.xml", &sheet)
	for _, row := range sheet.Rows {
		line := make([]string, 13)
		for _, cell := range row.Cells {
			value := cell.Value
			if cell.Type == "s" {
				at, err := strconv.Atoi(value)
				require.NoError(t, err)
				value = shared.Items[at].Text
			}
			line[cell.Place[0]-'A'] = value
		}
		lines = append(lines, line)
	}
	return lines
}

func TestAWarehousesWorkbookIsTakenAsItIs(t *testing.T) {
	_, _, book := warehouse(t, feetWorkbook, warehouseMeans)
	require.Empty(t, faults(book.Faults))
	require.Empty(t, book.Unknown)
	byHand := countFeet(t, rawWorkbook(t))
	require.Equal(t, 200, byHand.cables)
	counted(book).near(t, byHand)
	counted(book).near(t, rawFeet(t))
}
