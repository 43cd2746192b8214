package raster_test

import (
	"image"
	"image/color"
	"math"
	"strings"

	"pgregory.net/rapid"

	"stageloom/model/raster"
)

var (
	black  = color.NRGBA{A: 0xFF}
	red    = color.NRGBA{R: 0xFF, A: 0xFF}
	green  = color.NRGBA{G: 0xFF, A: 0xFF}
	hidden color.NRGBA
)

// paint paints what is drawn, at scale 1, on an empty image.
func paint(wide, tall int, draw func(pen raster.Pen)) *image.RGBA {
	return paintAt(1, wide, tall, draw)
}

// paintAt paints what is drawn on an empty image of that many pixels.
func paintAt(scale float64, wide, tall int, draw func(pen raster.Pen)) *image.RGBA {
	drawing := raster.NewDrawing(scale)
	draw(drawing)
	target := image.NewRGBA(image.Rect(0, 0, wide, tall))
	drawing.Paint(target)
	return target
}

// covered is the area, in pixels, that black shapes cover on an image.
func covered(picture *image.RGBA) float64 {
	sum := 0
	for i := 3; i < len(picture.Pix); i += 4 {
		sum += int(picture.Pix[i])
	}
	return float64(sum) / 255
}

// digits shows how much of each pixel is covered, in ninths; a blank is nothing.
func digits(picture *image.RGBA) string {
	var text strings.Builder
	for y := range picture.Rect.Dy() {
		for x := range picture.Rect.Dx() {
			text.WriteByte(" 123456789"[int(math.Round(float64(picture.RGBAAt(x, y).A)*9/255))])
		}
		text.WriteByte('\n')
	}
	return text.String()
}

// mostApart is the largest difference between two images in any colour of any pixel.
func mostApart(a, b *image.RGBA) int {
	most := 0
	for i := range a.Pix {
		most = max(most, int(a.Pix[i])-int(b.Pix[i]), int(b.Pix[i])-int(a.Pix[i]))
	}
	return most
}

// drawPlace draws a point in and about an image of 100 × 80 pixels.
func drawPlace(t *rapid.T, name string) raster.Point {
	return raster.Point{X: rapid.Float64Range(-40, 140).Draw(t, name+" x"), Y: rapid.Float64Range(-40, 120).Draw(t, name+" y")}
}

// drawPicture draws some shapes of all sorts.
func drawPicture(t *rapid.T, face *raster.Typeface) func(pen raster.Pen) {
	var calls []func(pen raster.Pen)
	for range rapid.IntRange(1, 8).Draw(t, "shapes") {
		points := make([]raster.Point, rapid.IntRange(1, 5).Draw(t, "points"))
		for i := range points {
			points[i] = drawPlace(t, "point")
		}
		stroke := raster.Stroke{
			Width:  rapid.Float64Range(0, 9).Draw(t, "width"),
			Colour: color.NRGBA{R: 200, G: 90, A: rapid.Byte().Draw(t, "opacity")},
			Dash:   rapid.SliceOfN(rapid.Float64Range(0, 12), 0, 4).Draw(t, "dash"),
			Phase:  rapid.Float64Range(-50, 50).Draw(t, "phase"),
			Cap:    raster.Cap(rapid.IntRange(0, 2).Draw(t, "cap")),
			Join:   raster.Join(rapid.IntRange(0, 2).Draw(t, "join")),
			Casing: rapid.Float64Range(0, 3).Draw(t, "casing"), CasingColour: green,
			Crisp: rapid.Bool().Draw(t, "crisp"),
		}
		box := raster.Box{Left: points[0].X, Top: points[0].Y, Right: points[0].X + 50, Bottom: points[0].Y + 30}
		switch rapid.IntRange(0, 5).Draw(t, "kind") {
		case 0:
			calls = append(calls, func(pen raster.Pen) { pen.Polyline(points, stroke) })
		case 1:
			calls = append(calls, func(pen raster.Pen) { pen.Polygon(points, red, stroke) })
		case 2:
			calls = append(calls, func(pen raster.Pen) { pen.RoundBox(box, stroke.Phase, red, stroke) })
		case 3:
			calls = append(calls, func(pen raster.Pen) {
				pen.Text(points[0], "L07 +0 dB", raster.Lettering{Face: face, Size: 13, Colour: black})
			})
		case 4:
			calls = append(calls, func(pen raster.Pen) {
				pen.Clip(box, func() { pen.Polyline(points, stroke) })
			})
		case 5:
			place := onGround(points[0], stroke.Width*20, 40, stroke.Phase)
			calls = append(calls, func(pen raster.Pen) { pen.Image(place, checked, 0.6) })
		}
	}
	return func(pen raster.Pen) {
		for _, call := range calls {
			call(pen)
		}
	}
}

// checked is a picture of two colours.
var checked = raster.NewImage(halves(30, 20, red, green))
