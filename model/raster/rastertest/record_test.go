package rastertest_test

import (
	"image/color"
	"testing"

	"github.com/go-fonts/dejavu/dejavusans"
	"github.com/stretchr/testify/require"

	"stageloom/model/raster"
	"stageloom/model/raster/rastertest"
)

func TestARecordTellsWhatWasDrawn(t *testing.T) {
	face, err := raster.ParseTypeface(dejavusans.TTF)
	require.NoError(t, err)
	record := new(rastertest.Record)
	record.Polyline([]raster.Point{{X: 1, Y: 2}, {X: 3.4, Y: 5.6}}, raster.Stroke{Width: 2, Colour: color.NRGBA{R: 0xFF, A: 0xFF}, Dash: []float64{4, 2}})
	record.Clip(raster.Box{Right: 10, Bottom: 20}, func() {
		record.RoundBox(raster.Box{Left: 1, Top: 1, Right: 9, Bottom: 9}, 3, color.NRGBA{G: 0xFF, A: 0xFF}, raster.Stroke{})
	})
	lettering := raster.Lettering{Face: face, Size: 12, Colour: color.NRGBA{A: 0xFF}, Align: raster.AlignRight}
	record.Text(raster.Point{X: 90, Y: 30}, "FOH", lettering)
	record.Text(raster.Point{}, "", lettering)
	require.Equal(t, `polyline line 2 #FF0000FF dash [4 2] through 1,2 3,6
clip 0,0 10,20
  box 1,1 9,9 radius 3 fill #00FF00FF
text 65,30 "FOH" size 12 #000000FF
`, record.String())
	require.Equal(t, "FOH", record.Words[0].Text)
	require.InDelta(t, 90, record.Words[0].Box.Right, 1e-9)
}
