package ui_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
)

func TestTheLineCheckInTheWindow(t *testing.T) {
	s := openDay(t)
	s.press(fyne.KeyF9)
	var second plan.Input
	for input := range s.desk.Plan().Inputs.All() {
		if input.Number == 2 && input.Act == "" {
			second = input
		}
	}
	s.desk.Select(plan.RefOf(second))
	s.press(fyne.KeyF9)
	require.Equal(t, "*day.View", s.focus(), "F9 shows what is selected")
	s.press(fyne.KeyRight)
	s.press(fyne.KeyLeft)
	s.press(fyne.KeyReturn)
	require.Equal(t, 1, s.desk.Plan().LineChecks.Len())
	row := s.desk.Plan().LineChecks.At(0)
	require.Equal(t, []string{string(second.ID), plan.HeardOK}, []string{string(row.Input), row.Result})
	require.False(t, row.When().IsZero())
	s.press(fyne.KeyEscape)
	selection := s.desk.Selection()
	require.Len(t, selection, 1)
	require.Equal(t, plan.InputsTable, selection[0].Table, "the input that was shown is selected then")
	require.NotEqual(t, second.Key(), selection[0].Key, "which is the next one")

	s.desk.Select(plan.RefOf(second))
	s.shortcut(&desktop.CustomShortcut{KeyName: fyne.KeyUp, Modifier: fyne.KeyModifierAlt})
	require.True(t, s.sees(" in the line check."))
	moved, _ := s.desk.Plan().Inputs.Get(second.Key())
	require.Equal(t, 1, moved.CheckOrder)
	s.desk.Undo()
	s.desk.Select()
	s.shortcut(&desktop.CustomShortcut{KeyName: fyne.KeyDown, Modifier: fyne.KeyModifierAlt})
	require.True(t, s.sees("Select inputs in the table of inputs or of the patch first"))
	s.choose("Patch", "Line check")
	require.Equal(t, "*day.View", s.focus())
}
