package stock

import (
	"io"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2/widget"

	"stageloom/model/atomicfile"
	"stageloom/model/exchange"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
)

// Export writes a stock as a workbook with its cases, or as separated text, as the name's end says.
func (s *Dialogs) Export(place Place) {
	forms := []string{"commas", "semicolons and decimal commas"}
	how := dialogs.NewChooser(s, forms, nil)
	how.SetSelectedIndex(0)
	hint := widget.NewLabel("A name that ends in .xlsx makes a workbook, .csv separated text.")
	dialogs.AskName(s, "Export the stock of "+place.name, dialogs.FileName(place.now().Settings.Name)+" stock.xlsx", "", "Export", func(path string) {
		p := place.now()
		stock := exchange.StockSheet(p)
		err := atomicfile.Write(path, func(out io.Writer) error {
			switch strings.ToLower(filepath.Ext(path)) {
			case ".csv":
				form := exchange.Comma
				if how.SelectedIndex() == 1 {
					form = exchange.Semicolon
				}
				return exchange.WriteCSV(out, stock, form)
			case ".tsv":
				return exchange.WriteCSV(out, stock, exchange.Tabs)
			}
			return exchange.WriteXLSX(out, exchange.Book{Sheets: []exchange.Sheet{stock, exchange.CaseSheet(p)}})
		}, nil)
		if err != nil {
			s.Warn(words.Sentence(err))
			return
		}
		s.Say("Exported the stock to " + path)
	}, widget.NewFormItem("CSV with", how), widget.NewFormItem("", hint))
}
