package stock_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/exchange"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/dialogs/hosttest"
	"stageloom/ui/stock"
)

// asked is the list beside a question of the topmost dialog.
func asked(t *testing.T, h *hosttest.Host, begins string) *dialogs.Chooser {
	t.Helper()
	for _, object := range h.Parts() {
		form, is := object.(*widget.Form)
		if !is {
			continue
		}
		for _, item := range form.Items {
			if list, is := item.Widget.(*dialogs.Chooser); is && strings.HasPrefix(item.Text, begins) {
				return list
			}
		}
	}
	return nil
}

// houseReels are the tags of the house's stock with owner, condition and reason.
func houseReels(t *testing.T, d *stock.Dialogs) (said []string) {
	t.Helper()
	read, err := d.Library().Stock()
	require.NoError(t, err)
	for _, reel := range exchange.InStockOrder(read.Plan) {
		said = append(said, strings.Join([]string{reel.Tag, reel.Owner, reel.Condition, reel.Reason, reel.Note}, "|"))
	}
	return said
}

const oddList = "Kind;Length;Unit;Tag;Owner;Rating;Colour\n" +
	"Black drum;200;ft;A1;us;bent pin;red\nBlack drum;50;m;A2;Riverside;ok;\nGrey drum;50;m;A3;;;blue\n"

func TestAStockListIsAskedAboutBeforeAnythingIsTaken(t *testing.T) {
	h, d := open(t)
	folder := t.TempDir()
	d.ImportStock(d.OfHouse(func() {}), "")
	load(h, write(t, folder, "odd.csv", oddList))
	require.False(t, enabled(t, h, "Import"))
	require.True(t, h.Reads("4 things of the list are to be answered first"), "three words and a column")
	require.Equal(t, "the house itself", asked(t, h, `Owner "us", 1 row`).Selected)
	require.NotNil(t, asked(t, h, `Column G Colour is not read: "red", "blue"`))
	asked(t, h, "Column F Rating looks like condition").SetSelected("read it as condition")
	require.True(t, h.Reads("4 things of the list are to be answered first"), "what a condition says is asked now")
	asked(t, h, "Column G Colour").SetSelected("into the note")
	asked(t, h, `Condition "bent pin", 1 row`).SetSelected("suspect")
	asked(t, h, `Owner "Riverside", 1 row`).SetSelected("the house itself")
	asked(t, h, `Kind "Black drum", 2 rows`).SetSelected("Cat 6A")
	require.False(t, enabled(t, h, "Import the good rows only"), "not even the good rows while something is open")
	asked(t, h, `Kind "Grey drum", 1 row`).SetSelected("leave these rows out")
	require.True(t, h.Reads("All rows are good: 2 cables in 2 rows, 111 m in all: 2 Cat 6A; 1 suspect."))
	require.True(t, h.Reads(`Row 4: left out, as was said of "Grey drum".`))
	h.Tap("Import")
	require.Equal(t, []string{"A1||suspect|bent pin|Colour: red", "A2||good||"}, houseReels(t, d))

	kept := d.Library
	h, d = open(t) // another day, other columns kept by nobody but the house
	d.Library = kept
	d.ImportStock(d.OfHouse(func() {}), "")
	again := strings.Replace(strings.Replace(oddList, "Kind;", "Kind ;", 1), "\n", ";Shelf\n", 1) + "Black drum;40;m;A4;;;;4b\n"
	load(h, write(t, folder, "more.csv", again))
	require.Equal(t, "Cat 6A", asked(t, h, `Kind "Black drum", 3 rows`).Selected, "it is remembered")
	require.Equal(t, "suspect", asked(t, h, `Condition "bent pin"`).Selected, "and its column too, beside a new one")
	require.Nil(t, asked(t, h, "Column G Colour"))
	require.False(t, enabled(t, h, "Import"), "what was left out is asked about again")
	h.Tap("Leave out the rows of all words that are not answered")
	require.True(t, h.Reads("The stock has 2 of the cables as they are, 0 rows are brought up to date, 1 are new."))
	h.Tap("Import")
	require.Len(t, houseReels(t, d), 3, "nothing is doubled")
}

func TestTheSameListAgainIsAnUpdate(t *testing.T) {
	h, d := open(t)
	folder := t.TempDir()
	d.ImportStock(d.OfPlan(), "")
	const list = "Kind;Length;Qty;Tag;Cond\nCat 6A;50;;A1;ok\nCat 6A;60.96;;A2;ok\nCat 6;20;12;;\n"
	load(h, write(t, folder, "a.csv", list))
	h.Tap("Import")
	d.ImportStock(d.OfPlan(), "")
	load(h, write(t, folder, "a.csv", list))
	require.True(t, h.Reads("The stock has 14 of the cables as they are"))
	require.False(t, enabled(t, h, "Import"))
	ticked(t, h, "cables without a tag that the stock has alike are more of them").SetChecked(true)
	require.True(t, enabled(t, h, "Import"))
	ticked(t, h, "cables without a tag that the stock has alike are more of them").SetChecked(false)
	load(h, write(t, folder, "a.csv", strings.Replace(strings.Replace(list, "60.96;;A2;ok", "43;;A2;defekt", 1), "20;12", "20;10", 1)))
	require.True(t, h.Reads("Row 3 changes A2: Length 43 m, was 60.96 m; Condition faulty, was good."))
	require.True(t, h.Reads("Row 4 changes Cat 6 20 m: Quantity 10, was 12."))
	h.Tap("Import")
	require.Equal(t, 3, h.Desk().Plan().Reels.Len())
	for reel := range h.Desk().Plan().Reels.All() {
		if reel.Tag == "A2" {
			require.Equal(t, []any{43.0, plan.Faulty}, []any{reel.Length, reel.Condition})
		}
	}
}

func TestWordsThatCannotBeReadAreToldAndAskedAboutAgain(t *testing.T) {
	h, d := open(t)
	folder := t.TempDir()
	d.Library = func() house.Library { return house.Open(folder) }
	d.ImportStock(d.OfPlan(), "")
	load(h, write(t, t.TempDir(), "a.csv", "Kind;Length;Tag\nBlack drum;50;A1\n"))
	asked(t, h, `Kind "Black drum"`).SetSelected("Cat 6A")
	h.Tap("Import")
	words, err := d.Library().Words()
	require.NoError(t, err)
	require.Len(t, words, 1)
	files, err := filepath.Glob(filepath.Join(folder, "*.stageloom-words"))
	require.NoError(t, err)
	require.Len(t, files, 1)
	require.NoError(t, os.WriteFile(files[0], []byte("torn"), 0o600))
	d.ImportStock(d.OfPlan(), "")
	require.Contains(t, h.Said, "cannot be read, so its words are asked about again")
	load(h, write(t, t.TempDir(), "b.csv", "Kind;Length;Tag\nBlack drum;50;A2\n"))
	asked(t, h, `Kind "Black drum"`).SetSelected("Cat 6A")
	h.Tap("Import")
	torn, err := os.ReadFile(files[0])
	require.NoError(t, err)
	require.Equal(t, "torn", string(torn))
	require.Equal(t, 2, h.Desk().Plan().Reels.Len(), "the list is taken all the same")
}
