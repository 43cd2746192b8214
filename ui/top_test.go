package ui_test

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/ui/look"
)

// drawn are the single lines of the window that hold some words.
func (s *screen) drawn(words string) (found []*canvas.Text) {
	for _, object := range test.LaidOutObjects(s.window.Content()) {
		if line, is := object.(*canvas.Text); is && strings.Contains(line.Text, words) {
			found = append(found, line)
		}
	}
	return found
}

func (s *screen) edits(to string) {
	s.t.Helper()
	require.NoError(s.t, s.desk.Do("Place", func(e *plan.Edit) error {
		e.AddPosition(plan.Position{Name: to, Width: 1, Depth: 1})
		return nil
	}))
	s.app.Turn()
}

func TestNameRevisionAndNotSavedAreSeenInASmallWindow(t *testing.T) {
	for _, name := range []string{"light", "dark", "high contrast"} {
		s := open(t, name, demoFile(t))
		s.window.Resize(fyne.NewSize(1280, 800))
		s.edits("Another name")
		for _, words := range []string{"Harrow Meadow Weekender", "draft, not issued", "not saved"} {
			inTop := 0
			for _, line := range s.drawn(words) {
				at := fyne.CurrentApp().Driver().AbsolutePositionForObject(line)
				if at.Y < 44 && at.X+line.MinSize().Width <= 1280 && !strings.Contains(line.Text, "…") {
					inTop++
				}
			}
			require.Equal(t, 1, inTop, "%s in %s", words, name)
		}
		require.NotEmpty(t, s.drawn("stops the show"))
		over := 0
		for _, line := range s.drawn("1") {
			if line.Text == "1" && line.Color == look.PaletteNamed(name).GradeInk("over") {
				over++
			}
		}
		require.Equal(t, 1, over, "what stops the show is counted in the ink of over")
	}
}

func TestAMessageLeavesWithTheNextSelectionOrEdit(t *testing.T) {
	s := open(t, "light", demoFile(t))
	said := func() string { return s.state().Notice }
	s.choose("Edit", "Delete")
	require.NotEmpty(t, said(), "nothing is selected")
	s.choose("Edit", "Next link")
	require.Empty(t, said(), "a selection takes it away")
	s.desk.Select()
	s.choose("Edit", "Delete")
	require.NotEmpty(t, said())
	s.edits("Another name")
	require.Empty(t, said(), "an edit takes it away")
}
