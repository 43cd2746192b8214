package raster_test

import (
	"image"
	"image/draw"
	"math"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/raster"
)

func TestWhatABoxCovers(t *testing.T) {
	box := func(left, top, right, bottom float64) string {
		return digits(paint(5, 4, func(pen raster.Pen) {
			pen.RoundBox(raster.Box{Left: left, Top: top, Right: right, Bottom: bottom}, 0, black, raster.Stroke{})
		}))
	}
	grid := func(rows ...string) string { return strings.Join(rows, "\n") + "\n" }
	t.Run("whole pixels are covered whole", func(t *testing.T) {
		require.Equal(t, grid("     ", " 999 ", " 999 ", "     "), box(1, 1, 4, 3))
	})
	t.Run("a third of a pixel is covered to a third", func(t *testing.T) {
		require.Equal(t, grid("     ", " 993 ", " 993 ", "     "), box(1, 1, 3+1.0/3, 3))
	})
	t.Run("a corner of a third by a third covers a ninth", func(t *testing.T) {
		require.Equal(t, grid("33331", "99993", "99993", "     "), box(-5, 2.0/3, 4+1.0/3, 3))
	})
	t.Run("a box whose sides are swapped is empty", func(t *testing.T) {
		require.Zero(t, covered(paint(5, 4, func(pen raster.Pen) {
			pen.RoundBox(raster.Box{Left: 4, Top: 1, Right: 1, Bottom: 3}, 0, black, raster.Stroke{})
		})))
	})
	t.Run("a crisp outline lies on whole pixels wherever the box does", func(t *testing.T) {
		got := digits(paint(5, 4, func(pen raster.Pen) {
			pen.RoundBox(raster.Box{Left: 0.9, Top: 0.2, Right: 4.1, Bottom: 3.7}, 0, hidden,
				raster.Stroke{Width: 1.2, Colour: black, Crisp: true})
		}))
		require.Equal(t, grid("99999", "9   9", "9   9", "99999"), got)
	})
	t.Run("where an upright line passes, its two pixels share it", func(t *testing.T) {
		got := digits(paint(5, 2, func(pen raster.Pen) {
			pen.Polyline([]raster.Point{{X: 2, Y: -9}, {X: 2, Y: 9}}, raster.Stroke{Width: 10.0 / 9, Colour: black})
		}))
		require.Equal(t, grid(" 55  ", " 55  "), got)
	})
}

func TestAreasAddUp(t *testing.T) {
	t.Run("a circle covers pi times its radius squared", rapid.MakeCheck(func(t *rapid.T) {
		radius := rapid.Float64Range(2, 40).Draw(t, "radius")
		centre := raster.Point{X: rapid.Float64Range(45, 55).Draw(t, "x"), Y: 50}
		got := covered(paint(100, 100, func(pen raster.Pen) {
			pen.RoundBox(raster.CircleBox(centre, radius), radius, black, raster.Stroke{})
		}))
		require.InEpsilon(t, math.Pi*radius*radius, got, 0.03)
	}))
	t.Run("a ring covers its middle length times its width", rapid.MakeCheck(func(t *rapid.T) {
		radius := rapid.Float64Range(5, 40).Draw(t, "radius")
		got := covered(paint(100, 100, func(pen raster.Pen) {
			pen.RoundBox(raster.CircleBox(raster.Point{X: 50, Y: 50}, radius), radius, hidden,
				raster.Stroke{Width: 2, Colour: black})
		}))
		require.InEpsilon(t, 2*math.Pi*radius*2, got, 0.03)
	}))
	t.Run("a plain line covers its length times its width", rapid.MakeCheck(func(t *rapid.T) {
		a := raster.Point{X: rapid.Float64Range(10, 90).Draw(t, "ax"), Y: rapid.Float64Range(10, 90).Draw(t, "ay")}
		b := raster.Point{X: rapid.Float64Range(10, 90).Draw(t, "bx"), Y: rapid.Float64Range(10, 90).Draw(t, "by")}
		width := rapid.Float64Range(0.5, 6).Draw(t, "width")
		got := covered(paint(100, 100, func(pen raster.Pen) {
			pen.Polyline([]raster.Point{a, b}, raster.Stroke{Width: width, Colour: black})
		}))
		require.InDelta(t, math.Hypot(b.X-a.X, b.Y-a.Y)*width, got, 0.02*got+0.3)
	}))
}

func TestPixelsOfATriangleAreCoveredExactly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		corners := []raster.Point{drawPlace(t, "a"), drawPlace(t, "b"), drawPlace(t, "c")}
		got := paint(100, 80, func(pen raster.Pen) { pen.Polygon(corners, black, raster.Stroke{}) })
		for y := range 80 {
			for x := range 100 {
				wanted := 255 * areaInPixel(corners, float64(x), float64(y))
				require.InDelta(t, wanted, got.RGBAAt(x, y).A, 3, "pixel %d, %d", x, y)
			}
		}
	})
}

// areaInPixel cuts a shape without dents down to one pixel (Sutherland and Hodgman, Reentrant polygon clipping, 1974)
// and returns the area that is left (the shoelace formula).
func areaInPixel(shape []raster.Point, x, y float64) float64 {
	for _, depth := range []func(p raster.Point) float64{
		func(p raster.Point) float64 { return p.X - x },
		func(p raster.Point) float64 { return x + 1 - p.X },
		func(p raster.Point) float64 { return p.Y - y },
		func(p raster.Point) float64 { return y + 1 - p.Y },
	} {
		var kept []raster.Point
		for i, a := range shape {
			b := shape[(i+1)%len(shape)]
			if depth(a) >= 0 {
				kept = append(kept, a)
			}
			if (depth(a) >= 0) != (depth(b) >= 0) {
				share := depth(a) / (depth(a) - depth(b))
				kept = append(kept, raster.Point{X: a.X + (b.X-a.X)*share, Y: a.Y + (b.Y-a.Y)*share})
			}
		}
		shape = kept
	}
	sum := 0.0
	for i, a := range shape {
		b := shape[(i+1)%len(shape)]
		sum += a.X*b.Y - b.X*a.Y
	}
	return math.Abs(sum) / 2
}

func TestColoursBlend(t *testing.T) {
	t.Run("an opaque colour hides what is under it", func(t *testing.T) {
		got := paint(4, 4, func(pen raster.Pen) {
			all := raster.Box{Right: 4, Bottom: 4}
			pen.RoundBox(all, 0, green, raster.Stroke{})
			pen.RoundBox(all, 0, red, raster.Stroke{})
		})
		require.Equal(t, [4]uint8{255, 0, 0, 255}, [4]uint8(got.Pix[:4]))
	})
	t.Run("a colour that lets two fifths through mixes three to two", func(t *testing.T) {
		veil := red
		veil.A = 153
		got := paint(4, 4, func(pen raster.Pen) {
			all := raster.Box{Right: 4, Bottom: 4}
			pen.RoundBox(all, 0, green, raster.Stroke{})
			pen.RoundBox(all, 0, veil, raster.Stroke{})
		})
		require.Equal(t, [4]uint8{153, 102, 0, 255}, [4]uint8(got.Pix[:4]))
	})
	t.Run("parts of one line that overlap do not darken each other", func(t *testing.T) {
		veil := black
		veil.A = 100
		got := paint(20, 20, func(pen raster.Pen) {
			pen.Polyline([]raster.Point{{X: 2, Y: 10}, {X: 18, Y: 10}, {X: 2, Y: 10.5}},
				raster.Stroke{Width: 6, Colour: veil})
		})
		require.EqualValues(t, 100, got.RGBAAt(10, 10).A)
	})
}

func TestAPictureDoesNotDependOnHowItIsPainted(t *testing.T) {
	face := typeface(t)
	t.Run("nor on the number of workers and bands", func(t *testing.T) {
		before := runtime.GOMAXPROCS(0)
		t.Cleanup(func() { runtime.GOMAXPROCS(before) })
		rapid.Check(t, func(t *rapid.T) {
			draw := drawPicture(t, face)
			tall := rapid.IntRange(80, 700).Draw(t, "tall")
			whole := paint(100, tall, draw)
			part := raster.NewDrawing(1)
			draw(part)
			pieces := image.NewRGBA(whole.Rect)
			runtime.GOMAXPROCS(rapid.IntRange(1, 4).Draw(t, "processors"))
			x, y := rapid.IntRange(0, 100).Draw(t, "x"), rapid.IntRange(0, tall).Draw(t, "y")
			for _, box := range []image.Rectangle{
				image.Rect(0, 0, x, y), image.Rect(x, 0, 100, y), image.Rect(0, y, x, tall), image.Rect(x, y, 100, tall),
			} {
				part.PaintWithin(pieces, box)
			}
			require.Zero(t, mostApart(whole, pieces))
		})
	})
	t.Run("a shifted picture whose bare parts are painted is the picture painted at its new place", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			draw := drawPicture(t, face)
			dx, dy := rapid.IntRange(-120, 120).Draw(t, "dx"), rapid.IntRange(-100, 100).Draw(t, "dy")
			here := raster.NewDrawing(1)
			draw(here)
			// The drawing lies on a larger image so that moving its window moves the picture.
			moved := image.NewRGBA(image.Rect(0, 0, 100, 80))
			here.Paint(moved)
			bare := raster.Shift(moved, dx, dy)
			window := image.NewRGBA(image.Rect(-dx, -dy, 100-dx, 80-dy))
			here.Paint(window)
			require.LessOrEqual(t, len(bare), 2)
			shifted := &image.RGBA{Pix: moved.Pix, Stride: moved.Stride, Rect: window.Rect}
			for _, box := range bare {
				empty(t, shifted, box.Add(window.Rect.Min))
				here.PaintWithin(shifted, box.Add(window.Rect.Min))
			}
			require.Zero(t, mostApart(window, shifted))
		})
	})
}

// empty clears a part of an image.
func empty(t *rapid.T, picture *image.RGBA, box image.Rectangle) {
	require.True(t, box.In(picture.Rect))
	draw.Draw(picture, box, image.Transparent, image.Point{}, draw.Src)
}

func TestNothingIsPaintedOutsideTheClip(t *testing.T) {
	face := typeface(t)
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawPlace(t, "a"), drawPlace(t, "b")
		box := raster.Box{Left: math.Round(a.X), Top: math.Round(a.Y), Right: math.Round(b.X), Bottom: math.Round(b.Y)}
		draw := drawPicture(t, face)
		free := paint(100, 80, draw)
		clipped := paint(100, 80, func(pen raster.Pen) { pen.Clip(box, func() { draw(pen) }) })
		for y := range 80 {
			for x := range 100 {
				if box.Contains(raster.Point{X: float64(x), Y: float64(y)}) {
					require.Equal(t, free.RGBAAt(x, y), clipped.RGBAAt(x, y))
				} else {
					require.Zero(t, clipped.RGBAAt(x, y).A)
				}
			}
		}
	})
}
