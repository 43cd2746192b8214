package ui_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
)

func TestARevisionIsIssuedOnceUnderItsLetter(t *testing.T) {
	s := open(t, "light", demoFile(t))
	issue := func(letter string) {
		s.choose("Plan", "Issue a revision…")
		entries := s.entries()
		if letter != "" {
			entries[0].SetText(letter)
		}
		entries[1].SetText("the venue moved the tower")
		entries[1].OnSubmitted(entries[1].Text)
	}
	require.Contains(t, s.window.Title(), "draft, not issued")
	show := s.desk.Plan().Settings.Date
	issue("")
	require.Equal(t, "Issue revision A", s.desk.NextUndo())
	require.Equal(t, show, s.desk.Plan().Settings.Date, "the show is on the day it was on")
	require.Contains(t, s.window.Title(), "· revision A –")
	first := s.desk.Plan().Revisions.At(0)
	require.Equal(t, "A", first.Letter)
	require.Equal(t, "the venue moved the tower", first.Note)
	issue("A")
	require.Equal(t, 1, s.desk.Plan().Revisions.Len(), "a letter is not issued twice")
	s.tap("Cancel")
	require.NoError(t, s.desk.Do("Rename", func(e *plan.Edit) error {
		settings := e.Now().Settings
		settings.Site = "Upper field"
		e.SetSettings(settings)
		return nil
	}))
	require.Contains(t, s.window.Title(), "revision A + changes, not issued")
	issue("")
	require.Equal(t, "B", s.desk.Plan().Settings.Revision)
	require.Equal(t, 2, s.desk.Plan().Revisions.Len())
	s.desk.Undo()
	require.Equal(t, "A", s.desk.Plan().Settings.Revision)
}
