package ui_test

import (
	"bytes"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/exchange"
	"stageloom/model/plan"
)

// top is the dialog on top of all.
func (s *screen) top() fyne.CanvasObject {
	s.t.Helper()
	overlays := s.window.Canvas().Overlays().List()
	require.NotEmpty(s.t, overlays)
	return overlays[len(overlays)-1]
}

// item is the object of a form's item in the topmost dialog.
func (s *screen) item(label string) fyne.CanvasObject {
	s.t.Helper()
	for _, object := range test.LaidOutObjects(s.top()) {
		if form, ok := object.(*widget.Form); ok {
			for _, item := range form.Items {
				if item.Text == label {
					return item.Widget
				}
			}
		}
		if row, ok := object.(interface {
			Labelled() (string, fyne.CanvasObject)
		}); ok {
			if name, field := row.Labelled(); name == label {
				s.window.Canvas().Focus(field.(fyne.Focusable))
				return field
			}
		}
	}
	require.Fail(s.t, "no item "+label)
	return nil
}

// enter puts text into a form's field of the topmost dialog.
func (s *screen) enter(label, text string) {
	s.t.Helper()
	s.item(label).(interface{ Inner() *widget.Entry }).Inner().SetText(text)
}

// pick chooses an entry of a form's list in the topmost dialog.
func (s *screen) pick(label, entry string) {
	s.t.Helper()
	s.item(label).(interface{ Inner() *widget.Select }).Inner().SetSelected(entry)
}

// reads reports whether a label of the topmost dialog holds these words.
func (s *screen) reads(words string) bool {
	s.t.Helper()
	for _, object := range test.LaidOutObjects(s.top()) {
		if label, ok := object.(*widget.Label); ok && strings.Contains(label.Text, words) {
			return true
		}
	}
	return false
}

// button is a button of the topmost dialog.
func (s *screen) button(label string) *widget.Button {
	s.t.Helper()
	for _, object := range test.LaidOutObjects(s.top()) {
		if button, ok := object.(*widget.Button); ok && button.Text == label {
			return button
		}
		if answer, ok := object.(interface{ Answer() *widget.Button }); ok && answer.Answer().Text == label {
			return answer.Answer()
		}
	}
	require.Fail(s.t, "no button "+label)
	return nil
}

// picture keeps the window as a picture where STAGELOOM_PICTURES names a folder, to be looked at.
func (s *screen) picture(name string) {
	folder := os.Getenv("STAGELOOM_PICTURES")
	if folder == "" {
		return
	}
	size := s.window.Canvas().Size()
	s.window.Resize(size.AddWidthHeight(1, 0)) // the test driver gives what was shown since its place
	s.window.Resize(size)
	var picture bytes.Buffer
	require.NoError(s.t, png.Encode(&picture, s.window.Canvas().Capture()))
	require.NoError(s.t, os.WriteFile(filepath.Join(folder, name+".png"), picture.Bytes(), 0o600))
}

func (s *screen) reelTagged(tag string) (found plan.Reel) {
	for reel := range s.desk.Plan().Reels.All() {
		if reel.Tag == tag {
			found = reel
		}
	}
	return found
}

func TestReelsAreAddedFromOneLine(t *testing.T) {
	for _, look := range []string{"light", "dark"} {
		t.Run(look, func(t *testing.T) {
			s := open(t, look)
			s.window.Resize(fyne.NewSize(1280, 800))
			s.picture("stock-empty-" + look)
			s.choose("Stock", "Add reels…")
			require.True(t, s.button("Add").Disabled())
			require.True(t, s.reads("Write what there is"))
			s.pick("Kind", "Cat 6A")
			s.enter("What there is", "12 x 5o m")
			require.True(t, s.reads("is no kind of cable"))
			require.True(t, s.button("Add").Disabled())
			s.enter("What there is", "12 x 50 m\n3 x 20 m Cat 6")
			s.enter("Case", "Case 1")
			s.picture("stock-add-" + look)
			require.True(t, s.reads("Adds 15 cables in 2 rows, 660 m in all."))
			s.tap("Add and another")
			s.enter("What there is", "4 x 100 m")
			s.enter("Tags", "A01-A03")
			require.True(t, s.reads(`"A01-A03" names 3, but the quantity is 4`) || s.reads(`names 3`))
			s.enter("Tags", "A01-A04")
			s.enter("Return date", "22.06.2031")
			s.enter("Hire reference", "H 112")
			s.tap("Add")
			p := s.desk.Plan()
			require.Equal(t, 6, p.Reels.Len())
			require.Equal(t, 1, p.Cases.Len(), "a case of this name is there from the first time")
			require.Equal(t, "2031-06-22", s.reelTagged("A03").Return)
			require.Equal(t, "Add reels", s.desk.NextUndo())
			s.picture("stock-filled-" + look)
		})
	}
}

func TestAReelIsEditedOrSomeOfAQuantity(t *testing.T) {
	s := open(t, "light")
	s.window.Resize(fyne.NewSize(1280, 800))
	s.choose("Stock", "Add reels…")
	s.pick("Kind", "Cat 6A")
	s.enter("What there is", "12 x 50 m")
	s.tap("Add")
	s.choose("Stock", "Find a cable of the stock")
	s.window.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	s.choose("Stock", "Edit reel…")
	s.picture("stock-edit-light")
	s.enter("Change how many of them", "20")
	s.tap("Keep")
	require.True(t, s.reads("1 to 12"))
	s.enter("Change how many of them", "2")
	s.pick("Condition", "suspect")
	s.enter("Reason", "plug loose")
	s.enter("Measured loss", "loud")
	s.tap("Keep")
	require.Equal(t, 1, s.state().Overlays, "what cannot be read keeps the form open")
	require.Equal(t, 1, s.desk.Plan().Reels.Len(), "nothing is changed by halves")
	s.enter("Measured loss", "9,4 dB")
	s.enter("Into a new case", "Case 9")
	s.tap("Keep")
	require.Equal(t, 2, s.desk.Plan().Reels.Len())
	for reel := range s.desk.Plan().Reels.All() {
		if reel.Condition == plan.Suspect {
			require.Equal(t, 2, reel.Quantity)
			require.Equal(t, "plug loose", reel.Reason)
			require.Equal(t, plan.Some(9.4), reel.Measured)
			require.NotEmpty(t, reel.Case)
		} else {
			require.Equal(t, 10, reel.Quantity)
		}
	}
	s.desk.Undo()
	require.Equal(t, 1, s.desk.Plan().Reels.Len(), "one step")
}

// list writes a stock list and returns its path.
func list(t *testing.T, name, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	return path
}

// load names the file in the import dialog and reads it.
func (s *screen) load(path string) {
	s.t.Helper()
	entry := s.entryWith("a CSV")
	entry.SetText(path)
	entry.OnSubmitted(path)
}

const fullList = "Our drums 2031;;;;;\nType;Length;Qty;Label;Box;State\nCat 6A;50 m;12;;Case 1;ok\nBlack drum;60;2;B1-B2;Case 1;\nCat 6;2o m;3;;Case 2;\nCat 6;25,5;1;C7;Case 2;so-so\nCat 6;10;5;;Case 2;good\n"

func TestAListIsImportedWithItsColumnsItsWordsAndItsFaults(t *testing.T) {
	for _, look := range []string{"light", "dark"} {
		t.Run(look, func(t *testing.T) {
			s := open(t, look)
			s.window.Resize(fyne.NewSize(1280, 800))
			before := s.desk.Plan()
			s.choose("Stock", "Import a stock list…")
			require.True(t, s.button("Import").Disabled())
			s.load(filepath.Join(t.TempDir(), "nothing.csv"))
			require.True(t, s.reads("no such file"))
			s.load(list(t, "drums.csv", fullList))
			require.True(t, s.reads("Read as UTF-8, separated by semicolons."))
			s.picture("stock-import-" + look)
			require.True(t, s.reads(`Row 4, column A "Type": "Black drum" is no kind of cable here`))
			require.True(t, s.reads(`Row 6, column F "State": "so-so" is no condition that is known here`))
			require.True(t, s.button("Import").Disabled(), "not by halves")
			s.pick(`Kind "Black drum", 1 row`, "Cat 6A low-loss, own figure 19.2")
			require.False(t, s.reads(`Row 4`))
			require.True(t, s.reads("2 rows have faults"))
			require.True(t, s.button("Import the good rows only").Disabled(), "a word is not answered yet")
			s.tap("Cancel")
			require.True(t, plan.Equal(before, s.desk.Plan()))

			s.choose("Stock", "Import a stock list…")
			s.load(list(t, "drums.csv", fullList))
			s.pick(`Kind "Black drum", 1 row`, "Cat 6A low-loss, own figure 19.2")
			s.pick(`Condition "so-so", 1 row`, "leave these rows out")
			s.tap("Import the good rows only")
			require.Contains(t, s.state().Notice, "Imported 19 cables in 3 rows")
			require.Equal(t, 4, s.desk.Plan().Reels.Len(), "two of them tagged")
			require.Equal(t, "Import drums.csv", s.desk.NextUndo())
			require.NotEmpty(t, s.reelTagged("B2").Case)
		})
	}
}

func TestTheUserSaysWhatAColumnMeans(t *testing.T) {
	s := open(t, "light")
	s.window.Resize(fyne.NewSize(1280, 800))
	s.choose("Stock", "Import a stock list…")
	s.load(list(t, "x.csv", "Stuff,Size,Whose\nCat 6,25 m,Ada\nCat 6,10 m,Ada\n"))
	require.True(t, s.reads("no column is the kind of cable"))
	s.meaning(0, exchange.Kind)
	s.meaning(1, exchange.Kind)
	s.meaning(0, exchange.Kind)
	s.meaning(1, exchange.Length)
	s.meaning(2, exchange.Owner)
	s.picture("stock-columns-light")
	s.pick(`Owner "Ada", 2 rows: is that the house itself?`, "another's: hired in")
	require.True(t, s.reads("All rows are good: 2 cables in 2 rows, 35 m in all: 2 Cat 6; 2 hired."))
	s.tap("Import")
	for reel := range s.desk.Plan().Reels.All() {
		require.Equal(t, "Ada", reel.Owner)
	}
	require.Equal(t, 2, s.desk.Plan().Reels.Len())
}

func TestAnInputListIsImported(t *testing.T) {
	s := open(t, "light")
	s.window.Resize(fyne.NewSize(1280, 800))
	s.choose("Stock", "Import an input list…")
	s.load(list(t, "band.csv", "Band X,,,\nCh,Input,Mic,48V\n1,Kick,dynamic,\n2,Snare,dynamic,\n2,Snare bottom,condenser,x\n5,Voice,condenser,x\n"))
	s.picture("stock-inputs-light")
	require.True(t, s.reads(`Row 5, column A "Ch": input 2 stands in row 4 already.`))
	require.True(t, s.reads("Can be taken: 3 inputs; no input has number 3 to 4."))
	s.tap("Import the good rows only")
	require.Equal(t, 3, s.desk.Plan().Inputs.Len())
	for input := range s.desk.Plan().Inputs.All() {
		require.Equal(t, input.Name == "Voice", input.Phantom, input.Name)
	}
}

func TestTheStockIsExportedAndReadAgain(t *testing.T) {
	for _, name := range []string{"out.xlsx", "out.csv", "out.tsv"} {
		t.Run(name, func(t *testing.T) {
			s := open(t, "light", demoFile(t))
			s.window.Resize(fyne.NewSize(1280, 800))
			folder := t.TempDir()
			s.choose("Stock", "Export the stock…")
			s.enter("Name", name)
			entries := s.entries()
			entries[1].SetText(folder)
			s.tap("Export")
			data, err := os.ReadFile(filepath.Join(folder, name))
			require.NoError(t, err)
			d, err := exchange.Read(name, bytes.NewReader(data))
			require.NoError(t, err)
			require.Len(t, d.Grids[0].Rows, 1+s.desk.Plan().Reels.Len())
			require.Contains(t, s.state().Notice, "Exported")
		})
	}
}

func TestAFaultyCableLeavesTheStockAndItsLinkIsOfferedAnother(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.window.Resize(fyne.NewSize(1280, 800))
	s.choose("Stock", "Find a cable of the stock")
	test.Type(s.window.Canvas().Focused(), "LL01")
	s.picture("stock-find-light")
	s.choose("Stock", "Mark reel faulty…")
	s.enter("What is wrong", "core broken")
	s.enter("Found where", "FOH")
	s.picture("stock-faulty-light")
	s.tap("Mark faulty")
	require.Equal(t, plan.Faulty, s.reelTagged("LL01").Condition)
	require.Equal(t, "FOH", s.reelTagged("LL01").FoundAt)
	require.True(t, s.reads("is this one. Another can be laid"))
	s.tap("Choose another…")
	s.picture("stock-replace-light")
	require.Equal(t, []string{"L01"}, s.state().Selection)
	require.Equal(t, 1, s.state().Overlays, "the dialog that replaces a cable")
}

// entryWith is the field of the topmost dialog whose hint begins so.
func (s *screen) entryWith(hint string) *widget.Entry {
	s.t.Helper()
	for _, entry := range s.entries() {
		if strings.HasPrefix(entry.PlaceHolder, hint) {
			return entry
		}
	}
	require.Fail(s.t, "no field "+hint)
	return nil
}
