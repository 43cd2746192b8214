package paper_test

import (
	"bytes"
	"context"
	"image"
	"image/color"
	"image/jpeg"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/report/paper"
)

// halves is a picture of 400 by 200 pixels, its left half red and its right half yellow.
func halves() *image.NRGBA {
	pixels := image.NewNRGBA(image.Rect(0, 0, 400, 200))
	for y := range 200 {
		for x := range 400 {
			colour := color.NRGBA{R: 200, A: 255}
			if x >= 200 {
				colour = color.NRGBA{R: 240, G: 220, A: 255}
			}
			pixels.SetNRGBA(x, y, colour)
		}
	}
	return pixels
}

// turnedRight are the corners of a picture of 40 by 20 mm turned by 90° clockwise, its top left one at 60, 10 on the pen's box.
var turnedRight = [4]paper.Point{{X: 60, Y: 10}, {X: 60, Y: 50}, {X: 40, Y: 50}, {X: 40, Y: 10}}

func TestAPictureIsPlacedByItsCorners(t *testing.T) {
	for _, c := range []struct {
		sentence string
		at       [4]paper.Point
		want     string // the operators: clip, then the unit square to the picture (ISO 32000-1, 8.3.4 and 8.9.5)
	}{
		{
			// The square's own axes: to the right along the picture's top, and up from its bottom left corner.
			"turned by 90° clockwise", turnedRight,
			`q [\d. -]+ re W n\nq 0\.00000 -113\.38583 56\.69291 0\.00000 [\d.]+ [\d.]+ cm /I\w+ Do Q\nQ\n`,
		},
		{
			"upright",
			[4]paper.Point{{X: 10, Y: 10}, {X: 50, Y: 10}, {X: 50, Y: 30}, {X: 10, Y: 30}},
			`q [\d. -]+ re W n\nq 113\.38583 0\.00000 0\.00000 56\.69291 [\d.]+ [\d.]+ cm /I\w+ Do Q\nQ\n`,
		},
		{
			"turned askew it is clipped to its own outline",
			[4]paper.Point{{X: 40, Y: 10}, {X: 72, Y: 34}, {X: 60, Y: 50}, {X: 28, Y: 26}},
			`q [\d.]+ [\d.]+ m\n([\d.]+ [\d.]+ l\n){3}h\nW n\nq 90\.70866 -68\.03150 34\.01575 45\.35433 [\d.]+ [\d.]+ cm /I\w+ Do Q\nQ\n`,
		},
	} {
		t.Run(c.sentence, func(t *testing.T) {
			document := write(t, draw(func(b *paper.Book) {
				b.Pen(b.Take(100)).Placed(c.at, paper.PictureOf(halves()))
			}))
			content := sheets(t, document)[0].content
			require.Regexp(t, regexp.MustCompile(c.want), content)
		})
	}
}

func TestAProofShowsATurnedPictureWhereItStands(t *testing.T) {
	var box paper.Box
	chapter := draw(func(b *paper.Book) {
		box = b.Take(100)
		pen := b.Pen(box)
		pen.Clip(paper.Box{X: 0, Y: 0, W: 55, H: 100}, func() { pen.Placed(turnedRight, paper.PictureOf(halves())) })
	})
	const scale = 4
	proof, _, err := paper.Proof(context.Background(), setup(), 1, scale, chapter)
	require.NoError(t, err)
	for _, c := range []struct {
		sentence string
		x, y     float64
		want     color.RGBA
	}{
		{"the left half of the picture stands on top", 47, 20, color.RGBA{200, 0, 0, 255}},
		{"its right half below", 47, 40, color.RGBA{240, 220, 0, 255}},
		{"beside it is paper", 37, 20, color.RGBA{255, 255, 255, 255}},
		{"below it, too", 47, 52, color.RGBA{255, 255, 255, 255}},
		{"and where it is clipped", 58, 20, color.RGBA{255, 255, 255, 255}},
	} {
		// The painter keeps the lightness and the colour of a picture apart, in whole steps: one step more or less is its own.
		got := proof.RGBAAt(int((box.X+c.x)*scale), int((box.Y+c.y)*scale))
		require.InDelta(t, c.want.R, got.R, 1, c.sentence)
		require.InDelta(t, c.want.G, got.G, 1, c.sentence)
		require.InDelta(t, c.want.B, got.B, 1, c.sentence)
		require.Equal(t, c.want.A, got.A, c.sentence)
	}
}

func TestAPhotographIsPackedAsOneAndADrawingWithoutLoss(t *testing.T) {
	var coded bytes.Buffer
	require.NoError(t, jpeg.Encode(&coded, halves(), nil))
	photo := picture(t, coded.Bytes())
	for _, c := range []struct {
		sentence string
		picture  paper.Picture
		filter   string
		space    string
	}{
		{"a photograph", photo, "/DCTDecode", "/DeviceRGB"},
		{"a drawing", paper.PictureOf(halves()), "/FlateDecode", "/DeviceRGB"},
		{"a grey photograph", photo.Faded(1, true), "/DCTDecode", "/DeviceGray"},
		{"a grey drawing", paper.PictureOf(halves()).Faded(1, true), "/FlateDecode", "/DeviceGray"},
		{"a faded drawing", paper.PictureOf(halves()).Faded(0.5, false), "/FlateDecode", "/DeviceRGB"},
	} {
		t.Run(c.sentence, func(t *testing.T) {
			document := string(write(t, draw(func(b *paper.Book) {
				pen := b.Pen(b.Take(100))
				pen.Placed(turnedRight, c.picture)
				pen.Placed(turnedRight, c.picture)
			})))
			at := strings.Index(document, "/Subtype /Image")
			require.Positive(t, at)
			head := document[at : at+strings.Index(document[at:], "stream")]
			require.Contains(t, head, c.filter)
			require.Contains(t, head, c.space)
			require.Equal(t, 1, strings.Count(document, "/Subtype /Image"), "one used twice is kept once")
		})
	}
}

func TestAFadedPictureIsPale(t *testing.T) {
	at := func(p paper.Picture) color.RGBA {
		var box paper.Box
		proof, _, err := paper.Proof(context.Background(), setup(), 1, 4, draw(func(b *paper.Book) {
			box = b.Take(100)
			b.Pen(box).Placed(turnedRight, p)
		}))
		require.NoError(t, err)
		return proof.RGBAAt(int((box.X+50)*4), int((box.Y+20)*4))
	}
	whole := paper.PictureOf(halves())
	require.Equal(t, color.RGBA{227, 127, 127, 255}, at(whole.Faded(0.5, false)), "half way to white")
	// Lightness of 200, 0, 0 by ITU-R BT.601: 0.299 × 200 = 59.8.
	require.Equal(t, color.RGBA{60, 60, 60, 255}, at(whole.Faded(1, true)))
	require.Equal(t, color.RGBA{255, 255, 255, 255}, at(whole.Faded(0, false)), "not to be seen")
	require.Equal(t, whole.Faded(1, false), whole, "at full strength it is what it was")
}

func TestPicturesThatCannotBeSeenAreLeftOut(t *testing.T) {
	far := turnedRight
	far[2].Y = 1e9
	for _, c := range []struct {
		sentence string
		at       [4]paper.Point
		picture  paper.Picture
	}{
		{"no picture", turnedRight, paper.Picture{}},
		{"one without pixels", turnedRight, paper.PictureOf(image.NewGray(image.Rectangle{}))},
		{"all corners in one place", [4]paper.Point{}, paper.PictureOf(halves())},
		{"a corner out of reach", far, paper.PictureOf(halves())},
	} {
		t.Run(c.sentence, func(t *testing.T) {
			document := write(t, draw(func(b *paper.Book) { b.Pen(b.Take(100)).Placed(c.at, c.picture) }))
			require.NotContains(t, string(document), "/Subtype /Image")
		})
	}
}
