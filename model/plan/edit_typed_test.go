package plan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/geom"
	"stageloom/model/plan"
)

func TestATypedLengthStaysAndIsDoubtedOnceAnEndMoves(t *testing.T) {
	ids := plan.NewIDSource(4, 4)
	p := plan.New("Typed")
	do := func(edit func(*plan.Edit)) {
		next, err := plan.Do(p, ids, func(e *plan.Edit) error { edit(e); return nil })
		require.NoError(t, err)
		p = next
	}
	var from, to plan.DeviceID
	var id plan.LinkID
	do(func(e *plan.Edit) {
		plan.Put(e, plan.Kind{ID: "box", Name: "Stage box", Group: "Stage"})
		plan.Put(e, plan.KindPort{Kind: "box", Name: "A", Transport: "aes50"})
		from = e.AddDevice(plan.Device{Kind: "box"})
		to = e.AddDevice(plan.Device{Kind: "box", X: 40})
		id = e.AddLink(plan.Link{Transport: "aes50", From: from, FromPort: "A", To: to, ToPort: "A"})
		require.NoError(t, e.TypeWay(id, 62, plan.Paced))
	})
	link := func() plan.Link { l, _ := p.Link(id); return l }
	move := func(devices ...plan.DeviceID) {
		do(func(e *plan.Edit) { e.Move(plan.MovingWith(p, devices, nil), geom.Pt(3, 4)) })
	}
	move(from, to)
	require.False(t, link().Doubtful, "both ends went the same way")
	move(to)
	require.True(t, link().Doubtful)
	require.Equal(t, 62.0, link().TypedWay)
	do(func(e *plan.Edit) { require.NoError(t, e.TypeWay(id, 62, plan.Paced)) })
	require.False(t, link().Doubtful, "typed again, it is beyond doubt")
	do(func(e *plan.Edit) { require.NoError(t, e.Reverse(id)) })
	require.False(t, link().Doubtful, "turned round, nothing moved")
	do(func(e *plan.Edit) { require.NoError(t, e.TypeWay(id, 0, "")) })
	require.Empty(t, link().TypedBy, "without a length nobody gave one")
	t.Run("where nobody typed a length there is nothing to doubt, and a move leaves the links as they are", func(t *testing.T) {
		before := p
		move(to)
		require.False(t, link().Doubtful)
		require.Same(t, before.Links, p.Links)
	})
	t.Run("a device without a place gets its first one, and nothing is doubted", func(t *testing.T) {
		do(func(e *plan.Edit) {
			require.NoError(t, plan.Update(e, plan.Key(to), func(d *plan.Device) { d.Unplaced = true }))
			require.NoError(t, e.TypeWay(id, 50, plan.Taped))
		})
		move(to)
		require.False(t, link().Doubtful)
		device, _ := p.Device(to)
		require.False(t, device.Unplaced, "it stands where it was put")
	})
	t.Run("devices without a place never lie on each other", func(t *testing.T) {
		seen := map[geom.Point]bool{}
		do(func(e *plan.Edit) {
			for range 9 {
				device, _ := e.Now().Device(e.AddDevice(plan.Device{Kind: "box", Unplaced: true}))
				require.False(t, seen[device.At()])
				seen[device.At()] = true
			}
		})
	})
}
