package pointer_test

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/require"

	"stageloom/ui/pointer"
)

func TestANameHasItsRoomFirstAndANoteIsShortened(t *testing.T) {
	test.NewTempApp(t)
	l := pointer.NewNotedLine()
	l.After = "  "
	w := test.NewTempWindow(t, l.Line)
	w.SetPadded(false)
	const name, note = "R101 · 100 m · Cat 6A · Case 4 of the stage left", "with The long festival on the meadow since 1 June 2027, due 4 June 2027"
	need := fyne.MeasureText(name, theme.TextSize(), fyne.TextStyle{}).Width + 2*theme.InnerPadding()
	for _, each := range []struct {
		width float32
		cut   bool
	}{{1200, false}, {640, true}, {600, true}} {
		w.Resize(fyne.NewSize(each.width, 40))
		l.Set(name, note)
		require.Equal(t, each.cut, l.Cut(), each.width)
		require.GreaterOrEqual(t, l.Name.Size().Width, need, "the whole name is seen at %g", each.width)
		require.LessOrEqual(t, l.Note.Position().X+l.Note.MinSize().Width, each.width)
		require.GreaterOrEqual(t, l.Note.Position().X, l.Name.Size().Width)
		said := strings.TrimSuffix(strings.TrimSpace(l.Note.Text), "…")
		require.NotEmpty(t, said)
		require.True(t, strings.HasPrefix(note, said))
	}
	w.Resize(fyne.NewSize(640, 40))
	l.Set("R1", note)
	require.False(t, l.Cut(), "a short name leaves room")
	l.Set(strings.Repeat("long ", 60), note)
	require.True(t, l.Cut())
	require.GreaterOrEqual(t, l.Note.MinSize().Width, float32(40), "a name without end leaves the note a part")
	l.Set("R1", "")
	require.False(t, l.Cut())
	w.Resize(fyne.NewSize(1, 40))
	l.Set(name, note)
}
