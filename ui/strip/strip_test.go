package strip_test

import (
	"image"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/ui/look"
	"stageloom/ui/strip"
)

func TestTheWidget(t *testing.T) {
	app := test.NewTempApp(t)
	app.Settings().SetTheme(look.NewTheme(look.PaletteNamed("dark")))
	shown := strip.New(usual(t))
	window := test.NewTempWindow(t, shown)
	window.SetPadded(false)
	window.Resize(fyne.NewSize(930, 215))
	capture := func() *image.NRGBA { return window.Canvas().Capture().(*image.NRGBA) }
	still := capture()
	at := func(x, y float32) *desktop.MouseEvent {
		return &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x, y)}}
	}

	t.Run("it is painted on the panel's ground of the theme", func(t *testing.T) {
		require.Equal(t, look.PaletteNamed("dark").Panel, still.NRGBAAt(3, 3))
	})
	t.Run("pointing at a cable tells of it, and pointing away shows the strip as before", func(t *testing.T) {
		cell := strip.LayOut(usual(t), 930, 215).Cells[0].Centre()
		shown.MouseIn(at(float32(cell.X), float32(cell.Y)))
		require.NotEqual(t, still.Pix, capture().Pix)
		shown.MouseMoved(at(2, 2))
		require.Equal(t, still.Pix, capture().Pix)
		shown.MouseMoved(at(float32(cell.X), float32(cell.Y)))
		shown.MouseOut()
		require.Equal(t, still.Pix, capture().Pix)
	})
	t.Run("another run, size and theme show at once", func(t *testing.T) {
		shown.Set(many(t))
		other := capture()
		require.NotEqual(t, still.Pix, other.Pix)
		window.Resize(fyne.NewSize(700, 215))
		require.Equal(t, 700, capture().Rect.Dx())
		window.Resize(fyne.NewSize(930, 215))
		require.Equal(t, other.Pix, capture().Pix)
		app.Settings().SetTheme(look.NewTheme(look.PaletteNamed("light")))
		require.NotEqual(t, other.Pix, capture().Pix)
	})
	t.Run("at twice the scale it has four times the pixels", func(t *testing.T) {
		window.Canvas().(test.WindowlessCanvas).SetScale(2)
		require.Equal(t, image.Rect(0, 0, 1860, 430), window.Canvas().Capture().Bounds())
	})
	t.Run("it can be made no smaller than it can show", func(t *testing.T) {
		require.GreaterOrEqual(t, shown.MinSize().Width, float32(320))
	})
}
