package strip_test

import (
	"image"
	"testing"

	"stageloom/model/raster"
	"stageloom/ui/look"
	"stageloom/ui/strip"
)

// BenchmarkFrame lays out, draws and paints the strip of twelve pieces, as each move of a drag does.
func BenchmarkFrame(b *testing.B) {
	run, target := many(b), image.NewRGBA(image.Rect(0, 0, 1250, 240))
	for b.Loop() {
		drawing := raster.NewDrawing(1)
		strip.LayOut(run, 1250, 240).Draw(drawing, look.Palettes()[0], -1)
		drawing.Paint(target)
	}
}
