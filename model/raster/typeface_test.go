package raster_test

import (
	"image"
	"strings"
	"testing"

	"github.com/go-fonts/dejavu/dejavusans"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/raster"
)

// typeface returns the face that the tests set text in.
func typeface(t testing.TB) *raster.Typeface {
	t.Helper()
	face, err := raster.ParseTypeface(dejavusans.TTF)
	require.NoError(t, err)
	return face
}

func TestMeasuringText(t *testing.T) {
	face := typeface(t)
	t.Run("the widths are those of the font", func(t *testing.T) {
		// Advances of DejaVu Sans 2.37, in 2048 parts of an em: H 1540, i 569, space 651.
		require.InDelta(t, (1540+569+651)*12.0/2048, face.Width("Hi ", 12), 1e-9)
	})
	t.Run("capitals are 1493 of 2048 parts of an em high", func(t *testing.T) {
		require.InDelta(t, 1493.0/2048*100, face.CapHeight(100), 0.05)
	})
	t.Run("all digits are as wide as each other", func(t *testing.T) {
		for _, digit := range "123456789" {
			require.InDelta(t, face.Width("0", 12), face.Width(string(digit), 12), 1e-9)
		}
	})
	t.Run("the width grows in proportion to the size", rapid.MakeCheck(func(t *rapid.T) {
		text := rapid.String().Draw(t, "text")
		require.InDelta(t, 3*face.Width(text, 7), face.Width(text, 21), 1e-6)
	}))
	t.Run("the signs of the trade are there", func(t *testing.T) {
		require.True(t, face.Has("−12.5 dB → 86 m · Ω ≥ ± … × °C é ß"))
		require.False(t, face.Has("漢"))
	})
	t.Run("bytes that are no font are refused", func(t *testing.T) {
		_, err := raster.ParseTypeface([]byte("no font"))
		require.ErrorContains(t, err, "read typeface")
	})
}

func TestFittingText(t *testing.T) {
	face := typeface(t)
	lettering := raster.Lettering{Face: face, Size: 12}
	t.Run("a text that fits stays whole", func(t *testing.T) {
		require.Equal(t, "FOH tower", lettering.Fit("FOH tower", lettering.Width("FOH tower")))
	})
	t.Run("no blank is left before the ellipsis", func(t *testing.T) {
		require.Equal(t, "FOH…", lettering.Fit("FOH tower", lettering.Width("FOH …")))
	})
	t.Run("nothing at all fits nowhere", func(t *testing.T) {
		require.Empty(t, lettering.Fit("FOH tower", 3))
	})
	t.Run("what is returned fits and starts the text", rapid.MakeCheck(func(t *rapid.T) {
		text := rapid.StringOf(rapid.RuneFrom([]rune("abc Wé·12"))).Draw(t, "text")
		width := rapid.Float64Range(0, 120).Draw(t, "width")
		got := lettering.Fit(text, width)
		require.LessOrEqual(t, lettering.Width(got), width)
		if got != text && got != "" {
			require.True(t, strings.HasPrefix(text, strings.TrimSuffix(got, raster.Ellipsis)))
		}
	}))
}

func TestPaintedText(t *testing.T) {
	face := typeface(t)
	at := raster.Point{X: 60, Y: 30}
	for name, align := range map[string]raster.Align{
		"starts at its point": raster.AlignLeft, "is centred on its point": raster.AlignMiddle, "ends at its point": raster.AlignRight,
	} {
		t.Run("a text "+name+" and lies in its box", func(t *testing.T) {
			lettering := raster.Lettering{Face: face, Size: 14, Colour: black, Align: align}
			box := lettering.Box(at, "Monitors")
			require.InDelta(t, at.X-float64(align)*box.Width()/2, box.Left, 1e-9)
			got := paint(140, 50, func(pen raster.Pen) { pen.Text(at, "Monitors", lettering) })
			inked := 0
			for y := range 50 {
				for x := range 140 {
					if got.RGBAAt(x, y).A == 0 {
						continue
					}
					inked++
					require.True(t, box.Outset(1).Contains(raster.Point{X: float64(x) + 0.5, Y: float64(y) + 0.5}), "%d, %d", x, y)
				}
			}
			require.Greater(t, inked, 200)
		})
	}
	t.Run("capitals stand midway about the middle", func(t *testing.T) {
		lettering := raster.Lettering{Face: face, Size: 40, Colour: black}
		got := paint(60, 60, func(pen raster.Pen) {
			pen.Text(raster.Point{X: 10, Y: lettering.Middle(30)}, "H", lettering)
		})
		above, below := 0, 0
		for y := range 60 {
			for x := range 60 {
				if got.RGBAAt(x, y).A > 0 && y < 30 {
					above++
				} else if got.RGBAAt(x, y).A > 0 {
					below++
				}
			}
		}
		require.InDelta(t, above, below, 30)
	})
	t.Run("after more sizes than are kept, text is painted as before", func(t *testing.T) {
		set := func(face *raster.Typeface) *image.RGBA {
			return paint(140, 50, func(pen raster.Pen) {
				pen.Text(at, "Monitors", raster.Lettering{Face: face, Size: 14, Colour: black})
			})
		}
		paint(60, 60, func(pen raster.Pen) {
			for size := 2.0; size < 60; size += 0.1 {
				pen.Text(at, "ABCDEFGHIJKLMNOPQRS", raster.Lettering{Face: face, Size: size, Colour: black})
			}
		})
		require.Zero(t, mostApart(set(typeface(t)), set(face)))
	})
}
