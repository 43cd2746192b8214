package ui_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/desk"
	"stageloom/model/goldentest"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/planfile"
	"stageloom/ui"
	"stageloom/ui/looptest"
)

func TestTheDemoInTheWindow(t *testing.T) {
	for _, look := range []string{"light", "dark", "high contrast"} {
		for _, size := range []fyne.Size{fyne.NewSize(1280, 800), fyne.NewSize(1600, 1000)} {
			if look == "high contrast" && size.Width > 1300 {
				continue
			}
			name := fmt.Sprintf("demo-%s-%.0f.png", strings.ReplaceAll(look, " ", "-"), size.Width)
			t.Run(name, func(t *testing.T) {
				s := open(t, look, demoFile(t))
				s.window.Resize(size)
				s.choose("Edit", "Next link")
				s.choose("Edit", "Next link")
				require.Equal(t, []string{"L02"}, s.state().Selection)
				require.Equal(t, size, s.window.Canvas().Size(), "the window goes as small as it says")
				goldentest.Picture(t, filepath.Join("testdata", name), s.window.Canvas().Capture())
			})
		}
	}
}

func TestMenusWorkOnThePlan(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.choose("Edit", "Next device")
	require.Len(t, s.state().Selection, 1)
	require.NoError(t, s.desk.Do("Rename", func(e *plan.Edit) error {
		settings := e.Now().Settings
		settings.Name = "Other"
		e.SetSettings(settings)
		return nil
	}))
	require.True(t, s.state().Unsaved)
	require.Contains(t, s.window.Title(), "* Other")
	s.choose("Edit", "Undo Rename")
	require.False(t, s.state().Unsaved)
	s.choose("Edit", "Redo Rename")
	require.True(t, s.state().Unsaved)
	s.choose("Plan", "Save")
	require.False(t, s.state().Unsaved)
	s.choose("Edit", "Next finding")
	require.NotEmpty(t, s.state().Notice)
	for _, look := range []string{"dark", "high contrast", "light"} {
		s.choose("View", "Look", look)
	}
	s.choose("View", "Lengths", "feet")
	s.choose("View", "Whole plan")
	s.choose("Edit", "Select all devices")
	require.Len(t, s.state().Selection, s.desk.Plan().Devices.Len())
	for _, item := range []string{"Cautions", "About Stageloom"} {
		s.choose("Help", item)
		require.Equal(t, 1, s.state().Overlays)
		s.tap("Close")
	}
	s.choose("Edit", "History…")
	s.tap("Close")
}

func TestUnsavedWorkIsAskedFor(t *testing.T) {
	s := open(t, "light", demoFile(t))
	path := s.desk.Path()
	rename := func(e *plan.Edit) error {
		settings := e.Now().Settings
		settings.Note += "x"
		e.SetSettings(settings)
		return nil
	}
	require.NoError(t, s.desk.Do("Note", rename))
	s.choose("Plan", "New")
	require.Equal(t, 1, s.state().Overlays)
	s.tap("Cancel")
	require.Equal(t, path, s.desk.Path(), "cancelled: the plan stays")
	s.choose("Plan", "New")
	s.tap("Save")
	require.Empty(t, s.desk.Path())
	saved, _, err := planfile.Open(path)
	require.NoError(t, err)
	require.Contains(t, saved.Settings.Note, "exists.x")
	require.NoError(t, s.desk.Do("Note", rename))
	s.choose("Plan", "Open the demo plan")
	s.tap("Don't save")
	require.Equal(t, "Harrow Meadow Weekender", s.desk.Plan().Settings.Name)
}

func TestSaveAsTakesNameAndFolder(t *testing.T) {
	s := open(t, "light")
	folder := t.TempDir()
	other := filepath.Join(folder, "there.stageloom")
	require.NoError(t, os.WriteFile(other, []byte("mine"), 0o600))
	s.choose("Plan", "Save as…")
	s.fill("New plan.stageloom", "there")
	s.fillSecond(folder)
	s.tap("Save")
	s.tap("Cancel")
	held, err := os.ReadFile(other)
	require.NoError(t, err)
	require.Equal(t, "mine", string(held), "not replaced without a yes, nor cut short")
	s.choose("Plan", "Save as…")
	s.fill("New plan.stageloom", "a/b")
	s.fillSecond(folder)
	s.tap("Save")
	require.Equal(t, 1, s.state().Overlays, "a name that is none keeps the dialog")
	s.fill("a/b", "show")
	s.tap("Save")
	require.Equal(t, filepath.Join(folder, "show.stageloom"), s.desk.Path())
}

func TestABadFileLeavesThePlanBefore(t *testing.T) {
	path := filepath.Join(t.TempDir(), "bad.stageloom")
	require.NoError(t, os.WriteFile(path, []byte("no plan"), 0o600))
	s := open(t, "light", path)
	require.Contains(t, s.state().Notice, "bad.stageloom")
	require.Empty(t, s.desk.Path())
}

func TestAFieldKeepsItsOwnUndo(t *testing.T) {
	s := open(t, "light", demoFile(t))
	require.NoError(t, s.desk.Do("Note", func(e *plan.Edit) error {
		settings := e.Now().Settings
		settings.Note = "x"
		e.SetSettings(settings)
		return nil
	}))
	s.choose("Plan", "Save as…")
	entry := s.entries()[0]
	test.Type(s.window.Canvas().Focused(), " more")
	s.choose("Edit", "Undo Note")
	require.Equal(t, "Note", s.desk.NextUndo(), "the plan's undo waits under a dialog; the field's came")
	require.NotContains(t, entry.Text, "more")
}

func TestQuestionsThatAreNoneAreRefused(t *testing.T) {
	s := open(t, "light")
	for _, line := range []string{"", "{", `{"ask":"weather"}`} {
		require.Contains(t, string(s.questions.Answer([]byte(line))), "error")
	}
}

func TestTheWindowTellsHowToCloseIt(t *testing.T) {
	s := open(t, "light", demoFile(t))
	menu := s.window.MainMenu().Items[0]
	quit := menu.Items[len(menu.Items)-1]
	require.True(t, quit.IsQuit)
	require.Nil(t, quit.Action, "an action of its own would not ask for unsaved work")
	shortcut, ok := quit.Shortcut.(*desktop.CustomShortcut)
	require.True(t, ok)
	require.Equal(t, fyne.KeyQ, shortcut.KeyName)
}

// leave puts a journal of one edit into a folder, as a program that was killed leaves it.
func leave(t *testing.T, folder string) {
	t.Helper()
	dead := desk.New(plan.NewIDSource(9, 9))
	alive := t.TempDir()
	dead.KeepJournal(alive)
	dead.NewPlan(demo.Weekender())
	require.NoError(t, dead.Do("Lost edit", func(e *plan.Edit) error {
		settings := e.Now().Settings
		settings.Note = "lost"
		e.SetSettings(settings)
		return nil
	}))
	journals, err := filepath.Glob(filepath.Join(alive, "*.journal"))
	require.NoError(t, err)
	text, err := os.ReadFile(journals[0])
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(folder, "left.journal"), text, 0o600))
	dead.Close()
}

func TestWhatACrashLeftIsOfferedAndNeverDiscardedAtOnce(t *testing.T) {
	folder := t.TempDir()
	leave(t, folder)
	again := func() *screen {
		s := &screen{t: t, app: looptest.NewApp(t), desk: desk.New(plan.NewIDSource(1, 2))}
		s.desk.KeepJournal(folder)
		s.window, s.questions = ui.Open(s.app, s.desk, house.Library{})
		return s
	}
	s := again()
	require.Equal(t, 1, s.state().Overlays)
	s.tap("Discard")
	require.Equal(t, 1, s.state().Overlays, "asked again")
	s.tap("Keep for later")
	require.Zero(t, s.state().Overlays)
	require.Empty(t, s.desk.Plan().Settings.Note)

	s = again()
	s.tap("Recover")
	require.Equal(t, "lost", s.desk.Plan().Settings.Note)
	require.True(t, s.state().Unsaved)
	require.NoFileExists(t, filepath.Join(folder, "left.journal"))
	s.desk.Close()

	leave(t, folder)
	s = again()
	s.tap("Discard")
	s.tap("Discard")
	require.NoFileExists(t, filepath.Join(folder, "left.journal"))
	require.Empty(t, again().desk.LeftBehind())
}

func TestALinksFiguresAreChangedOnItsCard(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.choose("Links", "Figures of the link…")
	require.Contains(t, s.state().Notice, "Select one link")
	s.choose("Edit", "Next link")
	s.choose("Links", "Figures of the link…")
	require.Equal(t, s.onCard("Way as typed"), s.window.Canvas().Focused(), "Ctrl I leads to the card")
	s.typeInto("Rise at near end", "two")
	s.press(fyne.KeyReturn)
	require.False(t, s.desk.Unsaved(), "what cannot be read stays in its field")
	s.typeInto("Rise at near end", "2.5 m")
	s.press(fyne.KeyReturn)
	s.typeInto("Way as typed", "62 m paced")
	s.press(fyne.KeyReturn)
	link := s.link("L01")
	require.Equal(t, []any{2.5, 62.0, plan.Paced}, []any{link.RiseFrom, link.TypedWay, link.TypedBy})
	require.Equal(t, "L01: way as typed", s.desk.NextUndo())
	s.choose("Links", "Figures of the link…")
	s.press(fyne.KeyReturn)
	require.Equal(t, "L01: way as typed", s.desk.NextUndo(), "kept as it is, it makes no step")
}

func TestEscapeClosesADialogAsItsCancelDoes(t *testing.T) {
	s := open(t, "light", demoFile(t))
	escape := func() {
		if focused := s.window.Canvas().Focused(); focused != nil {
			focused.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
			return
		}
		s.window.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyEscape})
	}
	s.choose("Edit", "Next link")
	for _, path := range [][]string{
		{"Plan", "Open…"},
		{"Plan", "Save as…"},
		{"Plan", "Print to PDF…"},
		{"Edit", "Find…"},
		{"Edit", "Rename…"},
		{"Links", "Link two ports…"},
		{"Links", "Lay cable…"},
		{"Help", "Cautions"},
	} {
		s.choose(path...)
		require.Equal(t, 1, s.state().Overlays, path)
		escape()
		require.Zero(t, s.state().Overlays, path)
	}
}

func TestEscapeClosesAFolderDialogAndThenWhatItLiesOn(t *testing.T) {
	s := open(t, "light", demoFile(t))
	escape := func() { s.window.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyEscape}) }
	for _, close := range []struct {
		name string
		do   func()
	}{
		{"by Escape", escape},
		{"by its Cancel", func() { s.tap("Cancel") }},
	} {
		t.Run(close.name, func(t *testing.T) {
			s.choose("Plan", "Save as…")
			s.tap("Browse…")
			require.Equal(t, 2, s.state().Overlays)
			close.do()
			require.Equal(t, 1, s.state().Overlays)
			escape()
			require.Zero(t, s.state().Overlays)
		})
	}
}
