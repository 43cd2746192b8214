package plan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
)

// stage is a plan of three boxes with four ports each; a and b stand on one position, c alone.
type stage struct {
	*plan.Plan
	ids     *plan.IDSource
	spot    plan.PositionID
	a, b, c plan.DeviceID
	ab, bc  plan.LinkID
}

func newStage(t *testing.T) *stage {
	t.Helper()
	s := &stage{Plan: plan.New("Test"), ids: plan.NewIDSource(1, 2)}
	s.do(t, func(e *plan.Edit) error {
		plan.Put(e, plan.Kind{ID: "box", Name: "Box", Group: "Stage", Inputs: 8})
		for _, port := range []string{"A", "B", "C", "D"} {
			plan.Put(e, plan.KindPort{Kind: "box", Name: port, Transport: "aes50"})
		}
		plan.Put(e, plan.CableKind{ID: "cat6", Name: "Cat 6", Media: "balanced-pair", Category: "cat6", Gauge: 24})
		plan.Put(e, plan.Reel{ID: "r-22222", Kind: "cat6", Length: 50})
		s.spot = e.AddPosition(plan.Position{Name: "Stage"})
		s.a = e.AddDevice(plan.Device{Name: "a", Kind: "box", Position: s.spot})
		s.b = e.AddDevice(plan.Device{Name: "b", Kind: "box", Position: s.spot, X: 10})
		s.c = e.AddDevice(plan.Device{Name: "c", Kind: "box", X: 50})
		s.ab = e.AddLink(plan.Link{Transport: "aes50", From: s.a, FromPort: "A", To: s.b, ToPort: "A"})
		s.bc = e.AddLink(plan.Link{Transport: "aes50", From: s.b, FromPort: "B", To: s.c, ToPort: "A", RiseFrom: 2, FromPanel: "cat6"})
		return nil
	})
	return s
}

func (s *stage) do(t *testing.T, edit func(*plan.Edit) error) {
	t.Helper()
	next, err := plan.Do(s.Plan, s.ids, edit)
	require.NoError(t, err)
	require.Empty(t, plan.Check(next))
	s.Plan = next
}

func (s *stage) refused(t *testing.T, reason string, edit func(*plan.Edit) error) {
	t.Helper()
	before := *s.Plan
	_, err := plan.Do(s.Plan, s.ids, edit)
	require.ErrorIs(t, err, plan.ErrRefused)
	require.ErrorContains(t, err, reason)
	require.True(t, plan.Equal(&before, s.Plan), "a refused edit changes nothing")
}
