package text_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/ui/text"
)

func TestAPreviewSaysWhatMovesAndWhatIsLost(t *testing.T) {
	p := demo.Weekender()
	before := patch.Of(p)
	line, other := before.House().Lines[0], before.House().Lines[1]
	after := func(edit func(*plan.Edit) error) text.PatchChanges {
		next, err := plan.Do(p, plan.NewIDSource(2, 2), edit)
		require.NoError(t, err)
		view := patch.Of(next)
		return text.PatchChanges{Before: before, After: view, Changes: patch.Changes(before, view)}
	}
	nothing := after(func(*plan.Edit) error { return nil })
	require.Equal(t, "Nothing moves.", nothing.Told())
	require.Empty(t, nothing.Counted())
	require.Empty(t, nothing.Rows())

	swapped := after(func(e *plan.Edit) error { return patch.Swap(e, "", line.Input.ID, other.Input.ID, true) })
	require.Equal(t, "2 inputs", swapped.Counted())
	require.True(t, strings.HasPrefix(swapped.Told(), "2 inputs changed, in House"), swapped.Told())
	rows := swapped.Rows()
	require.Equal(t, "House", rows[0][0])
	require.Equal(t, "1 "+line.Input.Name, rows[0][1])
	require.Equal(t, before.SocketWords(line.At)+" → "+before.SocketWords(other.At), rows[0][2])
	require.NotContains(t, rows[0][3], "→", "channels stay with it")
	require.Empty(t, rows[0][4])

	gone := after(func(e *plan.Edit) error { return patch.Unplug(e, "", line.Input.ID) })
	require.Contains(t, gone.Told(), "with a loss")
	at := slices.IndexFunc(gone.Rows(), func(row []string) bool { return row[0] == "House" })
	require.Contains(t, gone.Rows()[at][4], line.Input.Name+" was on "+before.SocketWords(line.At))
	require.Equal(t, before.SocketWords(line.At)+" → –", gone.Rows()[at][2])

	gone.Left = []patch.Left{{Where: plan.RefOf(line.Input), Words: "it stays"}}
	require.Equal(t, "it stays", gone.Rows()[0][4], "what finds no place stands first")
	require.Contains(t, gone.Told(), "1 without a place")

	put := after(func(e *plan.Edit) error {
		_, err := patch.InsertInput(e, patch.Insertion{At: other.Input.ID, Name: "Kick sub"})
		return err
	})
	require.Contains(t, put.Told(), "with another number")
	require.Equal(t, "new: 2 Kick sub", put.Rows()[0][1])
	require.Equal(t, "2 → 3 "+other.Input.Name, put.Rows()[1][1])
}
