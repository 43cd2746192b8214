package exchange_test

import (
	"bytes"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/japanese"

	"stageloom/model/exchange"
)

func TestOldEncodingsAreToldApartByTheirLettersAndSaid(t *testing.T) {
	western := []string{
		"No;Name;Note\n1;Flügelhorn;für Bühne\n2;Célesta;près du rideau, côté cour\n3;Cajón;niño\n",
		"No;Name\n1;Singer’s mic\n2;Överblås\n", "No;Name\n1;Größe ½ × Länge\n", "No;Name\n1;Señor “Tromba” – solo\n2;ÉTÉ\n",
	}
	for _, text := range western {
		for name, form := range map[string]encoding.Encoding{exchange.Windows1252: charmap.Windows1252, exchange.MacRoman: charmap.Macintosh} {
			data, err := form.NewEncoder().Bytes([]byte(text))
			if err != nil {
				continue // a fraction or a cross that the encoding has not
			}
			d, err := exchange.Read("list.csv", bytes.NewReader(data))
			require.NoError(t, err)
			require.Equal(t, name, d.Encoding, text)
			require.Contains(t, text, d.Grids[0].Rows[1][1])
			if name == exchange.MacRoman {
				require.Contains(t, strings.Join(d.Notices, " "), "that it is Mac Roman is guessed from its letters")
			} else {
				require.Empty(t, d.Notices)
			}
		}
	}
	t.Run("Shift-JIS", func(t *testing.T) {
		const text = "番号,名前\n1,ボーカル\n2,ｷﾞﾀｰ左\n3,太鼓\n"
		data, err := japanese.ShiftJIS.NewEncoder().Bytes([]byte(text))
		require.NoError(t, err)
		d, err := exchange.Read("list.csv", bytes.NewReader(data))
		require.NoError(t, err)
		require.Equal(t, exchange.ShiftJIS, d.Encoding)
		require.Equal(t, "太鼓", d.Grids[0].Rows[3][1])
		require.Contains(t, d.Notices[0], "Shift-JIS is guessed")
	})
	t.Run("what reads well in none is doubted", func(t *testing.T) {
		d, err := exchange.Read("list.csv", strings.NewReader("No;Name\n1;B\x83hn\x84\n2;K\x88x\x86y\x87z\n"))
		require.NoError(t, err)
		require.NotEmpty(t, d.Notices)
	})
	t.Run("the user says which", func(t *testing.T) {
		data := []byte("No;Name\n1;S\xe4nger\n")
		d, err := exchange.ReadAs("list.csv", bytes.NewReader(data), exchange.MacRoman)
		require.NoError(t, err)
		require.Equal(t, "S‰nger", d.Grids[0].Rows[1][1])
		require.Empty(t, d.Notices, "what the user says is no guess")
		_, err = exchange.ReadAs("list.csv", bytes.NewReader(data), exchange.UTF8)
		require.ErrorContains(t, err, "it is not in UTF-8: choose another encoding")
		_, err = exchange.ReadAs("list.csv", bytes.NewReader(data), strings.Repeat("x", 1000))
		require.ErrorContains(t, err, "is no encoding that is read; choose one of UTF-8, UTF-16, Windows-1252, Mac Roman, Shift-JIS")
		require.Less(t, len(err.Error()), 300)
		for _, name := range exchange.Encodings() {
			if name != exchange.UTF8 && name != exchange.UTF16 {
				_, err = exchange.ReadAs("list.csv", bytes.NewReader(data), name)
				require.NoError(t, err, name)
			}
		}
	})
}

func TestSignsThatTurnLettersAreLeftOutOfAListAndSaid(t *testing.T) {
	d := read(t, "No;Name\n1;Sing\u202eer\n2;\u2066Drums\u2069\n3;\u200fשיר\n")
	require.Equal(t, [][]string{{"No", "Name"}, {"1", "Singer"}, {"2", "Drums"}, {"3", "\u200fשיר"}}, d.Grids[0].Rows)
	require.Equal(t, []string{"2 cells hold signs that are not seen and turn letters round: they are left out"}, d.Notices)
	require.Empty(t, read(t, "No;Name\n1;Singer\n").Notices)
}

// A spreadsheet whose separator is another than the file's takes a text apart where it holds that sign: what follows would
// stand in a cell of its own.
func TestNoCellBeginsAFormulaUnderAnotherSeparator(t *testing.T) {
	for _, form := range []exchange.Form{exchange.Comma, exchange.Semicolon, exchange.Tabs} {
		for _, text := range []string{"x;=1+1", "x\t=1+1", "x,=1+1"} {
			out := csvOf(t, exchange.Sheet{Rows: [][]exchange.Cell{{exchange.Text(text), exchange.Text("y")}}}, form)
			require.Contains(t, out, `"`+text+`"`)
		}
		for _, sign := range []string{"＝", "＋", "－", "＠"} {
			out := csvOf(t, exchange.Sheet{Rows: [][]exchange.Cell{{exchange.Text(sign + "1"), exchange.Text("y")}}}, form)
			require.Contains(t, out, "'"+sign+"1")
			require.Equal(t, sign+"1", read(t, out+"z"+string(form.Separator)+"y\n").Grids[0].Rows[0][0])
		}
	}
}

func TestWhatStandsBeyondTheLastColumnIsNamed(t *testing.T) {
	for name, data := range map[string][]byte{
		"a workbook": archived(t, func(w io.Writer) { _, _ = io.WriteString(w, `<row r="3"><c r="HA3"><v>7</v></c></row>`) }, nil),
		"a text":     []byte("a\nb\n" + strings.Repeat(",", 208) + "7\n"),
	} {
		_, err := exchange.Read("list", bytes.NewReader(data))
		require.ErrorContains(t, err, "has more than 200 columns: there is something in column HA", name)
		require.ErrorContains(t, err, "row 3", name)
	}
}
