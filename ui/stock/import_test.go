package stock_test

import (
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/exchange"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/ui/answers"
	"stageloom/ui/dialogs"
	"stageloom/ui/dialogs/hosttest"
	"stageloom/ui/stock"
)

// acts gives the plan two acts and a house of two inputs.
func acts(t *testing.T, h *hosttest.Host) (first, second plan.ActID) {
	t.Helper()
	require.NoError(t, h.Desk().Do("Acts", func(e *plan.Edit) error {
		first, second = patch.AddAct(e, "Early"), patch.AddAct(e, "Late")
		e.AddInput(plan.Input{Number: 1, Name: "Kick in", Source: "boundary", Use: "mic"})
		e.AddInput(plan.Input{Number: 2, Name: "Snare", Source: "dynamic", Use: "mic"})
		return nil
	}))
	return first, second
}

func write(t *testing.T, folder, name, text string) string {
	t.Helper()
	path := filepath.Join(folder, name)
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	return path
}

// load reads a file in the topmost dialog.
func load(h *hosttest.Host, path string) {
	for _, object := range h.Parts() {
		if field, is := object.(*dialogs.Entry); is {
			field.SetText(path)
			field.OnSubmitted(path)
			return
		}
	}
}

// chooser is the list of the topmost dialog that offers something.
func chooser(t *testing.T, h *hosttest.Host, offers string) *dialogs.Chooser {
	t.Helper()
	for _, list := range h.Lists() {
		for _, option := range list.Options {
			if option == offers {
				return list
			}
		}
	}
	require.Fail(t, "nothing offers "+offers)
	return nil
}

func ticked(t *testing.T, h *hosttest.Host, label string) *dialogs.Check {
	t.Helper()
	for _, object := range h.Parts() {
		if check, is := object.(*dialogs.Check); is && check.Text == label {
			return check
		}
	}
	require.Fail(t, "no check "+label)
	return nil
}

func enabled(t *testing.T, h *hosttest.Host, label string) bool {
	t.Helper()
	for _, object := range h.Parts() {
		if button, is := object.(*dialogs.Answer); is && button.Text == label {
			return !button.Disabled()
		}
	}
	require.Fail(t, "no button "+label)
	return false
}

// importing opens the dialog, with an act in the tables of the patch.
func importing(h *hosttest.Host, d *stock.Dialogs, shown plan.ActID) {
	d.ActShown = func() plan.ActID { return shown }
	d.ImportInputs()
}

func TestWhatAListChangesIsShownBeforeItIsTaken(t *testing.T) {
	h, d := open(t)
	_, late := acts(t, h)
	folder := t.TempDir()
	importing(h, d, late)
	load(h, write(t, folder, "v1.csv", "No;Name;Mic;48V\n1;Kick in;boundary;Y\n2;Snare;dynamic;\n3;Harp;condenser;Y\n"))
	require.True(t, h.Reads("1 Kick in changed: 48 V yes, was no; it becomes the act's own."))
	require.True(t, h.Reads("3 Harp new: condenser, 48 V → not patched."))
	h.Tap("Import")
	importing(h, d, late)
	load(h, write(t, folder, "v2.csv", "No;Name;Mic;48V\n1;Kick in;boundary;Y\n2;Snare;dynamic;\n"))
	require.True(t, ticked(t, h, "take out its own that it lacks").Checked, "another version of the act's own list")
	require.True(t, h.Reads("3 Harp gone: with its patch, not patched."))
	ticked(t, h, "take out its own that it lacks").SetChecked(false)
	require.True(t, h.Reads("3 Harp stays: not patched, the list lacks it."))
	ticked(t, h, "take out its own that it lacks").SetChecked(true)
	h.Tap("Import")
	for input := range h.Desk().Plan().Inputs.All() {
		require.NotEqual(t, "Harp", input.Name)
	}
}

func TestInputsOfTheHouseThatAListLacksAreAskedAbout(t *testing.T) {
	h, d := open(t)
	acts(t, h)
	importing(h, d, "")
	load(h, write(t, t.TempDir(), "house.csv", "DRUMS;\nNo;Name\n1;Kick in\n"))
	require.True(t, h.Reads("2 Snare stays: not patched, the list lacks it."))
	require.True(t, h.Reads(`Row 1: "DRUMS" stands above the column heads: it is no input.`))
	require.False(t, ticked(t, h, "take out what it lacks").Checked)
	ticked(t, h, "take out what it lacks").SetChecked(true)
	require.True(t, h.Reads("2 Snare gone"))
	h.Tap("Import")
	require.Equal(t, 1, h.Desk().Plan().Inputs.Len())
}

func TestTheActInViewIsOffered(t *testing.T) {
	h, d := open(t)
	early, late := acts(t, h)
	importing(h, d, early)
	require.Equal(t, "1 Early", chooser(t, h, "all acts").Selected)
	h.Tap("Cancel")
	act, _ := h.Desk().Plan().Acts.Get(plan.Key(late))
	h.Desk().Select(plan.RefOf(act))
	importing(h, d, early)
	require.Equal(t, "2 Late", chooser(t, h, "all acts").Selected, "the one that is selected comes first")
	h.Tap("Cancel")
	h.Desk().Select()
	t.Run("a list without numbers asks whose it is", func(t *testing.T) {
		importing(h, d, "")
		path := write(t, t.TempDir(), "names.csv", "Name;Mic\nShaker;condenser\nCajon;dynamic\n")
		load(h, path)
		require.True(t, h.Reads("The list has no numbers. Say above whose it is"))
		require.False(t, enabled(t, h, "Import"))
		chooser(t, h, "all acts").SetSelected("2 Late")
		require.True(t, enabled(t, h, "Import"))
		chooser(t, h, "all acts").SetSelected("all acts")
		require.True(t, enabled(t, h, "Import"), "the house is asked for")
		h.Tap("Cancel")
	})
}

func TestWhatWasSaidOfColumnsIsKeptForACorrectedFile(t *testing.T) {
	h, d := open(t)
	folder := t.TempDir()
	const head = "Ch;What;Where\n"
	first := write(t, folder, "v1.csv", head+"1;Kick;left\nx;Snare;right\n")
	meanings := func() (all []string) {
		for _, list := range h.Lists() {
			if len(list.Options) > 0 && list.Options[0] == "not read" {
				all = append(all, list.Selected)
			}
		}
		return all
	}
	importing(h, d, "")
	load(h, first)
	require.Equal(t, []string{exchange.Number, exchange.Name, "not read"}, meanings())
	for _, list := range h.Lists() {
		if list.Selected == "not read" {
			list.SetSelected(exchange.Riser)
		}
	}
	want := []string{exchange.Number, exchange.Name, exchange.Riser}
	require.Equal(t, want, meanings())
	write(t, folder, "v1.csv", head+"1;Kick;left\n2;Snare;right\n")
	load(h, first)
	require.Equal(t, want, meanings(), "the same file, corrected")
	require.True(t, enabled(t, h, "Import"))
	h.Tap("Cancel")
	importing(h, d, "")
	load(h, write(t, folder, "v2.csv", "Band;;\nCH;what;Where\n1;Kick;left\n"))
	require.Equal(t, want, meanings(), "another file with the same head")
	load(h, write(t, folder, "other.csv", "Ch;What;Whose\n1;Kick;left\n"))
	require.Equal(t, []string{exchange.Number, exchange.Name, "not read"}, meanings(), "another head")
	h.Tap("Cancel")
	kept := d.Columns
	h, d = open(t) // the next day
	d.Columns = kept
	importing(h, d, "")
	load(h, write(t, folder, "v3.csv", head+"1;Kick;left\n"))
	require.Equal(t, want, meanings(), "the same heads at another start")
	load(h, write(t, folder, "none.csv", ";;\n1;Kick;left\n"))
	require.Equal(t, "not read", meanings()[2], "rows without words are no heads")
}

func TestEncodingAndSheetAreKeptForACorrectedFile(t *testing.T) {
	h, d := open(t)
	folder := t.TempDir()
	path := write(t, folder, "old.csv", "Nr;Quelle\n1;Fl\xfcgel\n")
	importing(h, d, "")
	load(h, path)
	require.Equal(t, exchange.Windows1252, chooser(t, h, exchange.MacRoman).Selected)
	chooser(t, h, exchange.MacRoman).SetSelected(exchange.MacRoman)
	load(h, path)
	require.Equal(t, exchange.MacRoman, chooser(t, h, exchange.MacRoman).Selected)
	write(t, folder, "old.csv", "Nr;Quelle\n1;Flügel\n")
	load(h, path)
	require.Equal(t, exchange.UTF8, chooser(t, h, exchange.MacRoman).Selected, "a file in another encoding is looked at anew")
	book := filepath.Join(folder, "book.xlsx")
	file, err := os.Create(book)
	require.NoError(t, err)
	sheet := func(name string) exchange.Sheet {
		return exchange.Sheet{Name: name, Columns: []exchange.Column{{Head: "No"}, {Head: "Name"}}, Rows: [][]exchange.Cell{{exchange.Text("1"), exchange.Text(name)}}}
	}
	require.NoError(t, exchange.WriteXLSX(file, exchange.Book{Sheets: []exchange.Sheet{sheet("First"), sheet("Second")}}))
	require.NoError(t, file.Close())
	load(h, book)
	sheets := chooser(t, h, "Second, 2 rows")
	require.Equal(t, "First, 2 rows", sheets.Selected)
	sheets.SetSelected("Second, 2 rows")
	load(h, book)
	require.Equal(t, "Second, 2 rows", chooser(t, h, "Second, 2 rows").Selected)
}

func TestReturnReadsAFileAndThenImportsIt(t *testing.T) {
	h, d := open(t)
	p := h.Desk().Plan()
	require.NoError(t, h.Desk().Do("An act", func(e *plan.Edit) error { e.AddAct(plan.Act{Name: "Only", Order: 1}); return nil }))
	require.NotSame(t, p, h.Desk().Plan())
	for act := range h.Desk().Plan().Acts.All() {
		h.Desk().Select(plan.RefOf(act))
	}
	importing(h, d, "")
	require.Equal(t, "1 Only", chooser(t, h, "all acts").Selected, "the only act too, where one is at it")
	load(h, write(t, t.TempDir(), "list.csv", "No;Name\n1;Theremin\n"))
	focused, is := h.Window().Canvas().Focused().(*dialogs.Answer)
	require.True(t, is, "what Return does has the keys")
	require.Equal(t, "Import", focused.Text)
	focused.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	taken := false
	for input := range h.Desk().Plan().Inputs.All() {
		taken = taken || input.Name == "Theremin" && input.Act != ""
	}
	require.True(t, taken)
}

func TestImportAsksForAFileAndNothingElseBeforeThereIsOne(t *testing.T) {
	h, d := open(t)
	importing(h, d, "")
	asks := func(words string) bool { return answers.Find(h.Window().Canvas(), words).Found }
	require.False(t, asks("Column heads"), "nothing is to be chosen")
	require.True(t, asks("Choose a file first. Nothing is taken in before you say so."))
	before := h.Window().Canvas().Overlays().Top().(*widget.PopUp).Content.Size().Height
	load(h, write(t, t.TempDir(), "inputs.csv", "Number,Name\n1,Kick in\n"))
	require.True(t, asks("Column heads"))
	require.Greater(t, h.Window().Canvas().Overlays().Top().(*widget.PopUp).Content.Size().Height, before)
}
