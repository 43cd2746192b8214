package tool_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/geom"
	"stageloom/model/plan"
)

func TestADragShowsEveryPieceOfTheLinesItChanges(t *testing.T) {
	h, b := set(t)
	require.NoError(t, b.desk.Do("Through a panel", func(e *plan.Edit) error {
		plan.Put(e, plan.Kind{ID: "panel", Name: "Panel", Group: "Stage", Passive: true, Hardware: "cat6a"})
		for _, port := range []string{"A", "B"} {
			plan.Put(e, plan.KindPort{Kind: "panel", Name: port, Transport: "aes50"})
		}
		panel := e.AddDevice(plan.Device{Name: "Panel", Kind: "panel", X: 30, Y: 10})
		rack := e.AddDevice(plan.Device{Name: "Rack", Kind: "box", X: 0, Y: 25})
		e.AddLink(plan.Link{Transport: "aes50", From: rack, FromPort: "A", To: panel, ToPort: "A", FillKind: "cat6a"})
		e.AddLink(plan.Link{Transport: "aes50", From: panel, FromPort: "B", To: b.device("System").ID, ToPort: "B", FillKind: "cat6a"})
		return nil
	}))
	rest := b.desk.Plan().Links.At(0)
	for link := range b.desk.Plan().Links.All() {
		if device, _ := b.desk.Plan().Device(link.From); device.Name == "Panel" {
			rest = link
		}
	}
	stood, _ := b.desk.Assessment().Budget(rest.ID)
	at := b.view.Point(b.device("Rack").At())
	press(h, at)
	ready, is := h.Ready()
	require.True(t, is)
	require.True(t, ready.Stretched[rest.ID], "the piece behind the panel leaves the picture that stands still")
	to := at.Add(geom.Point{X: -150})
	h.Move(to)
	margins := map[plan.LinkID]float64{}
	for _, each := range h.Preview().Budgets {
		margins[each.Link] = each.MarginDB
	}
	require.Len(t, margins, 2)
	require.Less(t, margins[rest.ID], stood.MarginDB)
	require.NoError(t, h.Release(to))
	now, _ := b.desk.Assessment().Budget(rest.ID)
	require.InDelta(t, now.MarginDB, margins[rest.ID], 1e-9)
}
