package tool_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/geom"
	"stageloom/model/plan"
)

func (b *board) positionNamed(name string) (found plan.Position) {
	for position := range b.desk.Plan().Positions.All() {
		if position.Name == name {
			found = position
		}
	}
	return found
}

func TestAnEdgeOfASelectedPositionStretchesItsOutline(t *testing.T) {
	h, b := set(t)
	tower := plan.RefOf(b.positionNamed("FOH tower"))
	box, _ := b.picture().Where(tower)
	left := geom.Point{X: box.Min.X, Y: box.Centre().Y}
	require.False(t, h.EdgesAt(left).Any(), "nothing is selected yet")
	b.desk.Select(tower)
	require.True(t, h.EdgesAt(left).Left)
	require.False(t, h.EdgesAt(box.Centre()).Any())
	t.Run("it follows the pointer and takes in what it covers", func(t *testing.T) {
		press(h, left)
		to := b.view.Point(geom.Pt(-5, 0))
		h.Move(to)
		require.InDelta(t, -5, h.Stretching().Outline.Min.X, 1e-9)
		require.Equal(t, 12.0, b.positionNamed("FOH tower").Width, "the plan is not touched before the release")
		require.NoError(t, h.Release(to))
		require.Equal(t, "Stretch FOH tower", b.desk.NextUndo())
		require.Equal(t, 71.0, b.positionNamed("FOH tower").Width)
		require.Equal(t, 12.0, b.positionNamed("FOH tower").Depth)
		require.Equal(t, b.positionNamed("FOH tower").ID, b.device("SL box").Position)
		require.True(t, b.desk.Undo(), "one step")
		require.Empty(t, b.device("SL box").Position)
	})
	t.Run("it never turns inside out", func(t *testing.T) {
		press(h, left)
		to := b.view.Point(geom.Pt(90, 0))
		h.Move(to)
		require.Positive(t, h.Stretching().Outline.Width())
		require.True(t, h.Cancel())
		require.Equal(t, 12.0, b.positionNamed("FOH tower").Width)
	})
}

func TestADeviceDraggedOntoAPositionBelongsToIt(t *testing.T) {
	h, b := set(t)
	at := b.middle(ref(b.device("SL box")))
	press(h, at)
	require.NoError(t, h.Release(at.Add(geom.Point{X: 560})))
	require.Equal(t, b.positionNamed("FOH tower").ID, b.device("SL box").Position)
	require.Equal(t, "Move SL box by 56.0 m", b.desk.NextUndo())
	require.True(t, b.desk.Undo())
	require.Empty(t, b.device("SL box").Position, "one step takes back both")
}
