package plan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/geom"
	"stageloom/model/plan"
)

// site is a plan with a box on the ground in a position, and one in the list at the same.
type site struct {
	t              *testing.T
	plan           *plan.Plan
	ids            *plan.IDSource
	at             plan.PositionID
	placed, listed plan.DeviceID
	link           plan.LinkID
}

func newSite(t *testing.T) *site {
	g := &site{t: t, plan: plan.New("Ground"), ids: plan.NewIDSource(4, 9)}
	g.do(func(e *plan.Edit) {
		plan.Put(e, plan.Kind{ID: "box", Name: "Stage box", Group: "Stage"})
		plan.Put(e, plan.KindPort{Kind: "box", Name: "A", Transport: "aes50"})
		g.at = e.AddPosition(plan.Position{Name: "Stage", X: 30, Y: 10, Width: 20, Depth: 10})
		g.placed = e.AddDevice(plan.Device{Kind: "box", Position: g.at, X: 30, Y: 10})
		g.listed = e.AddDevice(plan.Device{Kind: "box", Position: g.at, Unplaced: true})
		g.link = e.AddLink(plan.Link{Transport: "aes50", From: g.placed, FromPort: "A", To: g.listed, ToPort: "A", TypedWay: 62, TypedBy: plan.Paced})
	})
	return g
}

func (g *site) do(edit func(*plan.Edit)) {
	next, err := plan.Do(g.plan, g.ids, func(e *plan.Edit) error { edit(e); return nil })
	require.NoError(g.t, err)
	g.plan = next
}

func (g *site) device(id plan.DeviceID) plan.Device {
	row, _ := g.plan.Device(id)
	return row
}

func TestADeviceInTheListStaysThereUntilItIsPlacedByItself(t *testing.T) {
	t.Run("its position moves without it", func(t *testing.T) {
		g := newSite(t)
		g.do(func(e *plan.Edit) { e.Move(plan.MovingWith(g.plan, nil, []plan.PositionID{g.at}), geom.Pt(5, 0)) })
		require.Equal(t, 35.0, g.device(g.placed).X)
		require.True(t, g.device(g.listed).Unplaced)
	})
	t.Run("chosen with what stands on the ground it stays", func(t *testing.T) {
		g := newSite(t)
		g.do(func(e *plan.Edit) {
			e.Move(plan.MovingWith(g.plan, []plan.DeviceID{g.placed, g.listed}, nil), geom.Pt(5, 0))
		})
		require.Equal(t, 35.0, g.device(g.placed).X)
		require.True(t, g.device(g.listed).Unplaced)
	})
	t.Run("moved by itself it has a place", func(t *testing.T) {
		g := newSite(t)
		was := g.device(g.listed).At()
		g.do(func(e *plan.Edit) {
			e.Move(plan.MovingWith(g.plan, []plan.DeviceID{g.listed}, nil), geom.Pt(28, 9).Sub(was))
		})
		require.False(t, g.device(g.listed).Unplaced)
		require.Equal(t, geom.Pt(28, 9), g.device(g.listed).At())
		require.Equal(t, g.at, g.device(g.listed).Position, "inside the outline it belongs to")
	})
	t.Run("an outline that is drawn over it takes it not in", func(t *testing.T) {
		g := newSite(t)
		listed := g.device(g.listed)
		var other plan.PositionID
		g.do(func(e *plan.Edit) {
			other = e.AddPosition(plan.Position{Name: "Over it", X: listed.X, Y: listed.Y, Width: 30, Depth: 30})
			require.NotContains(t, e.TakeIn(other), g.listed)
		})
		require.Equal(t, g.at, g.device(g.listed).Position)
	})
}

func TestADeviceIsTakenOffThePlanBackIntoTheList(t *testing.T) {
	g := newSite(t)
	g.do(func(e *plan.Edit) {
		require.NoError(t, plan.Update(e, plan.Key(g.listed), func(r *plan.Device) { r.X, r.Y, r.Unplaced = 60, 10, false }))
	})
	g.do(func(e *plan.Edit) { require.NoError(t, e.TakeOff(g.listed, g.placed)) })
	for _, id := range []plan.DeviceID{g.placed, g.listed} {
		require.True(t, g.device(id).Unplaced)
		require.Equal(t, g.at, g.device(id).Position, "it still belongs there")
		require.Less(t, g.device(id).Y, 5-6.0, "it is drawn under the outline")
	}
	require.NotEqual(t, g.device(g.placed).At(), g.device(g.listed).At())
	link, _ := g.plan.Link(g.link)
	require.Equal(t, 62.0, link.TypedWay)
	require.False(t, link.Doubtful, "nothing moved on the ground")
	require.True(t, g.plan.Unplaced())
	_, err := plan.Do(g.plan, g.ids, func(e *plan.Edit) error { return e.TakeOff("d-zzzzz") })
	require.ErrorIs(t, err, plan.ErrRefused)
}

func TestAPositionMayBeNamedWithoutAPlace(t *testing.T) {
	g := newSite(t)
	var named plan.PositionID
	g.do(func(e *plan.Edit) {
		named = e.AddPosition(plan.Position{Name: "Gallery", Width: 100, Depth: 100, Unplaced: true})
	})
	require.Equal(t, plan.PositionID(""), g.plan.PositionAt(geom.Pt(0, 0)), "it has no outline on the ground")
	require.Equal(t, geom.Point{}, func() geom.Point { row, _ := g.plan.Positions.Get(plan.Key(named)); return row.From() }())
	g.do(func(e *plan.Edit) { e.Move(plan.MovingWith(g.plan, nil, []plan.PositionID{named}), geom.Pt(3, 4)) })
	row, _ := g.plan.Positions.Get(plan.Key(named))
	require.False(t, row.Unplaced, "with a coordinate it has a place")
}

func TestDevicesInTheListAreDrawnApart(t *testing.T) {
	g := newSite(t)
	var ids []plan.DeviceID
	g.do(func(e *plan.Edit) {
		for range 9 {
			ids = append(ids, e.AddDevice(plan.Device{Kind: "box", Unplaced: true}))
		}
	})
	for i, one := range ids {
		for _, other := range ids[:i] {
			require.GreaterOrEqual(t, g.device(one).At().Distance(g.device(other).At()), 6.0)
		}
		require.Less(t, g.device(one).Y, 0.0, "under all that stands")
	}
}
