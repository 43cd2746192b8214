package tool_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/ui/planview/tool"
)

// looms puts a second link beside the first, both in a loom along two corners, and selects the loom.
func looms(t *testing.T) (*tool.Hand, *board, plan.Ref) {
	h, b := set(t)
	var loom plan.LoomID
	require.NoError(t, b.desk.Do("Make a loom", func(e *plan.Edit) (err error) {
		var first plan.LinkID
		for link := range e.Now().Links.All() {
			first = link.ID
		}
		second := e.AddLink(plan.Link{Transport: "aes50", From: b.device("SL box").ID, FromPort: "B", To: b.device("System").ID, ToPort: "B"})
		require.NoError(t, e.Draw(first, []geom.Point{{X: 15, Y: 20}, {X: 45, Y: 20}}))
		loom, err = e.MakeLoom("Loom 1", []plan.LinkID{first, second})
		return err
	}))
	ref := plan.Ref{Table: "looms", Key: plan.Key(loom)}
	b.desk.Select(ref)
	return h, b, ref
}

// ways are the way points of each link, by name.
func (b *board) ways() map[string][]geom.Point {
	ways := map[string][]geom.Point{}
	for link := range b.desk.Plan().Links.All() {
		for _, point := range b.desk.Plan().PointsOf(link.ID) {
			ways[link.Name] = append(ways[link.Name], point.At())
		}
	}
	return ways
}

func (b *board) point(x, y float64) geom.Point { return b.view.Point(geom.Point{X: x, Y: y}) }

func TestACornerOfALoomIsDraggedWithAllItsLinks(t *testing.T) {
	h, b, _ := looms(t)
	press(h, b.point(45, 20))
	h.Move(b.point(45, 25))
	drag := h.Looming()
	require.NotNil(t, drag)
	require.Len(t, drag.Budgets, 2, "all its links are reckoned on the way")
	require.Len(t, h.Preview().Budgets, 2)
	shown := map[string]float64{}
	for _, each := range drag.Budgets {
		shown[each.Name] = each.Run
	}
	require.NoError(t, h.Release(b.point(45, 28)))
	want := []geom.Point{{X: 15, Y: 20}, {X: 45, Y: 28}}
	require.Equal(t, map[string][]geom.Point{"L01": want, "L02": want}, b.ways())
	require.Equal(t, "Draw route of Loom 1", b.desk.NextUndo())
	b.desk.Undo()
	require.Equal(t, geom.Point{X: 45, Y: 20}, b.ways()["L02"][1], "one step takes it back for all")
	require.Positive(t, shown["L02"])
}

func TestACornerIsPulledOutOfALoomsRoute(t *testing.T) {
	h, b, ref := looms(t)
	press(h, b.point(19, 20))
	h.Move(b.point(30, 10))
	require.NoError(t, h.Release(b.point(30, 8)))
	want := []geom.Point{{X: 15, Y: 20}, {X: 30, Y: 8}, {X: 45, Y: 20}}
	require.Equal(t, map[string][]geom.Point{"L01": want, "L02": want}, b.ways())
	got, found := h.WayPoint()
	require.True(t, found)
	require.Equal(t, plan.Ref{Table: "looms", Key: ref.Key, Part: "way 2"}, got, "keys work on it from then on")
}

func TestALoomsRouteIsDrawnByKeys(t *testing.T) {
	h, b, ref := looms(t)
	require.NoError(t, h.AddWayPoint())
	require.Len(t, b.ways()["L02"], 3)
	require.NoError(t, h.Nudge(geom.Point{Y: 2}))
	require.NoError(t, h.Nudge(geom.Point{Y: 2}))
	require.Equal(t, geom.Point{X: 30, Y: 24}, b.ways()["L02"][1])
	require.Equal(t, b.ways()["L01"], b.ways()["L02"])
	removed, err := h.RemoveWayPoint()
	require.NoError(t, err)
	require.True(t, removed)
	require.Len(t, b.ways()["L01"], 2)
	require.True(t, h.NextWayPoint(1))
	at, found := h.WayPlace()
	require.True(t, found)
	require.Equal(t, geom.Point{X: 15, Y: 20}, at)
	require.True(t, h.NextWayPoint(-1))
	at, _ = h.WayPlace()
	require.Equal(t, geom.Point{X: 45, Y: 20}, at, "round and round")
	require.True(t, h.SelectLoom())
	require.Len(t, b.desk.Selection(), 2, "its links")
	require.True(t, h.SelectLoom())
	require.Equal(t, []plan.Ref{ref}, b.desk.Selection(), "and back")
}

func TestALoomIsSelectedWhereItsLinksDropOff(t *testing.T) {
	h, b, ref := looms(t)
	b.desk.Select()
	press(h, b.point(45, 20))
	require.NoError(t, h.Release(b.point(45, 20)))
	require.Equal(t, []plan.Ref{ref}, b.desk.Selection())
	b.desk.Select()
	press(h, b.point(30, 20))
	require.NoError(t, h.Release(b.point(30, 20)))
	require.Equal(t, "links", b.desk.Selection()[0].Table, "between them its links are hit")
}

func TestADragOfALoomThatIsGivenUpLeavesAllAsItWas(t *testing.T) {
	h, b, _ := looms(t)
	before := b.desk.Plan()
	press(h, b.point(45, 20))
	h.Move(b.point(45, 28))
	require.True(t, h.Cancel())
	require.NoError(t, h.Release(b.point(45, 28)))
	require.Same(t, before, b.desk.Plan())
}
