package strip_test

import (
	"fmt"
	"image"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/raster"
	"stageloom/ui/look"
	"stageloom/ui/strip"
)

// margins are so many bars, each of 1 dB more than the one before, from -3 dB on; the last has none yet.
func margins(count int) (bars []strip.Bar) {
	for n := range count {
		name := fmt.Sprintf("L%02d", n+1)
		bars = append(bars, strip.Bar{Link: plan.LinkID(name), Name: name, Standing: budget.Ample, MarginDB: float64(n) - 3, WantedDB: 1.5, Known: n < count-1})
	}
	return bars
}

func TestTheMarginsAreLaidOut(t *testing.T) {
	t.Run("each has a bar that a press hits, in order", func(t *testing.T) {
		l := strip.LayOutMargins(margins(8), 900, 200)
		require.Len(t, l.Boxes, 8)
		require.Zero(t, l.More)
		for n, box := range l.Boxes {
			at, some := l.BarAt(raster.Point{X: (box.Left + box.Right) / 2, Y: 120})
			require.True(t, some)
			require.Equal(t, n, at)
		}
		_, some := l.BarAt(raster.Point{X: 2, Y: 120})
		require.False(t, some)
	})
	t.Run("those without room are counted", func(t *testing.T) {
		l := strip.LayOutMargins(margins(300), 900, 200)
		require.Equal(t, 300, len(l.Bars)+l.More)
		require.Positive(t, l.More)
		require.Equal(t, "L01", l.Bars[0].Name)
		require.LessOrEqual(t, l.Boxes[len(l.Boxes)-1].Right, 900.0)
	})
	t.Run("where there is no room at all there is no bar", func(t *testing.T) {
		require.Empty(t, strip.LayOutMargins(margins(8), 90, 200).Boxes)
		require.Empty(t, strip.LayOutMargins(nil, 900, 200).Boxes)
	})
}

// written notes the texts that are drawn, each with where, and the broken lines.
type written struct {
	raster.Pen
	texts  map[string]raster.Point
	broken []float64
}

func (w *written) Text(at raster.Point, text string, lettering raster.Lettering) {
	w.texts[text] = at
	w.Pen.Text(at, text, lettering)
}

func (w *written) Polyline(points []raster.Point, stroke raster.Stroke) {
	if len(stroke.Dash) > 0 {
		w.broken = append(w.broken, points[0].Y)
	}
	w.Pen.Polyline(points, stroke)
}

func TestFiguresOfMarginsKeepOffTheLines(t *testing.T) {
	w := &written{Pen: raster.NewDrawing(1), texts: map[string]raster.Point{}}
	bars := margins(20)
	strip.LayOutMargins(bars, 796, 214).Draw(w, look.PaletteNamed("light"), -1)
	require.Len(t, w.broken, 1)
	line := w.broken[0]
	for _, bar := range bars {
		require.Contains(t, w.texts, bar.Name, "each is named in a window of 1280")
	}
	for n := range 19 {
		words := budget.TenthDB(float64(n) - 3)
		require.Contains(t, w.texts, words)
		foot := w.texts[words].Y
		require.False(t, line < foot+1 && line > foot-9, "%s stands on the line of what is wanted", words)
	}
	require.Greater(t, w.texts[budget.TenthDB(-3)].Y, w.texts["limit"].Y, "below its bar")
	require.Less(t, w.texts[budget.TenthDB(-3)].Y, w.texts["L01"].Y-9, "over its name")
	require.Contains(t, w.texts, "wanted 1.5 dB")
}

func TestTheMarginsOfThePlan(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(look.NewTheme(look.PaletteNamed("dark")))
	shown := strip.NewMargins()
	var chosen []plan.LinkID
	var passed []fyne.KeyName
	left := 0
	shown.Chosen = func(id plan.LinkID) { chosen = append(chosen, id) }
	shown.Key = func(name fyne.KeyName) { passed = append(passed, name) }
	shown.Leave = func() { left++ }
	shown.Set(margins(6))
	window := test.NewTempWindow(t, shown)
	window.SetPadded(false)
	window.Resize(fyne.NewSize(900, 200))
	key := func(name fyne.KeyName) { shown.TypedKey(&fyne.KeyEvent{Name: name}) }
	pixels := func() []byte { return window.Canvas().Capture().(*image.NRGBA).Pix }

	t.Run("a press selects the link of the bar, beside them none", func(t *testing.T) {
		box := shown.LaidOut().Boxes[2]
		shown.Tapped(&fyne.PointEvent{Position: fyne.NewPos(float32(box.Left)+4, 100)})
		require.Equal(t, []plan.LinkID{"L03"}, chosen)
		shown.Tapped(&fyne.PointEvent{Position: fyne.NewPos(3, 100)})
		require.Len(t, chosen, 1)
	})
	t.Run("keys go from bar to bar and choose", func(t *testing.T) {
		for _, name := range []fyne.KeyName{fyne.KeyRight, fyne.KeyRight, fyne.KeyReturn, fyne.KeyEnd, fyne.KeySpace, fyne.KeyLeft, fyne.KeyEnter, fyne.KeyHome, fyne.KeyEnter} {
			key(name)
		}
		require.Equal(t, []plan.LinkID{"L02", "L06", "L05", "L01"}, chosen[1:])
		key(fyne.KeyEscape)
		key(fyne.KeyF4)
		require.Equal(t, 1, left)
		require.Equal(t, []fyne.KeyName{fyne.KeyF4}, passed)
	})
	t.Run("focus and the bar pointed at are seen", func(t *testing.T) {
		still := pixels()
		shown.FocusGained()
		focused := pixels()
		require.NotEqual(t, still, focused)
		key(fyne.KeyRight)
		require.NotEqual(t, focused, pixels())
		shown.FocusLost()
	})
	t.Run("another look and other margins show at once", func(t *testing.T) {
		was := pixels()
		fyne.CurrentApp().Settings().SetTheme(look.NewTheme(look.PaletteNamed("light")))
		light := pixels()
		require.NotEqual(t, was, light)
		shown.Set(margins(3))
		require.NotEqual(t, light, pixels())
	})
}
