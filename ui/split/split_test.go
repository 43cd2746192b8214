package split_test

import (
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/require"

	"stageloom/ui/split"
)

// halves is a split of two blank things that need so much, shown in 401 by 301.
func halves(t *testing.T, of func(a, b fyne.CanvasObject) *split.Split, first, last float32) (*split.Split, fyne.Window) {
	t.Helper()
	test.NewTempApp(t)
	blank := func(least float32) fyne.CanvasObject {
		object := canvas.NewRectangle(color.Transparent)
		object.SetMinSize(fyne.NewSize(least, least))
		return object
	}
	s := of(blank(first), blank(last))
	w := test.NewTempWindow(t, s)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(401, 301))
	return s, w
}

func TestASplitSharesItsRoomBesideOneLine(t *testing.T) {
	s, _ := halves(t, split.Across, 50, 50)
	require.Equal(t, fyne.NewSize(200, 301), s.Leading.Size())
	require.Equal(t, fyne.NewPos(201, 0), s.Trailing.Position())
	require.Equal(t, fyne.NewSize(200, 301), s.Trailing.Size())
	s, _ = halves(t, split.Down, 50, 50)
	require.Equal(t, fyne.NewSize(401, 150), s.Leading.Size())
	require.Equal(t, fyne.NewPos(0, 151), s.Trailing.Position())
}

func TestASplitGivesNeitherLessThanItNeeds(t *testing.T) {
	s, _ := halves(t, split.Across, 120, 50)
	s.SetOffset(0)
	require.InDelta(t, 120, s.Leading.Size().Width, 0.01)
	s.SetOffset(1)
	require.InDelta(t, 50, s.Trailing.Size().Width, 0.01)
	require.Equal(t, fyne.NewSize(171, 120), s.MinSize())
}

func TestASplitOfWhichOneIsHiddenIsTheOther(t *testing.T) {
	s, _ := halves(t, split.Across, 50, 50)
	s.Trailing.Hide()
	s.Refresh()
	require.Equal(t, fyne.NewSize(401, 301), s.Leading.Size())
	s.Trailing.Show()
	s.Refresh()
	require.Equal(t, fyne.NewSize(200, 301), s.Leading.Size())
}

func TestTheLineIsDraggedAndTellsThatItCanBe(t *testing.T) {
	s, w := halves(t, split.Across, 50, 50)
	test.Drag(w.Canvas(), fyne.NewPos(202, 100), 60, 0)
	require.InDelta(t, 260, s.Leading.Size().Width, 0.5)
	require.InDelta(t, 0.65, s.Offset, 0.01)

	lineAt := func(x int) color.Color { return w.Canvas().Capture().At(x, 100) }
	primary := theme.Color(theme.ColorNamePrimary)
	require.NotEqual(t, color.NRGBAModel.Convert(primary), color.NRGBAModel.Convert(lineAt(260)))
	test.MoveMouse(w.Canvas(), fyne.NewPos(262, 100))
	require.Equal(t, color.NRGBAModel.Convert(primary), color.NRGBAModel.Convert(lineAt(260)))
	test.MoveMouse(w.Canvas(), fyne.NewPos(100, 100))
	require.NotEqual(t, color.NRGBAModel.Convert(primary), color.NRGBAModel.Convert(lineAt(260)))
}

func TestTheLineHasItsColourFromTheStart(t *testing.T) {
	s, w := halves(t, split.Across, 50, 50)
	at := color.NRGBAModel.Convert(w.Canvas().Capture().At(200, 100))
	require.Equal(t, color.NRGBAModel.Convert(theme.Color(theme.ColorNameSeparator)), at)
	w.SetContent(split.Down(s, canvas.NewRectangle(color.Transparent))) // made while shown, and painted before any refresh
	require.NotPanics(t, func() { w.Canvas().Capture() })
}

func TestTheCursorOverTheLineSaysWhichWayItGoes(t *testing.T) {
	for _, c := range []struct {
		of     func(a, b fyne.CanvasObject) *split.Split
		cursor desktop.Cursor
	}{{split.Across, desktop.HResizeCursor}, {split.Down, desktop.VResizeCursor}} {
		s, _ := halves(t, c.of, 50, 50)
		objects := test.WidgetRenderer(s).Objects()
		require.Equal(t, c.cursor, objects[len(objects)-1].(desktop.Cursorable).Cursor())
	}
}
