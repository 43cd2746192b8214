package exchange_test

import (
	"bytes"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/exchange"
)

// longList is a stock list of 10,000 rows as a sheet.
func longList() exchange.Sheet {
	sheet := exchange.Sheet{Name: "Stock", Columns: []exchange.Column{{Head: exchange.Kind}, {Head: exchange.Length + " (m)", Digits: 1}, {Head: exchange.Tag}, {Head: exchange.CaseName}}}
	for i := range 10_000 {
		sheet.Rows = append(sheet.Rows, []exchange.Cell{exchange.Text("Cat 6A"), exchange.Count(5 + i%95), exchange.Text(fmt.Sprintf("T%05d", i)), exchange.Text(fmt.Sprintf("Case %d", i%40))})
	}
	return sheet
}

func BenchmarkReadingTenThousandRows(b *testing.B) {
	sheet := longList()
	var xlsx, csv bytes.Buffer
	require.NoError(b, exchange.WriteXLSX(&xlsx, exchange.Book{Sheets: []exchange.Sheet{sheet}}))
	require.NoError(b, exchange.WriteCSV(&csv, sheet, exchange.Comma))
	for name, data := range map[string][]byte{"xlsx": xlsx.Bytes(), "csv": csv.Bytes()} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				d, err := exchange.Read("x", bytes.NewReader(data))
				require.NoError(b, err)
				grid := d.Grids[0]
				s := exchange.ReadStock(grid, exchange.Guess(grid, exchange.StockFields()), options)
				require.Len(b, s.Rows, 10_000)
			}
		})
	}
}

func BenchmarkWritingTenThousandRows(b *testing.B) {
	sheet := longList()
	for b.Loop() {
		var xlsx bytes.Buffer
		require.NoError(b, exchange.WriteXLSX(&xlsx, exchange.Book{Sheets: []exchange.Sheet{sheet}}))
	}
}
