package assets_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"image/png"
	"io"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/assets"
)

func TestIcon(t *testing.T) {
	t.Run("it is a square picture with clear corners and a drawing in it", func(t *testing.T) {
		picture, err := png.Decode(bytes.NewReader(assets.Icon()))
		require.NoError(t, err)
		require.Equal(t, 512, picture.Bounds().Dx())
		require.Equal(t, 512, picture.Bounds().Dy())
		_, _, _, corner := picture.At(0, 0).RGBA()
		require.Zero(t, corner)
		ground, limit, cable := picture.At(256, 60), picture.At(256, 125), picture.At(168, 358)
		require.NotEqual(t, ground, limit)
		require.NotEqual(t, ground, cable)
		require.NotEqual(t, limit, cable)
	})
	t.Run("what a caller writes into it stays with that caller", func(t *testing.T) {
		assets.Icon()[0] = 'x'
		require.Equal(t, byte(0x89), assets.Icon()[0])
	})
	t.Run("its drawing is well formed", func(t *testing.T) {
		drawing, err := os.Open("icon.svg")
		require.NoError(t, err)
		defer func() { require.NoError(t, drawing.Close()) }()
		decoder := xml.NewDecoder(drawing)
		shapes := 0
		for {
			token, err := decoder.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			require.NoError(t, err)
			if _, opens := token.(xml.StartElement); opens {
				shapes++
			}
		}
		require.Greater(t, shapes, 1)
	})
}
