package plan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/geom"
	"stageloom/model/plan"
)

// ground is a stage with two outlines: left about (0, 0), 20 by 20 m, and right about (100, 0), 20 by 20 m.
func ground(t *testing.T) (s *stage, left, right plan.PositionID) {
	t.Helper()
	s = newStage(t)
	s.do(t, func(e *plan.Edit) error {
		left = s.spot
		right = e.AddPosition(plan.Position{Name: "Right", X: 100, Width: 20, Depth: 20})
		return e.Stretch(left, geom.BoxAround(geom.Point{}, 20, 20))
	})
	return s, left, right
}

func (s *stage) position(id plan.DeviceID) plan.PositionID {
	device, _ := s.Device(id)
	return device.Position
}

func (s *stage) shift(t *testing.T, devices []plan.DeviceID, positions []plan.PositionID, x, y float64) {
	t.Helper()
	m := plan.MovingWith(s.Plan, devices, positions)
	s.do(t, func(e *plan.Edit) error { e.Move(m, geom.Pt(x, y)); return nil })
}

func TestADeviceBelongsToThePositionItIsMovedInto(t *testing.T) {
	t.Run("one moved into an outline joins, and moves with the position from then on", func(t *testing.T) {
		s, left, right := ground(t)
		s.shift(t, []plan.DeviceID{s.c}, nil, 45, 0)
		require.Equal(t, right, s.position(s.c))
		s.shift(t, nil, []plan.PositionID{right}, 0, 30)
		c, _ := s.Device(s.c)
		require.Equal(t, geom.Pt(95, 30), c.At())
		require.Equal(t, left, s.position(s.a), "the others stay where they were")
	})
	t.Run("one moved out of its own outline leaves it", func(t *testing.T) {
		s, _, _ := ground(t)
		s.shift(t, []plan.DeviceID{s.b}, nil, 20, 0)
		require.Empty(t, s.position(s.b))
	})
	t.Run("one moved from outline to outline changes over", func(t *testing.T) {
		s, _, right := ground(t)
		s.shift(t, []plan.DeviceID{s.b}, nil, 90, 5)
		require.Equal(t, right, s.position(s.b))
	})
	t.Run("one moved within its own outline stays, though a smaller one lies there too", func(t *testing.T) {
		s, left, _ := ground(t)
		s.do(t, func(e *plan.Edit) error {
			e.AddPosition(plan.Position{Name: "Riser", X: -5, Width: 4, Depth: 4})
			return nil
		})
		s.shift(t, []plan.DeviceID{s.a}, nil, -5, 0)
		require.Equal(t, left, s.position(s.a))
	})
	t.Run("one that stands outside the outline it was given by hand keeps it", func(t *testing.T) {
		s, _, right := ground(t)
		s.do(t, func(e *plan.Edit) error {
			return plan.Update(e, plan.Key(s.c), func(r *plan.Device) { r.Position = right })
		})
		s.shift(t, []plan.DeviceID{s.c}, nil, 0, 40)
		require.Equal(t, right, s.position(s.c))
	})
	t.Run("members move with their position and stay members", func(t *testing.T) {
		s, left, _ := ground(t)
		s.shift(t, nil, []plan.PositionID{left}, 97, 0)
		require.Equal(t, left, s.position(s.a))
	})
	t.Run("one brought into line with others joins too", func(t *testing.T) {
		s, left, _ := ground(t)
		s.do(t, func(e *plan.Edit) error { return e.Align([]plan.DeviceID{s.a, s.c}, plan.AlignColumn) })
		require.Empty(t, s.position(s.c), "at 25 m both are outside")
		require.Empty(t, s.position(s.a))
		s.do(t, func(e *plan.Edit) error { return e.Align([]plan.DeviceID{s.b, s.c}, plan.AlignLeft) })
		require.Equal(t, left, s.position(s.c))
	})
}

func TestAPositionTakesInWhatItsOutlineCovers(t *testing.T) {
	s, left, right := ground(t)
	s.do(t, func(e *plan.Edit) error { return e.Stretch(left, geom.BoxOf(geom.Pt(-10, -10), geom.Pt(95, 10))) })
	require.Equal(t, left, s.position(s.c), "a device of no position is taken in")
	s.do(t, func(e *plan.Edit) error { return e.Stretch(right, geom.BoxOf(geom.Pt(40, -10), geom.Pt(110, 10))) })
	require.Equal(t, left, s.position(s.c), "one that lies within its own outline stays there")
	s.do(t, func(e *plan.Edit) error { return e.Stretch(left, geom.BoxAround(geom.Point{}, 20, 20)) })
	require.Equal(t, left, s.position(s.c), "an outline that shrinks loses nobody")
	s.do(t, func(e *plan.Edit) error {
		require.Equal(t, []plan.DeviceID{s.c}, e.TakeIn(right))
		return nil
	})
	require.Equal(t, right, s.position(s.c), "one outside its own outline can be taken in")
	s.refused(t, "no room", func(e *plan.Edit) error { return e.Stretch(left, geom.EmptyBox()) })
}

func TestTheSmallestOutlineRoundAPointIsItsPosition(t *testing.T) {
	s, left, _ := ground(t)
	var riser plan.PositionID
	s.do(t, func(e *plan.Edit) error {
		riser = e.AddPosition(plan.Position{Name: "Riser", Y: 5, Width: 4, Depth: 4})
		e.AddPosition(plan.Position{Name: "A spot", X: 3})
		return nil
	})
	require.Equal(t, riser, s.PositionAt(geom.Pt(1, 6)))
	require.Equal(t, left, s.PositionAt(geom.Pt(3, 0)), "a spot has no outline")
	require.Empty(t, s.PositionAt(geom.Pt(50, 50)))
}
