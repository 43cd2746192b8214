package raster_test

import (
	"image"
	"image/color"
	"image/draw"
	"math"
	"math/rand/v2"
	"runtime"
	"testing"

	"golang.org/x/image/vector"

	"stageloom/model/raster"
)

// wide and tall are the pixels of the benchmarks' image.
const wide, tall = 1600, 1000

// benchmarkLinks returns 750 links of three segments each, of the lengths that a plan in full view has.
func benchmarkLinks() [][]raster.Point {
	random := rand.New(rand.NewPCG(1, 2))
	links := make([][]raster.Point, 750)
	for i := range links {
		p := raster.Point{X: random.Float64() * wide, Y: random.Float64() * tall}
		links[i] = []raster.Point{p}
		for range 3 {
			p.X += (random.Float64() - 0.5) * 300
			p.Y += (random.Float64() - 0.5) * 200
			links[i] = append(links[i], p)
		}
	}
	return links
}

var blue = color.NRGBA{R: 0x00, G: 0x72, B: 0xB2, A: 0xFF}

// BenchmarkLinks paints the same links, 2 pixels wide and plain, with this painter and with golang.org/x/image/vector,
// each of whose paths is bounded to its own box: compare the figures of one run.
func BenchmarkLinks(b *testing.B) {
	links := benchmarkLinks()
	target := image.NewRGBA(image.Rect(0, 0, wide, tall))
	own := func(b *testing.B) {
		for b.Loop() {
			drawing := raster.NewDrawing(1)
			for _, link := range links {
				drawing.Polyline(link, raster.Stroke{Width: 2, Colour: blue})
			}
			drawing.Paint(target)
		}
	}
	b.Run("own painter, one band", func(b *testing.B) {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
		own(b)
	})
	b.Run("own painter, two workers", func(b *testing.B) {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(2))
		own(b)
	})
	b.Run("image vector, a path a link", func(b *testing.B) {
		rasterizer := new(vector.Rasterizer)
		for b.Loop() {
			for _, link := range links {
				paintWithVector(rasterizer, target, link)
			}
		}
	})
	b.Run("image vector, a path a segment", func(b *testing.B) {
		rasterizer := new(vector.Rasterizer)
		for b.Loop() {
			for _, link := range links {
				for i := 1; i < len(link); i++ {
					paintWithVector(rasterizer, target, link[i-1:i+1])
				}
			}
		}
	})
}

// paintWithVector paints a line 2 pixels wide through a rasterizer no larger than the line's own box.
func paintWithVector(r *vector.Rasterizer, target *image.RGBA, line []raster.Point) {
	box := raster.Box{Left: math.Inf(1), Top: math.Inf(1), Right: math.Inf(-1), Bottom: math.Inf(-1)}
	for _, p := range line {
		box = raster.Box{
			Left: min(box.Left, p.X), Top: min(box.Top, p.Y), Right: max(box.Right, p.X), Bottom: max(box.Bottom, p.Y),
		}
	}
	box = box.Outset(2)
	area := image.Rect(int(box.Left), int(box.Top), int(box.Right)+1, int(box.Bottom)+1).Intersect(target.Bounds())
	if area.Empty() {
		return
	}
	r.Reset(area.Dx(), area.Dy())
	r.DrawOp = draw.Over
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		length := math.Hypot(b.X-a.X, b.Y-a.Y)
		nx, ny := -(b.Y-a.Y)/length, (b.X-a.X)/length
		point := func(p raster.Point, side float64) (float32, float32) {
			return float32(p.X + nx*side - float64(area.Min.X)), float32(p.Y + ny*side - float64(area.Min.Y))
		}
		r.MoveTo(point(a, 1))
		r.LineTo(point(b, 1))
		r.LineTo(point(b, -1))
		r.LineTo(point(a, -1))
		r.ClosePath()
	}
	r.Draw(target, area, image.NewUniform(blue), image.Point{})
}

// BenchmarkDashedLinks is the plan's worst case: every link dashed, cased and lettered.
func BenchmarkDashedLinks(b *testing.B) {
	links := benchmarkLinks()
	target := image.NewRGBA(image.Rect(0, 0, wide, tall))
	face := typeface(b)
	white := color.NRGBA{R: 0xFF, G: 0xFF, B: 0xFF, A: 0xFF}
	for b.Loop() {
		drawing := raster.NewDrawing(1)
		drawing.RoundBox(raster.Box{Right: wide, Bottom: tall}, 0, white, raster.Stroke{})
		for _, link := range links {
			drawing.Polyline(link, raster.Stroke{
				Width: 2, Colour: blue, Dash: []float64{10, 4, 2, 4}, Casing: 1.5, CasingColour: white,
			})
			drawing.Text(link[1], "L123 +12", raster.Lettering{Face: face, Size: 12, Colour: blue})
		}
		drawing.Paint(target)
	}
}
