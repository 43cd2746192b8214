package planview_test

import (
	"bytes"
	"image"
	"image/draw"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/ui/look"
)

// framed reports whether the outermost line of pixels has the colour of the focus.
func (s *stand) framed() bool {
	picture := s.window.Canvas().Capture()
	r, g, b, _ := picture.At(500, 0).RGBA()
	wr, wg, wb, _ := look.PaletteNamed("light").Selection.RGBA()
	return r == wr && g == wg && b == wb
}

func TestTheFrameRoundThePlanComesWithKeysAlone(t *testing.T) {
	s := newStand(t, demo.Weekender(), 1000, 700)
	(&hand{s: s}).drag(geom.Point{X: 3, Y: 3})
	require.Equal(t, s.Editor, s.window.Canvas().Focused())
	require.False(t, s.framed(), "after a press")
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF9})
	require.True(t, s.framed(), "after a key")
	r, _, _, _ := s.window.Canvas().Capture().At(500, 1).RGBA()
	wr, _, _, _ := look.PaletteNamed("light").Selection.RGBA()
	require.NotEqual(t, wr, r, "one point wide")
	(&hand{s: s}).drag(geom.Point{X: 3, Y: 3})
	require.False(t, s.framed())
	s.FocusLost()
	s.FocusGained()
	require.True(t, s.framed(), "what keys brought back is seen")
}

// shot is what the window shows, without its outermost points, where lines of the ground begin.
func (s *stand) shot() []byte {
	whole := s.window.Canvas().Capture().(*image.NRGBA)
	inner := image.NewNRGBA(whole.Bounds().Inset(2))
	draw.Draw(inner, inner.Bounds(), whole, inner.Bounds().Min, draw.Src)
	return inner.Pix
}

func TestWhatIsLeftOnSiteIsSaidInTheCorner(t *testing.T) {
	s := newStand(t, demo.Weekender(), 1000, 700)
	s.shot() // with the border that a pan needs only from the second frame on
	s.SetUndone("")
	whole := s.shot()
	s.SetUndone(plan.Laid)
	require.False(t, bytes.Equal(whole, s.shot()))
	s.SetUndone("")
	require.True(t, bytes.Equal(whole, s.shot()), "all is back")
}
