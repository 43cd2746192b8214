package raster_test

import (
	"image"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/raster"
)

// painted is a drawing of one unit a pixel on an image of that size.
func painted(wide, tall int, draw func(d *raster.Drawing)) *image.RGBA {
	d, target := raster.NewDrawing(1), image.NewRGBA(image.Rect(0, 0, wide, tall))
	draw(d)
	d.Paint(target)
	return target
}

func square(left, top, side float64, reversed bool) []raster.Point {
	a, b := raster.Point{X: left + side, Y: top}, raster.Point{X: left, Y: top + side}
	if reversed {
		a, b = b, a
	}
	return []raster.Point{{X: left, Y: top}, a, {X: left + side, Y: top + side}, b}
}

func TestRings(t *testing.T) {
	for _, c := range []struct {
		sentence string
		rings    [][]raster.Point
		want     float64
	}{
		{"one within another that turns the other way is a hole", [][]raster.Point{square(1, 1, 8, false), square(3, 3, 4, true)}, 64 - 16},
		{"one that turns the same way is none", [][]raster.Point{square(1, 1, 8, false), square(3, 3, 4, false)}, 64},
		{"those that share half a pixel have no seam there", [][]raster.Point{square(1, 1, 3.5, false), square(4.5, 1, 3.5, false)}, 7 * 3.5},
		{"one of two corners is left out", [][]raster.Point{square(1, 1, 2, false), square(3, 3, 4, false)[:2]}, 4},
		{"corners that are no numbers are left out", [][]raster.Point{append(square(1, 1, 2, false), raster.Point{X: math.NaN()})}, 4},
		{"none at all cover nothing", nil, 0},
	} {
		t.Run(c.sentence, func(t *testing.T) {
			require.InDelta(t, c.want, covered(painted(10, 10, func(d *raster.Drawing) { d.Rings(c.rings, black) })), 0.1)
		})
	}
	require.Zero(t, covered(painted(10, 10, func(d *raster.Drawing) { d.Rings([][]raster.Point{square(1, 1, 8, false)}, hidden) })))
}

func TestOutlinedText(t *testing.T) {
	lettering := raster.Lettering{Face: typeface(t), Size: 20, Colour: black}
	at := raster.Point{X: 60, Y: 60}
	outline := func(text string, degrees float64, set raster.Lettering) *image.RGBA {
		return painted(120, 120, func(d *raster.Drawing) { d.Outline(at, text, set, degrees) })
	}
	t.Run("it inks as much as painted text does, at the same place", func(t *testing.T) {
		got, want := outline("Hog", 0, lettering), paint(120, 120, func(pen raster.Pen) { pen.Text(at, "Hog", lettering) })
		require.InEpsilon(t, covered(want), covered(got), 0.01)
		require.Less(t, mostApart(got, want), 110, "letters begin at a quarter of a pixel there")
	})
	t.Run("a turn by 90° runs up from its point, pixel for pixel", func(t *testing.T) {
		level, up := outline("Lp", 0, lettering), outline("Lp", 90, lettering)
		require.Positive(t, covered(level))
		for y := range 120 {
			for x := range 120 {
				require.InDelta(t, level.RGBAAt(x, y).A, up.RGBAAt(y, 119-x).A, 2, "%d, %d", x, y)
			}
		}
	})
	t.Run("it lies between pixels", func(t *testing.T) {
		half := painted(120, 120, func(d *raster.Drawing) { d.Outline(raster.Point{X: 60, Y: 60.5}, "L", lettering, 0) })
		require.NotZero(t, mostApart(half, outline("L", 0, lettering)))
	})
	t.Run("it ends at its point, or is centred there", func(t *testing.T) {
		ends, centred := lettering, lettering
		ends.Align, centred.Align = raster.AlignRight, raster.AlignMiddle
		left := func(p *image.RGBA) int {
			for at := range 120 * 120 {
				if p.RGBAAt(at/120, at%120).A > 0 {
					return at / 120
				}
			}
			return -1
		}
		wide := lettering.Width("HH")
		require.InDelta(t, float64(left(outline("HH", 0, lettering)))-wide, left(outline("HH", 0, ends)), 1)
		require.InDelta(t, float64(left(outline("HH", 0, lettering)))-wide/2, left(outline("HH", 0, centred)), 1)
	})
	t.Run("what can't be set sets nothing", func(t *testing.T) {
		for _, nowhere := range []raster.Point{{X: math.NaN()}, {Y: math.Inf(1)}} {
			require.Zero(t, covered(painted(9, 9, func(d *raster.Drawing) { d.Outline(nowhere, "H", lettering, 0) })))
		}
		huge, faceless := lettering, lettering
		huge.Size, faceless.Face = math.Inf(1), nil
		require.Zero(t, covered(outline("H", 0, huge)))
		require.Zero(t, covered(outline("H", 0, faceless)))
		require.Zero(t, covered(outline("H", math.NaN(), lettering)))
		require.Zero(t, covered(outline("", 0, lettering)))
	})
}
