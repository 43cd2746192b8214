package raster_test

import (
	"image"
	"image/color"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/raster"
	"stageloom/model/raster/rastertest"
)

var (
	white  = color.NRGBA{R: 0xFF, G: 0xFF, B: 0xFF, A: 0xFF}
	yellow = color.NRGBA{R: 0xF0, G: 0xE0, B: 0x20, A: 0xFF}
)

// halves is a picture whose left half is of one colour and whose right half of another.
func halves(wide, tall int, left, right color.NRGBA) *image.NRGBA {
	pixels := image.NewNRGBA(image.Rect(0, 0, wide, tall))
	for y := range tall {
		for x := range wide {
			colour := left
			if x >= wide/2 {
				colour = right
			}
			pixels.SetNRGBA(x, y, colour)
		}
	}
	return pixels
}

// onGround are the corners of a rectangle about a place, turned clockwise as one sees it on the image.
func onGround(middle raster.Point, wide, tall, degrees float64) [4]raster.Point {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	var corners [4]raster.Point
	for i, at := range [4]raster.Point{{X: -wide / 2, Y: -tall / 2}, {X: wide / 2, Y: -tall / 2}, {X: wide / 2, Y: tall / 2}, {X: -wide / 2, Y: tall / 2}} {
		corners[i] = raster.Point{X: middle.X + at.X*cos - at.Y*sin, Y: middle.Y + at.X*sin + at.Y*cos}
	}
	return corners
}

// requireNear wants a pixel of a colour, but for what turning it into lightness and colour rounds.
func requireNear(t *testing.T, target *image.RGBA, x, y int, want color.NRGBA) {
	t.Helper()
	got := target.RGBAAt(x, y)
	for _, part := range [][2]uint8{{got.R, want.R}, {got.G, want.G}, {got.B, want.B}, {got.A, want.A}} {
		require.InDelta(t, int(part[1]), int(part[0]), 3, "pixel %d, %d is %v and not %v", x, y, got, want)
	}
}

func TestAPictureLandsWhereItsCornersStand(t *testing.T) {
	from := raster.NewImage(halves(40, 20, blue, yellow))
	type pixel struct {
		x, y   int
		colour color.NRGBA
	}
	for _, c := range []struct {
		sentence string
		corners  [4]raster.Point
		pixels   []pixel
	}{
		{
			"upright", onGround(raster.Point{X: 50, Y: 50}, 40, 20, 0),
			[]pixel{{31, 41, blue}, {48, 58, blue}, {52, 41, yellow}, {69, 59, yellow}, {29, 50, hidden}, {70, 50, hidden}, {50, 39, hidden}, {50, 60, hidden}},
		},
		{
			"turned by 90° clockwise, its left half comes to stand on top", onGround(raster.Point{X: 50, Y: 50}, 40, 20, 90),
			[]pixel{{41, 31, blue}, {58, 48, blue}, {41, 52, yellow}, {58, 69, yellow}, {50, 29, hidden}, {50, 70, hidden}, {39, 50, hidden}, {60, 50, hidden}},
		},
		{
			"turned by half", onGround(raster.Point{X: 50, Y: 50}, 40, 20, 180),
			[]pixel{{31, 41, yellow}, {48, 58, yellow}, {52, 41, blue}, {69, 58, blue}},
		},
		{
			"turned by 45°, its corners are those of a lozenge", onGround(raster.Point{X: 50, Y: 50}, 40, 20, 45),
			[]pixel{{42, 42, blue}, {58, 58, yellow}, {64, 36, hidden}, {36, 64, hidden}, {50, 50 - 20, hidden}},
		},
		{
			"made smaller, by less than one of its halves", onGround(raster.Point{X: 50, Y: 50}, 12, 6, 0),
			[]pixel{{45, 50, blue}, {55, 50, yellow}, {43, 50, hidden}, {57, 50, hidden}},
		},
		{
			"made larger and over the edge of the target", onGround(raster.Point{X: 100, Y: 50}, 400, 200, 0),
			[]pixel{{0, 0, blue}, {80, 99, blue}},
		},
	} {
		t.Run(c.sentence, func(t *testing.T) {
			target := paint(100, 100, func(pen raster.Pen) { pen.Image(c.corners, from, 1) })
			for _, p := range c.pixels {
				requireNear(t, target, p.x, p.y, p.colour)
			}
		})
	}
}

func TestAPictureIsFadedClippedAndScaled(t *testing.T) {
	from := raster.NewImage(halves(40, 20, blue, blue))
	target := paintAt(2, 100, 100, func(pen raster.Pen) {
		pen.RoundBox(raster.Box{Right: 50, Bottom: 50}, 0, white, raster.Stroke{})
		pen.Clip(raster.Box{Left: 10, Top: 10, Right: 20, Bottom: 50}, func() {
			pen.Image(onGround(raster.Point{X: 20, Y: 20}, 40, 20, 0), from, 0.5)
		})
	})
	requireNear(t, target, 30, 40, color.NRGBA{R: 0x80, G: 0xB8, B: 0xD8, A: 0xFF})
	requireNear(t, target, 19, 40, white)
	requireNear(t, target, 41, 40, white)
	requireNear(t, target, 30, 19, white)
	requireNear(t, target, 30, 61, white)
}

func TestEverySortOfPictureIsTaken(t *testing.T) {
	box := image.Rect(3, 5, 24, 16) // odd sizes, and not from nought
	grey := image.NewGray(box)
	deep := image.NewNRGBA64(box)
	palette := image.NewPaletted(box, color.Palette{blue, yellow})
	photo := image.NewYCbCr(box, image.YCbCrSubsampleRatio422)
	lightness, cb, cr := color.RGBToYCbCr(blue.R, blue.G, blue.B)
	for i := range photo.Y {
		photo.Y[i] = lightness
	}
	for i := range photo.Cb {
		photo.Cb[i], photo.Cr[i] = cb, cr
	}
	for y := box.Min.Y; y < box.Max.Y; y++ {
		for x := box.Min.X; x < box.Max.X; x++ {
			grey.SetGray(x, y, color.Gray{Y: 77})
			deep.Set(x, y, blue)
		}
	}
	for _, c := range []struct {
		sentence string
		from     image.Image
		colour   color.NRGBA
	}{
		{"grey", grey, color.NRGBA{R: 77, G: 77, B: 77, A: 255}},
		{"sixteen bits a channel", deep, blue},
		{"of a palette", palette, blue},
		{"a photograph", photo, blue},
		{"transparent, laid on white", image.NewNRGBA(box), white},
	} {
		t.Run(c.sentence, func(t *testing.T) {
			made := raster.NewImage(c.from)
			wide, tall := made.Size()
			require.Equal(t, []int{21, 11}, []int{wide, tall})
			for _, size := range []float64{1.4, 20, 60} { // smaller than a pixel of the last halves, too
				target := paint(60, 60, func(pen raster.Pen) { pen.Image(onGround(raster.Point{X: 30, Y: 30}, size*2, size, 0), made, 1) })
				requireNear(t, target, 30, 30, c.colour)
			}
		})
	}
}

func TestAFinePatternBecomesItsMeanWhenItIsMadeSmaller(t *testing.T) {
	pixels := image.NewGray(image.Rect(0, 0, 512, 512))
	for i := range pixels.Pix {
		pixels.Pix[i] = uint8(i%2) * 200
	}
	from := raster.NewImage(pixels)
	target := paint(40, 40, func(pen raster.Pen) { pen.Image(onGround(raster.Point{X: 20, Y: 20}, 37, 37, 0), from, 1) })
	for at := 3; at < 36; at++ {
		requireNear(t, target, at, 20, color.NRGBA{R: 100, G: 100, B: 100, A: 255})
	}
}

func TestPicturesThatCannotBeSeenDrawNothing(t *testing.T) {
	from := raster.NewImage(halves(40, 20, blue, yellow))
	place := onGround(raster.Point{X: 50, Y: 50}, 40, 20, 30)
	far := place
	far[1].X = 1e12
	none := place
	none[3].Y = math.NaN()
	for _, c := range []struct {
		sentence string
		corners  [4]raster.Point
		from     *raster.Image
		opacity  float64
	}{
		{"no picture", place, nil, 1},
		{"one without pixels", place, raster.NewImage(image.NewGray(image.Rectangle{})), 1},
		{"without opacity", place, from, 0},
		{"opacity that is no number", place, from, math.NaN()},
		{"a corner that is no number", none, from, 1},
		{"a corner out of reach", far, from, 1},
		{"all corners in one place", [4]raster.Point{}, from, 1},
		{"a sliver thinner than anything", onGround(raster.Point{X: 50.5, Y: 50.5}, 40, 1e-9, 0), from, 1},
	} {
		t.Run(c.sentence, func(t *testing.T) {
			target := paint(100, 100, func(pen raster.Pen) { pen.Image(c.corners, c.from, c.opacity) })
			require.Zero(t, covered(target))
		})
	}
}

func TestPicturesSideBySideHaveNoSeamAndDoNotOverlap(t *testing.T) {
	from := raster.NewImage(halves(30, 30, blue, blue))
	rapid.Check(t, func(r *rapid.T) {
		turn := rapid.Float64Range(-200, 200).Draw(r, "turn") * math.Pi / 180
		sin, cos := math.Sincos(turn)
		at := func(x, y float64) raster.Point { return raster.Point{X: 40 + x*cos - y*sin, Y: 40 + x*sin + y*cos} }
		target := paint(80, 80, func(pen raster.Pen) {
			pen.Image([4]raster.Point{at(-30, -20), at(0, -20), at(0, 20), at(-30, 20)}, from, 0.5)
			pen.Image([4]raster.Point{at(0, -20), at(30, -20), at(30, 20), at(0, 20)}, from, 0.5)
		})
		twice, bare := 0, 0
		for step := -15.0; step <= 15; step++ { // along the edge that both share
			on := at(0, step)
			switch alpha := target.RGBAAt(int(on.X), int(on.Y)).A; {
			case alpha > 0x90:
				twice++
			case alpha < 0x70:
				bare++
			}
		}
		require.LessOrEqual(r, twice+bare, 1, "but for a middle that lies on the edge itself")
	})
}

func TestAPictureIsTheSameInParts(t *testing.T) {
	from := raster.NewImage(halves(300, 200, blue, yellow))
	rapid.Check(t, func(r *rapid.T) {
		corners := onGround(drawPlace(r, "middle"), rapid.Float64Range(0.01, 900).Draw(r, "wide"), rapid.Float64Range(0.01, 900).Draw(r, "tall"), rapid.Float64Range(-360, 360).Draw(r, "turn"))
		drawing := raster.NewDrawing(1)
		drawing.Image(corners, from, 0.7)
		whole, parts := image.NewRGBA(image.Rect(-5, -7, 100, 300)), image.NewRGBA(image.Rect(-5, -7, 100, 300))
		drawing.Paint(whole)
		x, y := rapid.IntRange(-5, 100).Draw(r, "x"), rapid.IntRange(-7, 300).Draw(r, "y")
		for _, part := range []image.Rectangle{
			{Min: image.Pt(-5, -7), Max: image.Pt(x, y)},
			{Min: image.Pt(x, -7), Max: image.Pt(100, y)},
			{Min: image.Pt(-5, y), Max: image.Pt(x, 300)},
			{Min: image.Pt(x, y), Max: image.Pt(100, 300)},
		} {
			drawing.PaintWithin(parts, part)
		}
		require.Zero(r, mostApart(whole, parts))
	})
}

func TestARecordSaysWhichPictureStandsWhere(t *testing.T) {
	record := &rastertest.Record{}
	record.Image(onGround(raster.Point{X: 50, Y: 50}, 40, 20, 0), raster.NewImage(halves(40, 20, blue, yellow)), 0.5)
	record.Image([4]raster.Point{}, nil, 1)
	require.Equal(t, "image 40×20 corners 30,40 70,40 70,60 30,60 opacity 0.50\n", record.String())
}

// BenchmarkImage paints the same view with a picture of a hundredth of the pixels and the whole of it: compare the figures
// of one run, which should be near each other.
func BenchmarkImage(b *testing.B) {
	target := image.NewRGBA(image.Rect(0, 0, wide, tall))
	for _, size := range []int{400, 4000} {
		from := raster.NewImage(halves(size, size*3/4, blue, yellow))
		b.Run(map[int]string{400: "small", 4000: "large"}[size], func(b *testing.B) {
			for b.Loop() {
				drawing := raster.NewDrawing(1)
				drawing.Image(onGround(raster.Point{X: wide / 2, Y: tall / 2}, 2400, 1800, 17), from, 0.5)
				drawing.Paint(target)
			}
		})
	}
}

// An edge that lies on the middles of pixels, but for a turn that is hardly one, is where a rounding shows first.
func TestAPictureIsTheSameWhereverItsTargetBegins(t *testing.T) {
	here := raster.NewDrawing(1)
	here.Image(onGround(raster.Point{X: 0.5, Y: 3.875}, 180, 40, 1.52587890625e-05), checked, 0.6)
	for _, dx := range []int{1, 7, 40, -60} {
		moved := image.NewRGBA(image.Rect(0, 0, 100, 80))
		here.Paint(moved)
		raster.Shift(moved, dx, 0)
		window := image.NewRGBA(image.Rect(-dx, 0, 100-dx, 80))
		here.Paint(window)
		kept := image.Rect(max(0, dx), 0, min(100, 100+dx), 80)
		for y := kept.Min.Y; y < kept.Max.Y; y++ {
			for x := kept.Min.X; x < kept.Max.X; x++ {
				require.Equal(t, window.RGBAAt(x-dx, y), moved.RGBAAt(x, y), "%d, %d of one moved by %d", x, y, dx)
			}
		}
	}
}
