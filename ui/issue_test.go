package ui_test

import (
	"testing"

	"github.com/stretchr/testify/require"
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
	issue("")
	require.Equal(t, "Issue revision A", s.desk.NextUndo())
	first := s.desk.Plan().Revisions.At(0)
	require.Equal(t, "A", first.Letter)
	require.Equal(t, "the venue moved the tower", first.Note)
	issue("A")
	require.Equal(t, 1, s.desk.Plan().Revisions.Len(), "a letter is not issued twice")
	s.tap("Cancel")
	issue("")
	require.Equal(t, "B", s.desk.Plan().Settings.Revision)
	require.Equal(t, 2, s.desk.Plan().Revisions.Len())
	s.desk.Undo()
	require.Equal(t, "A", s.desk.Plan().Settings.Revision)
}
