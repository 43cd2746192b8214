package picking_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/picking"
)

// lying is one long and one short reel; the first link has the long one and lies, the second needs it.
func lying(needOfSecond int) *picking.Problem {
	usable := []picking.Usable{{Line: 0, First: []int{}, Last: []int{}}, {Line: 1, First: []int{}, Last: []int{}}}
	return &picking.Problem{
		Lines:  []picking.Line{{Length: 100, Count: 1}, {Length: 50, Count: 1}},
		Joints: [][]picking.Joint{{{}}},
		Links: []picking.Link{
			{Need: 40, Priority: 1, Usable: usable, Before: []picking.Use{{Line: 0, Count: 1}}, Lies: true},
			{Need: needOfSecond, Priority: 1, Usable: usable},
		},
	}
}

func TestWhatLiesIsTakenApartOnlyToServeAnother(t *testing.T) {
	for name, test := range map[string]struct {
		need  int
		picks [][]int
		apart int
	}{
		"it stays, though less would be left coiled otherwise": {45, [][]int{{0}, {1}}, 0},
		"it goes where another is served by that alone":        {90, [][]int{{1}, {0}}, 1},
		"it stays where nothing serves the other":              {200, [][]int{{0}, nil}, 0},
	} {
		t.Run(name, func(t *testing.T) {
			for _, order := range []picking.Order{picking.NewPlan, picking.OnTheDay} {
				p := lying(test.need)
				p.Order = order
				a := picking.Pick(context.Background(), p, nil)
				require.True(t, a.Proved)
				require.Equal(t, test.picks, a.Picks)
				require.Equal(t, test.apart, a.Sums[picking.TakenApart])
				require.Contains(t, p.Objectives(), picking.TakenApart)
			}
		})
	}
	require.NotContains(t, (&picking.Problem{}).Objectives(), picking.TakenApart)
}
