package strip_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/raster"
	"stageloom/ui/strip"
)

// chain is a site of three cables by length, 57 m of low-loss, 30 m and 20 m, with a coupler named before the second.
func chain(t testing.TB) site {
	return laid(t, func(e *plan.Edit, _ *plan.Link) []plan.Segment {
		plan.Put(e, plan.Reel{ID: "r-22222", Tag: "X40-01", Kind: "cat6a-own", Length: 40})
		return []plan.Segment{
			{Kind: "cat6a-own", Length: 57},
			{Kind: "cat5e-unscreened", Length: 30, Coupler: "cat6"},
			{Kind: "cat5e-unscreened", Length: 20},
		}
	})
}

func (s site) made(t *testing.T, c strip.Change) []plan.Segment {
	t.Helper()
	next, err := plan.Do(s.plan, nil, func(e *plan.Edit) error { return c.Make(e, s.link) })
	require.NoError(t, err)
	return next.SegmentsOf(s.link)
}

func TestChangesOfAChain(t *testing.T) {
	s := chain(t)
	lengths := func(c strip.Change) (all []float64) {
		for _, segment := range s.made(t, c) {
			all = append(all, segment.Length)
		}
		return all
	}
	reel := plan.Segment{Reel: "r-22222"}
	require.Equal(t, []float64{30, 20, 57}, lengths(strip.Change{Doing: strip.Move, Order: 1, Place: 2}))
	require.Equal(t, []float64{57, 20}, lengths(strip.Change{Doing: strip.Remove, Order: 2}))
	require.Equal(t, []float64{57, 50}, lengths(strip.Change{Doing: strip.Join, Order: 2}))
	require.Equal(t, []float64{25, 32, 30, 20}, lengths(strip.Change{Doing: strip.Cut, Order: 1, Metres: 25}))
	require.Equal(t, []float64{57, 0, 30, 20}, lengths(strip.Change{Doing: strip.Insert, Place: 1, Cable: reel}), "a reel has its own length")
	replaced := s.made(t, strip.Change{Doing: strip.Replace, Order: 2, Cable: reel})
	require.Len(t, replaced, 3)
	require.Equal(t, plan.ReelID("r-22222"), replaced[1].Reel)
	require.Equal(t, plan.HardwareID("cat6"), replaced[1].Coupler, "the coupler before it stays")
	require.Empty(t, replaced[1].Kind)
}

func TestAChangeIsToldBeforeItIsMade(t *testing.T) {
	s := chain(t)
	try := func(c strip.Change) string {
		b, err := c.Try(s.plan, s.link)
		require.NoError(t, err)
		return strip.Words(b, quantity.Metric)
	}
	// 57 m at 19.2 and 50 m at 26.4 dB per 100 m, two couplers of 0.6 dB against 25 dB: over by a third of a dB.
	require.Equal(t, "L07: −1 dB, 7 m left over", try(strip.Change{Doing: strip.Move, Order: 1, Place: 1}))
	require.Equal(t, "L07: +0 dB, 7 m left over", try(strip.Change{Doing: strip.Join, Order: 2}), "one coupler less")
	require.Contains(t, try(strip.Change{Doing: strip.Remove, Order: 1}), "50 m to reach")
	require.Contains(t, try(strip.Change{Doing: strip.Replace, Order: 3, Cable: plan.Segment{Kind: "cat6a-own", Length: 13}}), "just reaches")
	_, err := strip.Change{Doing: strip.Join, Order: 1}.Try(s.plan, s.link)
	require.ErrorContains(t, err, "one kind")
	require.Equal(t, []float64{57, 30, 20}, func() (all []float64) {
		for _, segment := range s.plan.SegmentsOf(s.link) {
			all = append(all, segment.Length)
		}
		return all
	}(), "the plan is as before")
	require.Equal(t, "L09: 4 m left over", strip.Words(budget.Budget{Name: "L09", Laid: 84, Run: 80}, quantity.Metric), "a link without grade has no margin")
	require.Equal(t, "L09: 12.1 m to reach", strip.Words(budget.Budget{Name: "L09", Missing: 12.04}, quantity.Metric), "what is missing is rounded upwards")
}

func TestHandsOnTheStrip(t *testing.T) {
	layout := strip.LayOut(threeCables(), 800, 200)
	cell := func(order int) raster.Box { return layout.Cells[2*(order-1)] }
	drag := func(from, to raster.Point) strip.Change {
		return layout.Release(layout.Drag(layout.Press(strip.Hold{}, from), to))
	}
	t.Run("a cable goes where the middles of the others leave it", func(t *testing.T) {
		require.Equal(t, strip.Change{Doing: strip.Move, Order: 3}, drag(cell(3).Centre(), raster.Point{X: 5, Y: 150}))
		require.Equal(t, strip.Change{Doing: strip.Move, Order: 1, Place: 1}, drag(cell(1).Centre(), raster.Point{X: cell(2).Centre().X + 1, Y: 150}))
	})
	t.Run("a press that hardly moves does nothing", func(t *testing.T) {
		require.Zero(t, drag(cell(3).Centre(), raster.Point{X: cell(3).Centre().X + 1, Y: cell(3).Centre().Y}))
	})
	t.Run("a drop beside the strip does nothing", func(t *testing.T) {
		require.Zero(t, drag(cell(3).Centre(), raster.Point{X: 5, Y: -20}))
	})
	t.Run("a cut leaves at least a metre on both sides, and whole metres", func(t *testing.T) {
		mark := raster.Point{X: cell(2).Centre().X, Y: cell(2).Top - 5}
		chosen := layout.Press(strip.Hold{Order: 2}, mark)
		require.Equal(t, strip.Knife, chosen.Grip)
		for to, want := range map[float64]float64{-500: 1, cell(2).Left: 1, cell(2).Centre().X + 1: 10, cell(2).Right: 19, 900: 19} {
			require.Equal(t, want, layout.Release(layout.Drag(chosen, raster.Point{X: to, Y: mark.Y})).Metres)
		}
	})
	t.Run("a cable that is a reel has no mark", func(t *testing.T) {
		run := threeCables()
		run.Parts[2].Cuttable = false
		layout := strip.LayOut(run, 800, 200)
		require.NotEqual(t, strip.Knife, layout.Press(strip.Hold{Order: 2}, raster.Point{X: cell(2).Centre().X, Y: cell(2).Top - 5}).Grip)
	})
	t.Run("a cable from a list comes first on a link without any", func(t *testing.T) {
		bare := strip.LayOut(strip.Run{Title: "Run of L02", Length: 60, Parts: []strip.Part{{What: budget.Cable, Assumed: true, Length: 60}}}, 800, 200)
		held := bare.Drag(strip.Hold{Grip: strip.FromStock, Dragging: true}, raster.Point{X: 400, Y: 100})
		require.Equal(t, strip.Change{Doing: strip.Insert}, held.Change)
	})
}
