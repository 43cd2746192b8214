package look_test

import (
	"image"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/model/raster"
	"stageloom/model/raster/rastertest"
	"stageloom/ui/look"
)

func TestAPictureIsFoundByItsSourceAndFaintOnALevelThatIsNotShown(t *testing.T) {
	made := raster.NewImage(image.NewGray(image.Rect(0, 0, 4, 2)))
	mark := picture.Mark{Shape: picture.Image, Text: "drawing", Opacity: 0.5, Points: []geom.Point{{X: 1, Y: 2}, {X: 9, Y: 2}, {X: 9, Y: 6}, {X: 1, Y: 6}}}
	faint, lost := mark, mark
	faint.Faded, lost.Text = true, "lost"
	marks := []picture.Mark{mark, faint, lost}

	bare := &rastertest.Record{}
	picture.Draw(marks, look.NewInks(look.Palettes()[0]).Pen(bare))
	require.Empty(t, bare.Calls, "without pictures nothing is drawn")
	record := &rastertest.Record{}
	inks := look.NewInks(look.Palettes()[0]).With(func(source string) *raster.Image {
		if source == "drawing" {
			return made
		}
		return nil
	})
	picture.Draw(marks, inks.Pen(record))
	require.Equal(t, []string{
		"image 4×2 corners 1,2 9,2 9,6 1,6 opacity 0.50",
		"image 4×2 corners 1,2 9,2 9,6 1,6 opacity 0.12",
	}, record.Calls)
}
