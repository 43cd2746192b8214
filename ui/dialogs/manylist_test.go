package dialogs_test

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/ui/dialogs"
)

func numbered(from, to int) (lines []dialogs.Line) {
	for n := from; n < to; n++ {
		lines = append(lines, dialogs.Line{ID: fmt.Sprint("id", n), Words: fmt.Sprint("line ", n), Note: "note"})
	}
	return lines
}

func TestSeveralLinesAreSelectedByKeysAndByClicks(t *testing.T) {
	h := newHost(t)
	l := dialogs.NewManyList(h, "lines")
	var changed, entered, undone int
	l.Changed, l.Enter, l.Undo = func() { changed++ }, func() { entered++ }, func() { undone++ }
	l.Fill(numbered(0, 40), "nothing")
	h.window.SetContent(l.Content())
	h.window.Resize(fyne.NewSize(400, 300))
	press := func(keys ...fyne.KeyName) {
		for _, key := range keys {
			l.TypedKey(&fyne.KeyEvent{Name: key})
		}
	}
	h.window.Canvas().Focus(l)
	require.Equal(t, []int{0}, l.Selected(), "the cursor's line is selected where the list gets the keys")
	press(fyne.KeyDown, fyne.KeyDown)
	require.Equal(t, []int{2}, l.Selected())
	l.KeyDown(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
	press(fyne.KeyDown, fyne.KeyDown)
	l.KeyUp(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
	require.Equal(t, []int{2, 3, 4}, l.Selected())
	press(fyne.KeySpace)
	require.Equal(t, []int{2, 3}, l.Selected())
	press(fyne.KeyEnd)
	require.Equal(t, []int{39}, l.Selected())
	press(fyne.KeyHome, fyne.KeyPageDown, fyne.KeyPageUp, fyne.KeyReturn)
	require.Equal(t, []int{0}, l.Selected())
	require.Equal(t, 1, entered)
	l.TypedShortcut(&fyne.ShortcutUndo{})
	require.Equal(t, 1, undone)
	l.TypedShortcut(&fyne.ShortcutSelectAll{})
	require.Len(t, l.Selected(), 40)
	require.Positive(t, changed)

	rows := []desktop.Mouseable{}
	for _, object := range test.LaidOutObjects(h.window.Content()) {
		if row, is := object.(desktop.Mouseable); is && object.Visible() {
			rows = append(rows, row)
		}
	}
	require.Greater(t, len(rows), 3)
	rows[1].MouseDown(&desktop.MouseEvent{})
	require.Len(t, l.Selected(), 1)
	rows[3].MouseDown(&desktop.MouseEvent{Modifier: fyne.KeyModifierShift})
	require.Len(t, l.Selected(), 3)
	rows[2].MouseDown(&desktop.MouseEvent{Modifier: fyne.KeyModifierControl})
	require.Len(t, l.Selected(), 2)
	l.SelectNone()
	require.Empty(t, l.Selected())
}

func TestAListFilledAnewKeepsItsSelectionAndComesBackFromBelowItsEnd(t *testing.T) {
	h := newHost(t)
	l := dialogs.NewManyList(h, "lines")
	l.Fill(numbered(0, 200), "")
	h.window.SetContent(l.Content())
	h.window.Resize(fyne.NewSize(400, 300))
	l.SelectLine(150)
	l.Fill(numbered(100, 200), "")
	require.Equal(t, []int{50}, l.Selected(), "the line that was selected, where it is now")
	l.ScrollToBottom()
	l.Fill(numbered(0, 3), "")
	require.Zero(t, l.GetScrollOffset())
	require.Empty(t, l.Selected())
	l.Fill(numbered(0, 200), "")
	l.ScrollToBottom()
	below := l.GetScrollOffset()
	l.Fill(numbered(0, 60), "")
	require.Less(t, l.GetScrollOffset(), below)
	require.Positive(t, l.GetScrollOffset())
	l.Fill(nil, "Nothing holds “x”.")
	said := false
	for _, object := range test.LaidOutObjects(h.window.Content()) {
		if label, is := object.(*widget.Label); is && label.Text == "Nothing holds “x”." {
			said = true
		}
	}
	require.True(t, said)
	l.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	require.Empty(t, l.Selected())
	name, lines, _ := l.Listed()
	require.Equal(t, "lines", name)
	require.Empty(t, lines)
}

func TestKeysOfADialogWorkInItAloneAndEscapeSkipsWhatIsClosed(t *testing.T) {
	h := newHost(t)
	var closed, did int
	field := dialogs.NewEntry(h)
	d := dialog.NewCustomWithoutButtons("Below", field, h.window)
	h.keys.Escapable(func() { closed++; d.Hide() })
	h.keys.Does(map[fyne.KeyName]func(){fyne.KeyF3: func() { did++ }})
	d.Show()
	field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF3})
	require.Equal(t, 1, did)
	var above int
	over := h.show(&above)
	field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF3})
	require.Equal(t, 1, did, "what lies on top has no such key")
	over.Hide()
	field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF3})
	require.Equal(t, 2, did)
	field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	require.Equal(t, []int{1, 0}, []int{closed, above}, "the one on top was closed by its button")
	require.False(t, h.keys.Own(fyne.KeyF3))
}
