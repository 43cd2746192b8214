package goldentest

import (
	"bytes"
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// What two pictures of one window may differ by. Edges of letters are set a little otherwise by another version of the
// library that sets them, so a pixel counts as different where it is darker or lighter than all that lies within one pixel
// of it in the other picture, and by more than the shades vary there: a thin stroke between two pixels is in both of them,
// and pale. A letter that has moved by a pixel has no such pixel, one that is missing has dozens.
const (
	shade     = 16 // of 255 in a colour
	tile      = 24 // pixels, the side of the squares in which different pixels are counted
	mostATile = 8  // pixels of the 576 of a square
)

// Picture compares a picture of a whole window with the golden file of that path, a PNG. What differs is written to
// testdata/failed, to be looked at.
func Picture(t testing.TB, path string, made image.Image) {
	t.Helper()
	var coded bytes.Buffer
	require.NoError(t, (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&coded, made))
	golden, err := png.Decode(bytes.NewReader(kept(t, path, coded.Bytes())))
	require.NoError(t, err, path)
	if difference := Difference(golden, made); difference != "" {
		failed := filepath.Join("testdata", "failed", filepath.Base(path))
		require.NoError(t, os.MkdirAll(filepath.Dir(failed), 0o755))
		require.NoError(t, os.WriteFile(failed, coded.Bytes(), 0o644))
		require.Empty(t, difference, "%s is not %s; %s", failed, path, advice(t, path))
	}
}

// Difference says where two pictures differ by more than the edges of letters; blank where they show the same.
func Difference(golden, made image.Image) string {
	if golden.Bounds().Size() != made.Bounds().Size() {
		return fmt.Sprintf("%v instead of %v pixels", made.Bounds().Size(), golden.Bounds().Size())
	}
	a, b := pixels(golden), pixels(made)
	counts := map[image.Point]int{}
	worst := image.Point{}
	for y := range a.Rect.Dy() {
		if from := y * a.Stride; bytes.Equal(a.Pix[from:from+a.Stride], b.Pix[from:from+a.Stride]) {
			continue
		}
		for x := range a.Rect.Dx() {
			if near(a, b, x, y) && near(b, a, x, y) {
				continue
			}
			at := image.Pt(x/tile, y/tile)
			if counts[at]++; counts[at] > counts[worst] {
				worst = at
			}
		}
	}
	if counts[worst] <= mostATile {
		return ""
	}
	return fmt.Sprintf("%d pixels differ in the square of %d pixels at %v", counts[worst], tile, worst.Mul(tile))
}

// pixels is a picture whose corner is at 0, 0.
func pixels(from image.Image) *image.RGBA {
	to := image.NewRGBA(image.Rectangle{Max: from.Bounds().Size()})
	draw.Draw(to, to.Rect, from, from.Bounds().Min, draw.Src)
	return to
}

// near reports whether a pixel of one picture lies between the shades that are around its place in the other.
func near(one, other *image.RGBA, x, y int) bool {
	pixel, same := one.Pix[one.PixOffset(x, y):][:4], other.Pix[other.PixOffset(x, y):][:4]
	if bytes.Equal(pixel, same) {
		return true
	}
	for channel := range pixel {
		if !between(other, x, y, channel, pixel[channel], same[channel]) {
			return false
		}
	}
	return true
}

func between(other *image.RGBA, x, y, channel int, value, same uint8) bool {
	darkest, lightest := int(same), int(same)
	if apart := int(value) - int(same); max(apart, -apart) <= shade {
		return true
	}
	for v := max(0, y-1); v <= min(other.Rect.Dy()-1, y+1); v++ {
		for u := max(0, x-1); u <= min(other.Rect.Dx()-1, x+1); u++ {
			around := int(other.Pix[other.PixOffset(u, v)+channel])
			darkest, lightest = min(darkest, around), max(lightest, around)
		}
	}
	beyond := shade + lightest - darkest
	return int(value) >= darkest-beyond && int(value) <= lightest+beyond
}
