package assets_test

import (
	"encoding/xml"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/assets"
)

func TestDrawings(t *testing.T) {
	files, err := os.ReadDir("icons")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	t.Run("each is built in, 24 by 24 units, and filled without strokes", func(t *testing.T) {
		for _, file := range files {
			bytes, err := assets.Drawing(strings.TrimSuffix(file.Name(), ".svg"))
			require.NoError(t, err)
			var drawing struct {
				ViewBox string `xml:"viewBox,attr"`
				Paths   []struct {
					Fill   string `xml:"fill,attr"`
					Stroke string `xml:"stroke,attr"`
					D      string `xml:"d,attr"`
				} `xml:"path"`
			}
			require.NoError(t, xml.Unmarshal(bytes, &drawing), file.Name())
			require.Equal(t, "0 0 24 24", drawing.ViewBox, file.Name())
			require.Len(t, drawing.Paths, 1, file.Name())
			require.Equal(t, "#000000", drawing.Paths[0].Fill, file.Name())
			require.Empty(t, drawing.Paths[0].Stroke, file.Name())
			require.NotEmpty(t, drawing.Paths[0].D, file.Name())
		}
	})
	t.Run("one that is not there is refused by name", func(t *testing.T) {
		_, err := assets.Drawing("furniture")
		require.ErrorContains(t, err, `drawing "furniture"`)
	})
}
