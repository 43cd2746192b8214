package geom_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/geom"
)

var pt = geom.Pt

const tiny = 1e-9

func near(t require.TestingT, want, got geom.Point) {
	require.InDelta(t, want.X, got.X, tiny)
	require.InDelta(t, want.Y, got.Y, tiny)
}

func TestPoint(t *testing.T) {
	t.Run("a 3-4-5 triangle has the long side 5", func(t *testing.T) {
		require.InDelta(t, 5, pt(1, 1).Distance(pt(4, 5)), tiny)
		require.InDelta(t, 5, pt(3, 4).Length(), tiny)
	})
	t.Run("up is plus y and a quarter turn from right is up", func(t *testing.T) {
		near(t, pt(0, 1), pt(1, 0).Perpendicular())
		near(t, pt(0, 1), pt(1, 0).Rotate(math.Pi/2))
		require.InDelta(t, math.Pi/2, pt(0, 2).Angle(), tiny)
		near(t, pt(0, 2), geom.Polar(2, math.Pi/2))
		require.Positive(t, pt(1, 0).Cross(pt(0, 1)))
	})
	t.Run("the origin has no direction", func(t *testing.T) {
		require.Equal(t, pt(0, 0), pt(0, 0).Unit())
	})
	t.Run("the ends between two points are met exactly", func(t *testing.T) {
		p, q := pt(0.1, 0.7), pt(0.3, -123.4)
		require.Equal(t, p, p.Between(q, 0))
		require.Equal(t, q, p.Between(q, 1))
	})
	t.Run("NaN and infinities are not finite", func(t *testing.T) {
		require.True(t, pt(1, -2).Finite())
		require.False(t, pt(math.NaN(), 0).Finite())
		require.False(t, pt(0, math.Inf(-1)).Finite())
	})
}

func TestRoundMM(t *testing.T) {
	for name, c := range map[string]struct{ in, want float64 }{
		"a third of a metre keeps three digits": {1.0 / 3, 0.333},
		"halves go away from zero":              {0.0125, 0.013},
		"negative halves go away from zero":     {-0.0125, -0.013},
		"a whole number stays":                  {86, 86},
	} {
		t.Run(name, func(t *testing.T) { require.Equal(t, c.want, geom.RoundMM(c.in)) })
	}
	t.Run("there is no negative zero", func(t *testing.T) {
		require.False(t, math.Signbit(geom.RoundMM(-0.0001)))
		require.False(t, math.Signbit(pt(-0.0001, -0.0002).RoundMM().Y))
	})
	t.Run("rounding twice changes nothing and moves by half a millimetre at most", rapid.MakeCheck(func(t *rapid.T) {
		x := rapid.Float64Range(-1e5, 1e5).Draw(t, "x")
		once := geom.RoundMM(x)
		require.Equal(t, once, geom.RoundMM(once))
		require.InDelta(t, x, once, 0.0005+tiny)
	}))
}

func TestLine(t *testing.T) {
	ground := geom.Stretch{A: pt(0, 0), B: pt(10, 0)}
	t.Run("beside the line the distance is square to it", func(t *testing.T) {
		require.InDelta(t, 3, ground.Distance(pt(4, 3)), tiny)
		nearest, share := ground.Nearest(pt(4, 3))
		near(t, pt(4, 0), nearest)
		require.InDelta(t, 0.4, share, tiny)
	})
	t.Run("past an end the distance is to that end", func(t *testing.T) {
		require.InDelta(t, 5, ground.Distance(pt(13, 4)), tiny)
		require.InDelta(t, 5, ground.Distance(pt(-3, -4)), tiny)
	})
	t.Run("a line of no length is its point", func(t *testing.T) {
		dot := geom.Stretch{A: pt(1, 1), B: pt(1, 1)}
		require.InDelta(t, 5, dot.Distance(pt(4, 5)), tiny)
		require.Equal(t, pt(0, 0), dot.Direction())
		require.Zero(t, dot.Length())
	})
	t.Run("crossing lines meet in one point", func(t *testing.T) {
		p, ok := ground.Crossing(geom.Stretch{A: pt(2, -1), B: pt(4, 1)})
		require.True(t, ok)
		near(t, pt(3, 0), p)
	})
	t.Run("a touching end counts", func(t *testing.T) {
		p, ok := ground.Crossing(geom.Stretch{A: pt(10, 0), B: pt(10, 5)})
		require.True(t, ok)
		near(t, pt(10, 0), p)
	})
	t.Run("lines that would meet only when drawn longer do not cross", func(t *testing.T) {
		_, ok := ground.Crossing(geom.Stretch{A: pt(5, 1), B: pt(5, 4)})
		require.False(t, ok)
		_, ok = ground.Crossing(geom.Stretch{A: pt(11, -1), B: pt(11, 1)})
		require.False(t, ok)
	})
	t.Run("a line on top of another has no crossing", func(t *testing.T) {
		_, ok := ground.Crossing(geom.Stretch{A: pt(2, 0), B: pt(6, 0)})
		require.False(t, ok)
	})
}

func points(least int) *rapid.Generator[geom.Polyline] {
	one := rapid.Custom(func(t *rapid.T) geom.Point {
		coordinate := rapid.Float64Range(-500, 500)
		return pt(coordinate.Draw(t, "x"), coordinate.Draw(t, "y"))
	})
	return rapid.Custom(func(t *rapid.T) geom.Polyline { return rapid.SliceOfN(one, least, 8).Draw(t, "points") })
}

func TestPolyline(t *testing.T) {
	corner := geom.Polyline{pt(0, 0), pt(10, 0), pt(10, 0), pt(10, 5)}
	t.Run("its length is the sum of its lines", func(t *testing.T) {
		require.InDelta(t, 15, corner.Length(), tiny)
		require.Len(t, corner.Lines(), 3)
	})
	t.Run("a point along it has the direction of its line", func(t *testing.T) {
		p, direction := corner.At(12)
		near(t, pt(10, 2), p)
		near(t, pt(0, 1), direction)
	})
	t.Run("at a corner the direction is that of the line that ends there", func(t *testing.T) {
		p, direction := corner.At(10)
		near(t, pt(10, 0), p)
		near(t, pt(1, 0), direction)
	})
	t.Run("distances outside give the ends", func(t *testing.T) {
		p, direction := corner.At(-1)
		near(t, pt(0, 0), p)
		near(t, pt(1, 0), direction)
		p, direction = corner.At(99)
		near(t, pt(10, 5), p)
		near(t, pt(0, 1), direction)
	})
	t.Run("no points and one point are ways of no length", func(t *testing.T) {
		require.Zero(t, geom.Polyline{}.Length())
		require.Nil(t, geom.Polyline{}.Cut(0, 1))
		require.True(t, geom.Polyline{}.Box().Empty())
		p, direction := geom.Polyline{pt(2, 3)}.At(7)
		require.Equal(t, pt(2, 3), p)
		require.Equal(t, pt(0, 0), direction)
		require.InDelta(t, 5, geom.Polyline{}.Distance(pt(3, 4)), tiny)
	})
	t.Run("the nearest point tells how far along it lies", func(t *testing.T) {
		nearest, along, away := corner.Nearest(pt(12, 3))
		near(t, pt(10, 3), nearest)
		require.InDelta(t, 13, along, tiny)
		require.InDelta(t, 2, away, tiny)
	})
	t.Run("a cut keeps the corners between", func(t *testing.T) {
		require.Equal(t, geom.Polyline{pt(8, 0), pt(10, 0), pt(10, 0), pt(10, 1)}, corner.Cut(8, 11))
		require.Equal(t, corner.Cut(8, 11), corner.Cut(11, 8))
		require.Equal(t, geom.Polyline{pt(1, 0), pt(2, 0)}, corner.Cut(1, 2))
	})
	t.Run("the parts of a cut way are together as long as the way", rapid.MakeCheck(func(t *rapid.T) {
		way := points(2).Draw(t, "way")
		length := way.Length()
		at := rapid.Float64Range(0, 1).Draw(t, "share") * length
		require.InDelta(t, length, way.Cut(0, at).Length()+way.Cut(at, length).Length(), 1e-6)
		require.InDelta(t, length, way.Reversed().Length(), 1e-6)
	}))
	t.Run("a point of the way is found on the way", rapid.MakeCheck(func(t *rapid.T) {
		way := points(2).Draw(t, "way")
		p, _ := way.At(rapid.Float64Range(0, 1).Draw(t, "share") * way.Length())
		require.InDelta(t, 0, way.Distance(p), 1e-6)
		require.True(t, way.Box().Inset(-1e-6).Contains(p))
	}))
}

func TestBox(t *testing.T) {
	box := geom.BoxOf(pt(4, 1), pt(0, 3))
	t.Run("it spans its points, edges included", func(t *testing.T) {
		require.Equal(t, geom.Box{Min: pt(0, 1), Max: pt(4, 3)}, box)
		require.InDelta(t, 4, box.Width(), tiny)
		require.InDelta(t, 2, box.Height(), tiny)
		require.Equal(t, pt(2, 2), box.Centre())
		require.True(t, box.Contains(pt(4, 3)))
		require.False(t, box.Contains(pt(4, 3.001)))
		require.Equal(t, box, geom.BoxAround(pt(2, 2), 4, 2))
	})
	t.Run("an empty box adds nothing and holds nothing", func(t *testing.T) {
		none := geom.EmptyBox()
		require.True(t, none.Empty())
		require.Zero(t, none.Width())
		require.Zero(t, none.Height())
		require.Equal(t, pt(0, 0), none.Centre())
		require.Equal(t, box, none.Union(box))
		require.Equal(t, box, box.Union(none))
		require.False(t, none.Contains(pt(0, 0)))
		require.True(t, none.Inset(-5).Empty())
		require.True(t, box.ContainsBox(none))
	})
	t.Run("an inset larger than half the box leaves nothing", func(t *testing.T) {
		require.Equal(t, geom.Box{Min: pt(0.5, 1.5), Max: pt(3.5, 2.5)}, box.Inset(0.5))
		require.True(t, box.Inset(1.5).Empty())
	})
	t.Run("touching boxes overlap, parted ones do not", func(t *testing.T) {
		require.True(t, box.Overlaps(box.Shift(pt(4, 0))))
		require.False(t, box.Overlaps(box.Shift(pt(4.1, 0))))
		require.Equal(t, geom.Box{Min: pt(3, 2), Max: pt(4, 3)}, box.Intersection(box.Shift(pt(3, 1))))
	})
	t.Run("corners run counter-clockwise from the lower left", func(t *testing.T) {
		require.Equal(t, [4]geom.Point{pt(0, 1), pt(4, 1), pt(4, 3), pt(0, 3)}, box.Corners())
	})
	t.Run("a union holds both boxes", rapid.MakeCheck(func(t *rapid.T) {
		a, b := points(1).Draw(t, "a").Box(), points(1).Draw(t, "b").Box()
		both := a.Union(b)
		require.True(t, both.ContainsBox(a))
		require.True(t, both.ContainsBox(b))
		require.Equal(t, both, b.Union(a))
		require.True(t, a.ContainsBox(a.Intersection(b)))
	}))
}

func TestAWayMeetsABox(t *testing.T) {
	box := geom.BoxOf(geom.Pt(0, 0), geom.Pt(10, 4))
	cases := map[string]struct {
		way  geom.Polyline
		want bool
	}{
		"a point inside":            {geom.Polyline{geom.Pt(1, 1)}, true},
		"straight through":          {geom.Polyline{geom.Pt(-5, 2), geom.Pt(15, 2)}, true},
		"across a corner":           {geom.Polyline{geom.Pt(-1, 3), geom.Pt(2, 6)}, true},
		"past a corner":             {geom.Polyline{geom.Pt(-2, 3), geom.Pt(1, 6)}, false},
		"beside it":                 {geom.Polyline{geom.Pt(-5, 5), geom.Pt(15, 5)}, false},
		"upright through":           {geom.Polyline{geom.Pt(9, -5), geom.Pt(9, 15)}, true},
		"only its second stretch":   {geom.Polyline{geom.Pt(-5, 20), geom.Pt(5, 20), geom.Pt(5, -20)}, true},
		"nothing meets nothing":     {nil, false},
		"its box meets, it doesn't": {geom.Polyline{geom.Pt(-10, 2), geom.Pt(5, 17)}, false},
	}
	for name, test := range cases {
		t.Run(name, func(t *testing.T) { require.Equal(t, test.want, test.way.Meets(box)) })
	}
}
