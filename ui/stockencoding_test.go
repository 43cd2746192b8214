package ui_test

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/exchange"
)

func TestTheUserSaysInWhichEncodingAListIs(t *testing.T) {
	s := open(t, "light")
	s.window.Resize(fyne.NewSize(1280, 800))
	path := list(t, "kapelle.csv", "Nr;Quelle;Mikro;Sonstiges\n1;Fl\x9fgelhorn;Kondensator;vorn\n2;B\x8asse;DI;\n")
	s.choose("Stock", "Import an input list…")
	require.Nil(t, s.choice("Encoding"), "without a file there is nothing to choose")
	s.load(path)
	require.True(t, s.reads("Read as Mac Roman, separated by semicolons. That it is Mac Roman is guessed from its letters"))
	require.True(t, s.reads("Flügelhorn"))
	require.NotNil(t, s.choice("Encoding"))
	s.picture("stock-encoding-light")
	s.encoding(exchange.Windows1252)
	require.True(t, s.reads("FlŸgelhorn"), "the preview follows at once")
	require.True(t, s.reads("Read as Windows-1252, separated by semicolons."))
	require.False(t, s.reads("guess"), "what the user says is none")
	s.encoding(exchange.UTF8)
	require.True(t, s.reads("it is not in UTF-8: choose another encoding"))
	require.True(t, s.button("Import").Disabled())
	s.encoding(exchange.MacRoman)
	require.True(t, s.reads("Flügelhorn"))
	t.Run("what the user said of the columns stays", func(t *testing.T) {
		s.meaning(3, exchange.Note)
		s.encoding(exchange.Windows1252)
		s.encoding(exchange.MacRoman)
		s.tap("Import")
		for input := range s.desk.Plan().Inputs.All() {
			require.Equal(t, input.Name == "Flügelhorn", input.Note == "vorn", input.Name)
			require.Contains(t, []string{"Flügelhorn", "Bässe"}, input.Name)
		}
		require.Equal(t, 2, s.desk.Plan().Inputs.Len())
	})
	t.Run("a stock list has the choice too, a workbook none", func(t *testing.T) {
		s.choose("Stock", "Import a stock list…")
		s.load(list(t, "stock.csv", "Type;Length;Owner\nCat 6A;50 m;B\x8arenh\x9ftte am M\x9fhlbach\n"))
		require.True(t, s.reads("Bärenhütte"))
		s.encoding(exchange.Windows1252)
		require.True(t, s.reads("BŠrenhŸtte"))
		book := filepath.Join(t.TempDir(), "stock.xlsx")
		out, err := os.Create(book)
		require.NoError(t, err)
		require.NoError(t, exchange.WriteXLSX(out, exchange.Book{Sheets: []exchange.Sheet{exchange.StockSheet(s.desk.Plan())}}))
		require.NoError(t, out.Close())
		s.load(book)
		require.True(t, s.reads("Read as a workbook."))
		require.Nil(t, s.choice("Encoding"))
	})
}

// choice is the row of a choice with this label before it; nil where it is not shown.
func (s *screen) choice(label string) *fyne.Container {
	for _, object := range test.LaidOutObjects(s.top()) {
		if row, ok := object.(*fyne.Container); ok && row.Visible() && slices.ContainsFunc(row.Objects, func(each fyne.CanvasObject) bool {
			words, ok := each.(*widget.Label)
			return ok && words.Text == label
		}) {
			return row
		}
	}
	return nil
}

// encoding chooses in which encoding the list in the import dialog is.
func (s *screen) encoding(name string) {
	s.t.Helper()
	row := s.choice("Encoding")
	require.NotNil(s.t, row)
	for _, each := range row.Objects {
		if list, ok := each.(interface{ Inner() *widget.Select }); ok {
			require.Contains(s.t, list.Inner().Options, name)
			list.Inner().SetSelected(name)
		}
	}
}

// meaning says what a column of the list in the import dialog means.
func (s *screen) meaning(column int, field string) {
	s.t.Helper()
	s.columns()[column].SetSelected(field)
}

// meanings are what the columns are read as.
func (s *screen) meanings() (fields []string) {
	for _, list := range s.columns() {
		fields = append(fields, list.Selected)
	}
	return fields
}

func (s *screen) columns() (lists []*widget.Select) {
	for _, object := range test.LaidOutObjects(s.top()) {
		if each, ok := object.(interface{ Inner() *widget.Select }); ok && each.Inner().Options[0] == "not read" {
			lists = append(lists, each.Inner())
		}
	}
	return lists
}
