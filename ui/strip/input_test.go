package strip_test

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/model/budget"
	"stageloom/ui/look"
	"stageloom/ui/strip"
)

// held is a strip of three cables of 10, 20 and 30 m in a window, with what it asks for written down.
func held(t *testing.T) (*strip.Strip, *[]string) {
	t.Helper()
	test.NewTempApp(t).Settings().SetTheme(look.NewTheme(look.PaletteNamed("light")))
	run := strip.Run{Title: "Run of L01", Length: 60}
	start := 0.0
	for i, length := range []float64{10, 20, 30} {
		if i > 0 {
			run.Parts = append(run.Parts, strip.Part{What: budget.Coupler, Order: i + 1, Start: start})
		}
		run.Parts = append(run.Parts, strip.Part{What: budget.Cable, Order: i + 1, Start: start, Length: length, Labels: []string{fmt.Sprint(length)}})
		start += length
	}
	s := strip.New(run)
	asked := &[]string{}
	ask := func(format string, words ...any) { *asked = append(*asked, fmt.Sprintf(format, words...)) }
	s.Reorder = func(order, place int) { ask("reorder %d to %d", order, place) }
	s.Remove = func(order int) { ask("remove %d", order) }
	s.Menu = func(order int, _ fyne.Position) { ask("menu of %d", order) }
	s.Leave = func() { ask("leave") }
	w := test.NewTempWindow(t, s)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(800, 200))
	return s, asked
}

func event(x, y float32) fyne.PointEvent { return fyne.PointEvent{Position: fyne.NewPos(x, y)} }

// over is a place on the cable of an order.
func over(s *strip.Strip, order int) (x, y float32) {
	size := s.Size()
	layout := strip.LayOut(s.Run(), float64(size.Width), float64(size.Height))
	cell := layout.Cells[2*(order-1)]
	return float32(cell.Centre().X), float32(cell.Centre().Y)
}

func drag(s *strip.Strip, x, y, toX float32) {
	s.MouseDown(&desktop.MouseEvent{PointEvent: event(x, y), Button: desktop.MouseButtonPrimary})
	s.Dragged(&fyne.DragEvent{PointEvent: event((x+toX)/2, y)})
	s.Dragged(&fyne.DragEvent{PointEvent: event(toX, y)})
	s.MouseUp(&desktop.MouseEvent{PointEvent: event(toX, y), Button: desktop.MouseButtonPrimary})
	s.DragEnd()
}

func TestACableIsDraggedToAnotherPlace(t *testing.T) {
	s, asked := held(t)
	x, y := over(s, 1)
	third, _ := over(s, 3)
	drag(s, x, y, third+60)
	require.Equal(t, []string{"reorder 1 to 2"}, *asked)
	*asked = nil
	x, y = over(s, 3)
	drag(s, x, y, 10)
	require.Equal(t, []string{"reorder 3 to 0"}, *asked)
	*asked = nil
	x, y = over(s, 2)
	drag(s, x, y, x+5)
	require.Empty(t, *asked, "dropped where it was, it stays")
}

func TestEscapeGivesADragOfACableUp(t *testing.T) {
	s, asked := held(t)
	x, y := over(s, 1)
	s.MouseDown(&desktop.MouseEvent{PointEvent: event(x, y), Button: desktop.MouseButtonPrimary})
	s.Dragged(&fyne.DragEvent{PointEvent: event(x+300, y)})
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	s.DragEnd()
	require.Empty(t, *asked)
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	require.Equal(t, []string{"leave"}, *asked)
}

func TestKeysGoAlongTheCablesAndMoveThem(t *testing.T) {
	s, asked := held(t)
	s.FocusGained()
	for _, name := range []fyne.KeyName{fyne.KeyRight, fyne.KeyUp, fyne.KeyReturn, fyne.KeyDelete} {
		s.TypedKey(&fyne.KeyEvent{Name: name})
	}
	require.Equal(t, []string{"reorder 2 to 0", "menu of 1", "remove 1"}, *asked, "the cable that was moved stays held")
	s.FocusLost()
}

func TestARightClickAsksForTheMenuOfACable(t *testing.T) {
	s, asked := held(t)
	x, y := over(s, 3)
	s.MouseDown(&desktop.MouseEvent{PointEvent: event(x, y), Button: desktop.MouseButtonSecondary})
	require.Equal(t, []string{"menu of 3"}, *asked)
	s.MouseDown(&desktop.MouseEvent{PointEvent: event(2, 2), Button: desktop.MouseButtonSecondary})
	require.Len(t, *asked, 1, "beside the cables there is no menu")
}
