package ui_test

import (
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
)

func TestAPlanWithoutANameTakesThatOfItsFirstFile(t *testing.T) {
	s := open(t, "light")
	s.choose("Plan", "Save as…")
	folder := t.TempDir()
	entries := s.entries()
	entries[0].SetText("Village fete")
	entries[1].SetText(folder)
	entries[0].OnSubmitted(entries[0].Text)
	require.Equal(t, "Village fete", s.desk.Plan().Settings.Name)
	require.Equal(t, filepath.Join(folder, "Village fete.stageloom"), s.desk.Path())
	require.False(t, s.desk.Unsaved())
}

func TestAFieldReachedByKeyHasItsTextSelected(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.choose("Plan", "Save as…")
	name, is := s.window.Canvas().Focused().(interface{ SelectedText() string })
	require.True(t, is)
	require.Equal(t, "Harrow Meadow Weekender.stageloom", name.SelectedText())
}

func TestUndoTakesBackWhatTheNoticeSaid(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.desk.Select(plan.RefOf(s.link("L04")))
	s.choose("Edit", "Delete")
	require.Contains(t, s.state().Notice, "Ctrl Z brings it back")
	s.choose("Edit", "Undo "+s.desk.NextUndo())
	require.Empty(t, s.state().Notice)
}

func TestHistoryClosesWithEscape(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.choose("Edit", "History…")
	require.Equal(t, 1, s.state().Overlays)
	s.window.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	require.Zero(t, s.state().Overlays)
}
