package picture_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/catalogue"
	"stageloom/model/geom"
	"stageloom/model/picture"
)

func TestPictograms(t *testing.T) {
	t.Run("each stays in its square, and no two are alike", func(t *testing.T) {
		square := geom.BoxOf(geom.Point{}, geom.Point{X: 1, Y: 1})
		for n, name := range picture.Pictograms() {
			drawn := picture.Pictogram(name)
			require.NotEmpty(t, drawn, name)
			for _, stroke := range drawn {
				require.Greater(t, len(stroke.Points), 1, name)
				for _, at := range stroke.Points {
					require.True(t, square.Contains(at), "%s: %v", name, at)
				}
			}
			for _, other := range picture.Pictograms()[:n] {
				require.NotEqual(t, picture.Pictogram(other), drawn, "%s and %s", other, name)
			}
		}
	})
	t.Run("every kind of the catalogue has one of its own group", func(t *testing.T) {
		used := map[string]bool{}
		for _, kind := range catalogue.DeviceKinds() {
			name := picture.PictogramOf(kind.Kind, kind.Ports)
			require.Contains(t, picture.Pictograms(), name, kind.Kind.Name)
			require.NotEqual(t, picture.PictogramAnything, name, kind.Kind.Name)
			used[name] = true
		}
		for _, name := range picture.Pictograms() {
			require.Equal(t, name != picture.PictogramAnything, used[name], "%s", name)
		}
	})
	t.Run("a name that is not known is any device", func(t *testing.T) {
		require.Equal(t, picture.Pictogram(picture.PictogramAnything), picture.Pictogram("no such name"))
	})
}
