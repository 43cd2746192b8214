package ui_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/desk"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/planfile"
	"stageloom/ui"
	"stageloom/ui/answers"
	"stageloom/ui/looptest"
)

// screen is the window in the test driver, whose one goroutine is the test's, with the answers that a test of the real window gets.
type screen struct {
	t         *testing.T
	app       *looptest.App
	desk      *desk.Desk
	window    fyne.Window
	questions *answers.Questions
	folder    string
}

// besideTheWindow are the tests whose window has work done beside it: lists read, pages drawn, the journal written, plans
// opened and saved. The race detector is for these; -short, with which it runs, leaves the window of any other closed.
var besideTheWindow = []string{
	"TestAJournalThatCannotBeReadOrKeptIsToldOfAtTheStart",
	"TestAListIsImportedForOneAct",
	"TestAListIsImportedWithItsColumnsItsWordsAndItsFaults",
	"TestAListOfDevicesIsImportedWithWhatItChanges",
	"TestAListPatchesAnActAndCountsOn",
	"TestAPickIsSearchedForBesideTheWindow",
	"TestAPickTakesFromTheHouse",
	"TestAnInputListIsImported",
	"TestEscapeClosesADialogAsItsCancelDoes", // that of the print, which draws a page
	"TestMenusWorkOnThePlan",
	"TestSaveAsTakesNameAndFolder",
	"TestThePrintDialogShowsItsPageWhenItIsDrawn",
	"TestThePlanOfAnotherComputerIsOfferedForTakingOver",
	"TestTheUserSaysInWhichEncodingAListIs",
	"TestTheUserSaysWhatAColumnMeans",
	"TestUnsavedWorkIsAskedFor",
	"TestWhatACrashLeftIsOfferedAndNeverDiscardedAtOnce",
}

func TestTheTestsBesideTheWindowAreThere(t *testing.T) {
	var all strings.Builder
	files, err := filepath.Glob("*_test.go")
	require.NoError(t, err)
	for _, file := range files {
		source, err := os.ReadFile(file)
		require.NoError(t, err)
		all.Write(source)
	}
	for _, name := range besideTheWindow {
		require.Contains(t, all.String(), "\nfunc "+name+"(", "a test that is renamed is renamed in the list too")
	}
}

func open(t *testing.T, look string, paths ...string) *screen {
	t.Helper()
	if name, _, _ := strings.Cut(t.Name(), "/"); testing.Short() && !slices.Contains(besideTheWindow, name) {
		t.Skip("nothing is done beside this window: for the run without -short")
	}
	s := &screen{t: t, app: looptest.NewApp(t), desk: desk.New(plan.NewIDSource(1, 2)), folder: t.TempDir()}
	s.app.Preferences().SetString("look", look)
	s.window, s.questions = ui.Open(s.app, s.desk, house.Open(s.folder), paths...)
	t.Cleanup(func() { s.desk.Close() })
	return s
}

var weekender = sync.OnceValue(demo.Weekender)

// demoFile is a copy of the demo plan in a folder of the test.
func demoFile(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "weekender.stageloom")
	_, err := planfile.Replace(path, weekender(), nil)
	require.NoError(t, err)
	return path
}

type state struct {
	Title     string
	Notice    string
	Unsaved   bool
	Selection []string
	History   []string
	Overlays  int
	Focus     string
	Links     map[string]struct{ Grade, Label string }
}

func (s *screen) state() (answer state) {
	s.t.Helper()
	s.app.Turn()
	require.NoError(s.t, json.Unmarshal(s.questions.Answer([]byte(`{"ask":"state"}`)), &answer))
	return answer
}

// choose takes a menu item by its path, as a click does.
func (s *screen) choose(path ...string) {
	s.t.Helper()
	items := []*fyne.MenuItem{}
	for _, menu := range s.window.MainMenu().Items {
		if menu.Label == path[0] {
			items = menu.Items
		}
	}
	var found *fyne.MenuItem
	for _, label := range path[1:] {
		found = nil
		for _, item := range items {
			if item.Label == label {
				found = item
			}
		}
		require.NotNil(s.t, found, "no menu item %v", path)
		if found.ChildMenu != nil {
			items = found.ChildMenu.Items
		}
	}
	require.False(s.t, found.Disabled, "%v is disabled", path)
	found.Action()
	s.app.Turn()
}

// tap taps a button of the topmost dialog.
func (s *screen) tap(label string) {
	s.t.Helper()
	overlays := s.window.Canvas().Overlays().List()
	require.NotEmpty(s.t, overlays)
	for _, object := range test.LaidOutObjects(overlays[len(overlays)-1]) {
		if button, ok := object.(*widget.Button); ok && button.Text == label {
			test.Tap(button)
			s.app.Turn()
			return
		}
		if answer, ok := object.(interface{ Answer() *widget.Button }); ok && answer.Answer().Text == label {
			test.Tap(answer.Answer())
			s.app.Turn()
			return
		}
	}
	require.Fail(s.t, "no button "+label)
}

// fill puts a text into the entry that holds another; fillSecond into the dialog's second entry.
func (s *screen) fill(before, text string) {
	s.t.Helper()
	for _, entry := range s.entries() {
		if entry.Text == before {
			entry.SetText(text)
			return
		}
	}
	require.Fail(s.t, "no entry with "+before)
}

func (s *screen) fillSecond(text string) { s.entries()[1].SetText(text) }

func (s *screen) entries() (entries []*widget.Entry) {
	overlays := s.window.Canvas().Overlays().List()
	for _, object := range test.LaidOutObjects(overlays[len(overlays)-1]) {
		if entry, ok := object.(interface{ Inner() *widget.Entry }); ok {
			entries = append(entries, entry.Inner())
		}
	}
	return entries
}

// choosers are the lists of the topmost dialog, in their order.
func (s *screen) choosers() (found []*widget.Select) {
	overlays := s.window.Canvas().Overlays().List()
	for _, object := range test.LaidOutObjects(overlays[len(overlays)-1]) {
		if chooser, ok := object.(interface{ Chooser() *widget.Select }); ok {
			found = append(found, chooser.Chooser())
		}
	}
	return found
}
