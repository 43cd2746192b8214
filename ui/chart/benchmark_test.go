package chart_test

import (
	"image"
	"testing"

	"stageloom/model/raster"
	"stageloom/ui/chart"
	"stageloom/ui/look"
)

// BenchmarkFrame reckons the curves, draws and paints the chart, as each move of a drag does.
func BenchmarkFrame(b *testing.B) {
	link, target := tight(), image.NewRGBA(image.Rect(0, 0, 280, 230))
	for b.Loop() {
		drawing := raster.NewDrawing(1)
		chart.Of(link).Draw(drawing, 280, 230, look.Palettes()[0], 0)
		drawing.Paint(target)
	}
}
