package raster_test

import (
	"image"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/raster"
)

func TestDashesRunRoundCorners(t *testing.T) {
	// A way of 60 + 40 + 60 pixels on whole pixels; a dash covers the corner at 60 and a gap the one at 100.
	way := []raster.Point{{X: 10.5, Y: 10.5}, {X: 70.5, Y: 10.5}, {X: 70.5, Y: 50.5}, {X: 10.5, Y: 50.5}}
	place := func(distance float64) image.Point {
		switch {
		case distance < 60:
			return image.Pt(10+int(distance), 10)
		case distance < 100:
			return image.Pt(70, 10+int(distance-60))
		default:
			return image.Pt(70-int(distance-100), 50)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		on := rapid.Float64Range(3, 30).Draw(t, "on")
		off := rapid.Float64Range(3, 30).Draw(t, "off")
		dot := rapid.Float64Range(3, 10).Draw(t, "dot")
		phase := rapid.Float64Range(-100, 100).Draw(t, "phase")
		got := paint(80, 60, func(pen raster.Pen) {
			pen.Polyline(way, raster.Stroke{Width: 1, Colour: black, Dash: []float64{on, off, dot, off}, Phase: phase})
		})
		period := on + off + dot + off
		for distance := 1; distance < 160; distance++ {
			in := math.Mod(float64(distance)+phase+10*period, period)
			switch {
			case in > 1 && in < on-1, in > on+off+1 && in < on+off+dot-1:
				require.Greater(t, got.RGBAAt(place(float64(distance)).X, place(float64(distance)).Y).A, uint8(250))
			case in > on+1 && in < on+off-1, in > period-off+1 && in < period-1:
				require.Zero(t, got.RGBAAt(place(float64(distance)).X, place(float64(distance)).Y).A)
			}
		}
	})
}

func TestDashesKeepTheirPlaces(t *testing.T) {
	stroke := raster.Stroke{Width: 3, Colour: black, Dash: []float64{9, 5}}
	t.Run("on a line that starts far off the image", func(t *testing.T) {
		// 7,000,000 pixels are 500,000 times the period, so the line looks as if it started at the image.
		far := paint(100, 20, func(pen raster.Pen) {
			pen.Polyline([]raster.Point{{X: -7e6, Y: 10}, {X: 5e8, Y: 10}}, stroke)
		})
		near := paint(100, 20, func(pen raster.Pen) {
			pen.Polyline([]raster.Point{{X: 0, Y: 10}, {X: 100, Y: 10}}, stroke)
		})
		require.LessOrEqual(t, mostApart(far, near), 1)
	})
	t.Run("on a line that starts beyond all reach", func(t *testing.T) {
		far := paint(100, 20, func(pen raster.Pen) {
			pen.Polyline([]raster.Point{{X: -1.4e12, Y: 10}, {X: 1e13, Y: 10}}, stroke)
		})
		near := paint(100, 20, func(pen raster.Pen) {
			pen.Polyline([]raster.Point{{X: 0, Y: 10}, {X: 100, Y: 10}}, stroke)
		})
		require.LessOrEqual(t, mostApart(far, near), 8) // 1e13 leaves a thousandth of a pixel
	})
	t.Run("where a way point lies on a straight line", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			middle := rapid.Float64Range(1, 99).Draw(t, "middle")
			dash := raster.Stroke{
				Width: 3, Colour: black, Dash: []float64{9, 5},
				Cap: raster.Cap(rapid.IntRange(0, 2).Draw(t, "cap")), Phase: rapid.Float64Range(0, 14).Draw(t, "phase"),
			}
			bent := paint(100, 20, func(pen raster.Pen) {
				pen.Polyline([]raster.Point{{X: 5, Y: 10}, {X: middle, Y: 10}, {X: 95, Y: 10}}, dash)
			})
			straight := paint(100, 20, func(pen raster.Pen) {
				pen.Polyline([]raster.Point{{X: min(5, middle), Y: 10}, {X: 95, Y: 10}}, dash)
			})
			if middle >= 5 && middle <= 95 {
				require.LessOrEqual(t, mostApart(bent, straight), 2)
			}
		})
	})
	t.Run("finer than half a pixel they make a plain line", func(t *testing.T) {
		fine := stroke
		fine.Dash = []float64{0.1, 0.1}
		got := paint(100, 20, func(pen raster.Pen) { pen.Polyline([]raster.Point{{Y: 10}, {X: 100, Y: 10}}, fine) })
		require.InDelta(t, 300, covered(got), 1)
	})
	t.Run("dots of no length are round", func(t *testing.T) {
		got := paint(100, 20, func(pen raster.Pen) {
			pen.Polyline([]raster.Point{{X: 10, Y: 10}, {X: 85, Y: 10}},
				raster.Stroke{Width: 4, Colour: black, Dash: []float64{0, 10}, Cap: raster.RoundCap})
		})
		require.InEpsilon(t, 8*math.Pi*4, covered(got), 0.03)
	})
}

func TestCapsAndJoins(t *testing.T) {
	area := func(points []raster.Point, stroke raster.Stroke) float64 {
		stroke.Width, stroke.Colour = 10, black
		return covered(paint(100, 100, func(pen raster.Pen) { pen.Polyline(points, stroke) }))
	}
	line := []raster.Point{{X: 20, Y: 50}, {X: 80, Y: 50}}
	t.Run("a butt cap ends at the point", func(t *testing.T) {
		require.InDelta(t, 600, area(line, raster.Stroke{}), 0.5)
	})
	t.Run("two square caps add the square of the width", func(t *testing.T) {
		require.InDelta(t, 700, area(line, raster.Stroke{Cap: raster.SquareCap}), 0.5)
	})
	t.Run("two round caps add a circle", func(t *testing.T) {
		require.InDelta(t, 600+25*math.Pi, area(line, raster.Stroke{Cap: raster.RoundCap}), 2)
	})
	// Two arms of 40 meet at a right angle. Each arm ends on the corner point, so they share a square of 5 by 5.
	corner := []raster.Point{{X: 30, Y: 70}, {X: 30, Y: 30}, {X: 70, Y: 30}}
	arms := 2*40*10 - 25.0
	t.Run("a bevel join adds half the square at the corner", func(t *testing.T) {
		require.InDelta(t, arms+12.5, area(corner, raster.Stroke{Join: raster.BevelJoin}), 1)
	})
	t.Run("a mitre join adds the whole square", func(t *testing.T) {
		require.InDelta(t, arms+25, area(corner, raster.Stroke{Join: raster.MitreJoin}), 1)
	})
	t.Run("a round join adds a quarter circle", func(t *testing.T) {
		require.InDelta(t, arms+25*math.Pi/4, area(corner, raster.Stroke{}), 1)
	})
	t.Run("a very sharp mitre does not stick out", func(t *testing.T) {
		sharp := []raster.Point{{X: 10, Y: 50}, {X: 60, Y: 50}, {X: 10, Y: 51}}
		got := paint(100, 100, func(pen raster.Pen) {
			pen.Polyline(sharp, raster.Stroke{Width: 4, Colour: black, Join: raster.MitreJoin})
		})
		require.Zero(t, got.RGBAAt(66, 50).A)
	})
	t.Run("a line of one place is a dot with round caps and nothing with butt ones", func(t *testing.T) {
		dot := []raster.Point{{X: 50, Y: 50}, {X: 50, Y: 50}}
		require.InDelta(t, 25*math.Pi, area(dot, raster.Stroke{Cap: raster.RoundCap}), 2)
		require.Zero(t, area(dot, raster.Stroke{}))
	})
	t.Run("the outline of a polygon is joined at its first corner too", func(t *testing.T) {
		got := covered(paint(100, 100, func(pen raster.Pen) {
			pen.Polygon([]raster.Point{{X: 20, Y: 20}, {X: 80, Y: 20}, {X: 80, Y: 80}, {X: 20, Y: 80}}, hidden,
				raster.Stroke{Width: 10, Colour: black, Join: raster.MitreJoin})
		}))
		require.InDelta(t, 70*70-50*50, got, 1)
	})
	t.Run("casing lies on both sides and under the line", func(t *testing.T) {
		got := paint(9, 9, func(pen raster.Pen) {
			pen.Polyline([]raster.Point{{X: -5, Y: 4.5}, {X: 20, Y: 4.5}},
				raster.Stroke{Width: 1, Colour: red, Casing: 2, CasingColour: green})
		})
		for y, wanted := range []uint8{0, 0, 255, 255, 0, 255, 255, 0, 0} {
			require.Equal(t, wanted, got.RGBAAt(4, y).G, "row %d", y)
		}
		require.EqualValues(t, 255, got.RGBAAt(4, 4).R)
	})
}

func TestAScaleOfTwoDrawsTwiceAsLarge(t *testing.T) {
	face := typeface(t)
	draw := func(pen raster.Pen) {
		pen.RoundBox(raster.Box{Left: 4, Top: 4, Right: 40, Bottom: 20}, 4, hidden, raster.Stroke{Width: 2, Colour: black})
		pen.Polyline([]raster.Point{{X: 5, Y: 30}, {X: 45, Y: 33}}, raster.Stroke{Width: 2, Colour: black, Dash: []float64{6, 3}})
		pen.Text(raster.Point{X: 22, Y: 16}, "FOH", raster.Lettering{Face: face, Size: 12, Colour: black, Align: raster.AlignMiddle})
	}
	once, twice := covered(paint(50, 40, draw)), covered(paintAt(2, 100, 80, draw))
	require.InEpsilon(t, 4*once, twice, 0.02)
}

func TestNoCoordinatePanics(t *testing.T) {
	odd := rapid.OneOf(
		rapid.Float64(),
		rapid.SampledFrom([]float64{
			0, 50, 1e9, -1e9, 1e12, -1e200, math.MaxFloat64, -math.MaxFloat64, math.SmallestNonzeroFloat64,
			math.NaN(), math.Inf(1), math.Inf(-1),
		}),
		rapid.Float64Range(-100, 200),
	)
	face := typeface(t)
	rapid.Check(t, func(t *rapid.T) {
		points := make([]raster.Point, rapid.IntRange(0, 6).Draw(t, "points"))
		for i := range points {
			points[i] = raster.Point{X: odd.Draw(t, "x"), Y: odd.Draw(t, "y")}
		}
		stroke := raster.Stroke{
			Width: odd.Draw(t, "width"), Colour: black, Dash: rapid.SliceOfN(odd, 0, 4).Draw(t, "dash"),
			Phase: odd.Draw(t, "phase"), Casing: odd.Draw(t, "casing"), CasingColour: red,
			Cap: raster.Cap(rapid.IntRange(0, 2).Draw(t, "cap")), Join: raster.Join(rapid.IntRange(0, 2).Draw(t, "join")),
			Crisp: rapid.Bool().Draw(t, "crisp"),
		}
		box := raster.Box{Left: odd.Draw(t, "left"), Top: odd.Draw(t, "top"), Right: odd.Draw(t, "right"), Bottom: odd.Draw(t, "bottom")}
		require.NotPanics(t, func() {
			paintAt(odd.Draw(t, "scale"), 60, 50, func(pen raster.Pen) {
				pen.Polyline(points, stroke)
				pen.Polygon(points, green, stroke)
				pen.RoundBox(box, odd.Draw(t, "radius"), green, stroke)
				pen.Clip(box, func() { pen.Polyline(points, stroke) })
				if len(points) > 0 {
					pen.Text(points[0], "any", raster.Lettering{Face: face, Size: odd.Draw(t, "size"), Colour: black})
				}
			})
		})
	})
}

func TestAPointThatIsNoNumberBreaksTheLine(t *testing.T) {
	stroke := raster.Stroke{Width: 2, Colour: black}
	broken := paint(100, 20, func(pen raster.Pen) {
		pen.Polyline([]raster.Point{{X: 5, Y: 10}, {X: 30, Y: 10}, {X: math.NaN()}, {X: 60, Y: 10}, {X: 90, Y: 10}}, stroke)
	})
	require.InDelta(t, 2*(25+30), covered(broken), 0.5)
	require.Zero(t, broken.RGBAAt(45, 10).A)
}
