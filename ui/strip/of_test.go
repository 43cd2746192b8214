package strip_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/ui/strip"
)

// details are what is said of each part.
func details(run strip.Run) []string {
	var all []string
	for _, part := range run.Parts {
		all = append(all, part.Detail)
	}
	return all
}

func TestWhatTheStripShows(t *testing.T) {
	t.Run("two reels joined, longer than the run", func(t *testing.T) {
		run := usual(t)
		require.Equal(t, "Run of L07", run.Title)
		require.Equal(t, "115 m of cable for a run of 100 m (guess): 15 m stay coiled and still count", run.Note)
		require.Equal(t, strip.End{Name: "SL box", Port: "port AES50 1"}, run.Near)
		require.Equal(t, []string{
			"X70-03 · 70 m · Cat 7 low-loss, own figure 17.6 · Case 2 · 12.4 dB",
			"coupler · Cat 6A hardware · 2 mated connections · 0.6 dB",
			"45 m · Cat 5e unscreened · 11.9 dB",
		}, details(run))
		require.InDelta(t, 25, run.LimitDB, 1e-9)
		require.InDelta(t, 25-0.7*17.6-0.45*1.2*21.97-0.6, run.MarginDB, 1e-2)
		require.Equal(t, "tight", run.Grade)
	})
	t.Run("the labels of a cable grow shorter", func(t *testing.T) {
		labels := usual(t).Parts[0].Labels
		require.Equal(t, []string{
			"X70-03 · 70 m · Cat 7 low-loss, own figure 17.6 · Case 2", "X70-03 · 70 m · Cat 7 low-loss, own figure 17.6",
			"X70-03 · 70 m", "X70-03", "70 m",
		}, labels)
	})
	t.Run("metres that are missing are reckoned as the wanted kind", func(t *testing.T) {
		run := laid(t, func(_ *plan.Edit, link *plan.Link) []plan.Segment {
			link.FillKind = "cat6a-own"
			return []plan.Segment{{Kind: "cat6a-own", Length: 60}}
		}).run(quantity.Metric)
		require.Equal(t, "60 m of cable for a run of 100 m (guess): 40 m too short, reckoned as Cat 6A low-loss, own figure 19.2", run.Note)
		last := run.Parts[len(run.Parts)-1]
		require.True(t, last.Assumed)
		require.Equal(t, "40 m missing · reckoned as Cat 6A low-loss, own figure 19.2", last.Labels[0])
		require.True(t, run.HasMargin)
	})
	t.Run("metres that no kind is wanted for are shown and lose nothing", func(t *testing.T) {
		run := laid(t, func(*plan.Edit, *plan.Link) []plan.Segment {
			return []plan.Segment{{Kind: "cat6a-own", Length: 60}}
		}).run(quantity.Metric)
		last := run.Parts[len(run.Parts)-1]
		require.True(t, last.Assumed)
		require.InDelta(t, 60, last.Start, 1e-9)
		require.InDelta(t, 40, last.Length, 1e-9)
		require.Equal(t, "40 m missing · no kind of cable chosen", last.Labels[0])
		require.False(t, run.HasMargin)
	})
	t.Run("a link without cable says what to do", func(t *testing.T) {
		run := laid(t, func(*plan.Edit, *plan.Link) []plan.Segment { return nil }).run(quantity.Metric)
		require.Equal(t, "100 m (guess) to go", run.Note)
		require.Contains(t, run.Hint, "No cable yet")
	})
	t.Run("panels, inner leads and the socket of a drum are told", func(t *testing.T) {
		run := many(t)
		require.Equal(t, "inner lead · 2 m · Cat 5e · 0.6 dB", run.Parts[0].Detail)
		require.Equal(t, "panel · Cat 5e hardware · 2 mated connections · 0.8 dB", run.Parts[1].Detail)
		require.Equal(t, budget.Inner, run.Parts[len(run.Parts)-2].What)
		require.Contains(t, run.Parts[len(run.Parts)-2].Detail, "drum's socket")
	})
	t.Run("metres missing in front of a panel leave it at the far end", func(t *testing.T) {
		run := laid(t, func(_ *plan.Edit, link *plan.Link) []plan.Segment {
			link.ToPanel, link.ToLead, link.ToLeadKind = "cat6a", 3, "cat6a"
			return []plan.Segment{{Kind: "cat6a-own", Length: 60}}
		}).run(quantity.Metric)
		require.Len(t, run.Parts, 4)
		require.True(t, run.Parts[1].Assumed)
		require.Equal(t, budget.Panel, run.Parts[2].What)
		require.InDelta(t, 100, run.Parts[2].Start, 1e-9)
		require.Equal(t, budget.Lead, run.Parts[3].What)
		require.InDelta(t, 100, run.Parts[3].Start, 1e-9)
	})
}

func TestTheStripInOtherMediaAndUnits(t *testing.T) {
	t.Run("a cable of another medium has no known loss", func(t *testing.T) {
		run := laid(t, func(*plan.Edit, *plan.Link) []plan.Segment {
			return []plan.Segment{{Kind: "fibre-multimode", Length: 120}}
		}).run(quantity.Metric)
		require.True(t, run.Parts[0].Unknown)
		require.Contains(t, run.Parts[0].Detail, "its loss is not known")
	})
	t.Run("in feet all lengths are feet", func(t *testing.T) {
		run := laid(t, func(*plan.Edit, *plan.Link) []plan.Segment {
			return []plan.Segment{{Kind: "cat6a-own", Length: 30.48}}
		}).run(quantity.Imperial)
		require.Equal(t, "100 ft of cable for a run of 328.1 ft (guess): 228.1 ft too short", run.Note)
		require.Contains(t, run.Parts[0].Labels[0], "100 ft")
	})
	t.Run("a link whose transport carries no budget has lengths and no decibels", func(t *testing.T) {
		s := laid(t, func(*plan.Edit, *plan.Link) []plan.Segment {
			return []plan.Segment{{Kind: "cat6a-own", Length: 110}}
		})
		link, _ := s.plan.Link(s.link)
		b := budget.Of(s.plan, link)
		b.Graded, b.Grade, b.TransportName = false, budget.Ungraded, "Fibre"
		run := strip.Of(s.plan, link, b, quantity.Metric)
		require.Equal(t, "110 m of cable for a run of 100 m (guess): 10 m stay coiled · Fibre carries no loss budget here", run.Note)
		require.NotContains(t, run.Parts[0].Detail, "dB")
	})
}
