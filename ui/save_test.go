package ui_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/desk"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/planfile"
	"stageloom/ui"
	"stageloom/ui/looptest"
)

func (s *screen) note(text string) {
	s.t.Helper()
	require.NoError(s.t, s.desk.Do("Note", func(e *plan.Edit) error {
		settings := e.Now().Settings
		settings.Note = text
		e.SetSettings(settings)
		return nil
	}))
}

func held(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(text)
}

func TestSaveAsUnderTheSameNameAsksAndProposesAnother(t *testing.T) {
	s := open(t, "light", demoFile(t))
	path := s.desk.Path()
	s.note("mine")
	require.NoError(t, os.WriteFile(path, []byte("theirs"), 0o600))
	s.choose("Plan", "Save as…")
	s.fill("Harrow Meadow Weekender.stageloom", filepath.Base(path))
	s.tap("Save")
	require.Equal(t, 1, s.state().Overlays, "asked")
	require.Equal(t, "theirs", held(t, path))
	s.tap("Save under another name")
	s.fill("weekender 2.stageloom", "weekender 2.stageloom")
	s.tap("Save")
	require.Zero(t, s.state().Overlays)
	require.Equal(t, "theirs", held(t, path))
	require.Equal(t, filepath.Join(filepath.Dir(path), "weekender 2.stageloom"), s.desk.Path())
	require.False(t, s.state().Unsaved)

	t.Run("and writes over it when told", func(t *testing.T) {
		path := s.desk.Path()
		require.NoError(t, os.WriteFile(path, []byte("theirs"), 0o600))
		s.note("mine again")
		s.choose("Plan", "Save")
		s.tap("Write over it")
		saved, _, err := planfile.Open(path)
		require.NoError(t, err)
		require.Equal(t, "mine again", saved.Settings.Note)
	})
}

func TestAFileThatIsGoneIsAskedAbout(t *testing.T) {
	s := open(t, "light", demoFile(t))
	path := s.desk.Path()
	s.note("mine")
	require.NoError(t, os.Remove(path))
	s.choose("Plan", "Save")
	s.tap("Cancel")
	require.NoFileExists(t, path)
	s.choose("Plan", "Save")
	s.tap("Save it here again")
	require.FileExists(t, path)
	require.False(t, s.state().Unsaved)
}

func TestANameThatWasNotTakenGivesThePlanNone(t *testing.T) {
	s := open(t, "light")
	folder := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(folder, "there.stageloom"), []byte("theirs"), 0o600))
	s.choose("Plan", "Save as…")
	s.fill("New plan.stageloom", "there")
	s.fillSecond(folder)
	s.tap("Save")
	s.tap("Cancel")
	require.Equal(t, "New plan", s.desk.Plan().Settings.Name)
	s.choose("Plan", "Save as…")
	s.fill("New plan.stageloom", "there")
	s.fillSecond(folder)
	s.tap("Save")
	s.tap("Replace")
	saved, _, err := planfile.Open(filepath.Join(folder, "there.stageloom"))
	require.NoError(t, err)
	require.Equal(t, "there", saved.Settings.Name)
}

func TestDamagedKindsAreToldOfBesideAPlanToo(t *testing.T) {
	folder := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(folder, "kinds.stageloom-kinds"), []byte("hello"), 0o600))
	d := desk.New(plan.NewIDSource(1, 2))
	t.Cleanup(d.Close)
	s := &screen{t: t, app: looptest.NewApp(t), desk: d}
	s.window, s.questions = ui.Open(s.app, d, house.Open(folder), demoFile(t))
	require.Contains(t, s.state().Notice, "kinds.stageloom-kinds")
}

func TestAJournalThatCannotBeReadOrKeptIsToldOfAtTheStart(t *testing.T) {
	folder := t.TempDir()
	leave(t, folder)
	path := filepath.Join(folder, "left.journal")
	require.NoError(t, os.WriteFile(path, []byte(held(t, path)[:200]), 0o600))
	d := desk.New(plan.NewIDSource(1, 2))
	d.KeepJournal(folder)
	d.NoJournal("HOME is not set")
	t.Cleanup(d.Close)
	s := &screen{t: t, app: looptest.NewApp(t), desk: d}
	s.window, s.questions = ui.Open(s.app, d, house.Library{})
	require.Contains(t, s.state().Notice, "cannot be recovered")
	require.Contains(t, s.state().Notice, "HOME is not set")
	require.FileExists(t, path+".damaged")
}

func TestThePlanOfAnotherComputerIsOfferedForTakingOver(t *testing.T) {
	path := demoFile(t)
	beside, err := planfile.LockPath(path)
	require.NoError(t, err)
	text, err := json.Marshal(planfile.Holder{Host: "another-computer", Process: 12})
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(beside, text, 0o600))
	s := open(t, "light", path)
	require.Equal(t, 1, s.state().Overlays)
	s.tap("Take it over")
	s.note("mine")
	s.choose("Plan", "Save")
	require.False(t, s.state().Unsaved)
}
