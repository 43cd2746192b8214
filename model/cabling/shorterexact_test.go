package cabling_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/cabling"
	"stageloom/model/plan"
)

// A hired reel as short as is said serves its link as well; 0.1 m less serves no more, or is not promised.
func TestATenthOfAMetreBelowWhatIsSaidIsNotPromised(t *testing.T) {
	for _, c := range []struct {
		way, length float64
		most        int
		tenth       bool // whether another tenth would do
	}{
		{43, 60, 17, false}, // a whole number is left over: it ends there
		{42.5, 60, 17, true},
		{60, 60, 0, false},
		{59.1, 60, 0, true},
	} {
		s := newShow(t, c.way)
		id := s.reel(t, "", "cat6a", c.length, hired)
		s.lay(t, 0, plan.Segment{Reel: id})
		require.Equal(t, map[plan.ReelID]int{id: c.most}, cabling.Shorter(s.Plan), "%g m for %g m", c.length, c.way)
		for by, serves := range map[float64]bool{float64(c.most): true, float64(c.most) + 0.1: c.tenth, float64(c.most) + 1: false} {
			shorter, err := plan.Do(s.Plan, nil, func(e *plan.Edit) error {
				return plan.Update(e, plan.Key(id), func(r *plan.Reel) { r.Length -= by })
			})
			require.NoError(t, err)
			require.Equal(t, serves, asGood(s.Plan, shorter), "%g m for %g m, shorter by %g m", c.length, c.way, by)
		}
	}
}
