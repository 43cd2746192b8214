package picture_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/model/plan"
)

// drawnOver is a plan on a picture of 200 by 100 m, turned.
func drawnOver(degrees float64) *picture.Scene {
	s := twoBoxes()
	s.Areas = []picture.AreaFigure{{ID: "a-22222", Name: "Stage", Use: "stage", Corners: []geom.Point{{}, {X: 30}, {X: 30, Y: 20}, {Y: 20}}}}
	s.Images = []picture.ImageFigure{{
		Ref: plan.Ref{Table: "site_pictures", Key: "i-22222"}, Source: "drawing",
		Corners: picture.OnGround(geom.Point{X: 40, Y: 10}, 200, 100, degrees), Opacity: 0.5,
	}}
	return s
}

func images(p *picture.Picture) (found []picture.Mark) {
	for _, m := range p.Marks {
		if m.Shape == picture.Image {
			found = append(found, m)
		}
	}
	return found
}

func TestAPictureLiesUnderEverything(t *testing.T) {
	p := draw(drawnOver(0), 5, picture.Options{})
	require.Equal(t, picture.Image, p.Marks[0].Shape, "under the grid, too")
	require.Len(t, images(p), 1)
	require.Equal(t, "drawing", p.Marks[0].Text)
	require.InDelta(t, 0.5, p.Marks[0].Opacity, 0)
	r := &recorder{}
	picture.Draw(p.Marks, r)
	require.Equal(t, [4]geom.Point(p.Marks[0].Points), r.images[0])
}

func TestAPictureStandsByItsCornersOnTheGround(t *testing.T) {
	require.Equal(t, [4]geom.Point{{X: -60, Y: 60}, {X: 140, Y: 60}, {X: 140, Y: -40}, {X: -60, Y: -40}}, rounded(picture.OnGround(geom.Point{X: 40, Y: 10}, 200, 100, 0)))
	require.Equal(t, [4]geom.Point{{X: -10, Y: -90}, {X: -10, Y: 110}, {X: 90, Y: 110}, {X: 90, Y: -90}}, rounded(picture.OnGround(geom.Point{X: 40, Y: 10}, 200, 100, 90)), "its top comes to lie left")
	p := draw(drawnOver(30), 5, picture.Options{})
	for i, corner := range p.Scene().Images[0].Corners {
		require.Equal(t, p.View.Point(corner), p.Marks[0].Points[i])
	}
}

func rounded(corners [4]geom.Point) [4]geom.Point {
	for i := range corners {
		corners[i] = geom.Point{X: math.Round(corners[i].X*1e9) / 1e9, Y: math.Round(corners[i].Y*1e9) / 1e9}
	}
	return corners
}

func TestAPictureThatCannotBeSeenIsNotDrawn(t *testing.T) {
	for _, c := range []struct {
		sentence string
		change   func(*picture.ImageFigure)
	}{
		{"out of view", func(f *picture.ImageFigure) { f.Corners = picture.OnGround(geom.Point{X: 9000}, 10, 10, 0) }},
		{"without opacity", func(f *picture.ImageFigure) { f.Opacity = 0 }},
		{"opacity that is no number", func(f *picture.ImageFigure) { f.Opacity = math.NaN() }},
		{"a corner that is no number", func(f *picture.ImageFigure) { f.Corners[2].X = math.Inf(1) }},
	} {
		t.Run(c.sentence, func(t *testing.T) {
			s := drawnOver(0)
			require.Len(t, images(draw(s, 5, picture.Options{})), 1)
			c.change(&s.Images[0])
			require.Empty(t, images(draw(s, 5, picture.Options{})))
		})
	}
}

func TestAPictureIsFadedAndLeftOutWithItsLevel(t *testing.T) {
	s := drawnOver(0)
	require.False(t, images(draw(s, 5, picture.Options{Level: "v-22222"}))[0].Faded, "one of no level belongs to all")
	require.Len(t, images(draw(s, 5, picture.Options{LeftOut: picture.LeftOut{Levels: map[plan.LevelID]bool{"": true}}})), 1)
	s.Images[0].Level = "v-33333"
	require.True(t, images(draw(s, 5, picture.Options{Level: "v-22222"}))[0].Faded)
	require.False(t, images(draw(s, 5, picture.Options{Level: "v-33333"}))[0].Faded)
	without := picture.Options{LeftOut: picture.LeftOut{Levels: map[plan.LevelID]bool{"v-33333": true}}}
	require.Empty(t, images(draw(s, 5, without)))
	without.Selected = map[plan.Ref]bool{s.Images[0].Ref: true}
	require.Len(t, images(draw(s, 5, without)), 1)
}

func TestAPictureChangesNothingElse(t *testing.T) {
	with, without := drawnOver(20), drawnOver(20)
	without.Images = nil
	p, q := draw(with, 5, picture.Options{}), draw(without, 5, picture.Options{})
	require.Equal(t, q.Marks, p.Marks[1:])
	for _, ref := range p.Within(p.View.Box()) {
		require.NotEqual(t, with.Images[0].Ref, ref, "a box drawn round everything does not select it")
	}
	require.Equal(t, picture.Arrange(without, 5, 1, wide).Bounds(), picture.Arrange(with, 5, 1, wide).Bounds(), "nor takes more paper")
	_, hit := seen(p)
	require.False(t, hit["i-22222"])
}

func TestAPlanOfAPictureAloneShowsIt(t *testing.T) {
	alone, among := &picture.Scene{}, drawnOver(0)
	alone.Lay(among.Images...)
	require.Equal(t, geom.BoxOf(geom.Point{X: -60, Y: -40}, geom.Point{X: 140, Y: 60}), alone.Bounds)
	among.Lay(among.Images...)
	require.Less(t, among.Bounds.Width(), 200.0, "where something stands on it, that is what is shown")
	alone.Lay()
	require.Equal(t, geom.BoxAround(geom.Point{}, 40, 30), alone.Bounds)
}
