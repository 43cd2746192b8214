package cabling_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/budget"
	"stageloom/model/cabling"
	"stageloom/model/catalogue"
	"stageloom/model/plan"
)

// line is a box linked to a passive panel and the panel to a console, 40 m each: one electrical line of two links.
type line struct {
	*plan.Plan
	links [2]plan.LinkID
}

func newLine(t require.TestingT, stock ...plan.Reel) *line {
	l := &line{}
	p, err := plan.Do(plan.New("Line"), plan.NewIDSource(3, 3), func(e *plan.Edit) error {
		settings := plan.DefaultSettings()
		settings.SlackPercent, settings.SlackEnd, settings.Detour, settings.Exposure = plan.Some(0), plan.Some(0), 1, "indoors"
		settings.Temperature, settings.WantedMargin = plan.Some(20), plan.Some(1)
		e.SetSettings(settings)
		for _, kind := range catalogue.CableKinds() {
			plan.Put(e, kind)
		}
		plan.Put(e, plan.Kind{ID: "box", Name: "Box", Group: "Stage"})
		plan.Put(e, plan.Kind{ID: "panel", Name: "Panel", Group: "Stage", Passive: true, Hardware: "cat6a"})
		for _, kind := range []plan.KindID{"box", "panel"} {
			for _, name := range []string{"A", "B"} {
				plan.Put(e, plan.KindPort{Kind: kind, Name: name, Transport: "aes50", Connector: modular(e.Now()), Lockable: true, MetalShell: true})
			}
		}
		var devices []plan.DeviceID
		for i, kind := range []plan.KindID{"box", "panel", "box"} {
			devices = append(devices, e.AddDevice(plan.Device{Name: string(kind), Kind: kind, X: 40 * float64(i)}))
		}
		for i := range l.links {
			l.links[i] = e.AddLink(plan.Link{Transport: "aes50", From: devices[i], FromPort: "B", To: devices[i+1], ToPort: "A", Priority: 1})
		}
		for _, reel := range stock {
			e.AddReel(reel)
		}
		return nil
	})
	require.NoError(t, err)
	l.Plan = p
	return l
}

func (l *line) pick(t require.TestingT, request cabling.Request) *cabling.Proposal {
	proposal, err := cabling.Pick(context.Background(), l.Plan, request, nil)
	require.NoError(t, err)
	return proposal
}

func TestPiecesOfOneLineArePickedAgainstOneLimit(t *testing.T) {
	// At 20 °C 60 m of stranded Cat 5e lose 15.8 dB and 60 m of Cat 6A 14.2 dB: either alone is ample, two are over 25 dB.
	short, long := plan.Reel{Kind: "cat6a", Length: 45, Quantity: 2}, plan.Reel{Kind: "cat5e", Length: 60, Quantity: 2}
	t.Run("what serves each alone does not serve both", func(t *testing.T) {
		l := newLine(t, long)
		proposal := l.pick(t, cabling.Request{})
		require.True(t, proposal.Proved)
		require.Len(t, proposal.Unserved, 1)
		require.Equal(t, cabling.Over, proposal.Unserved[0].Why)
	})
	t.Run("the line is served by what loses less together", func(t *testing.T) {
		l := newLine(t, long, short)
		proposal := l.pick(t, cabling.Request{})
		require.True(t, proposal.Proved)
		require.Empty(t, proposal.Unserved)
		next, err := plan.Do(l.Plan, nil, proposal.Edit)
		require.NoError(t, err)
		for i, b := range budget.NewReckoner(next).All() {
			require.NotEqual(t, budget.Over, b.Grade)
			require.InDelta(t, b.MarginDB, proposal.Links[i].Proposed.MarginDB, 1e-9, "both ends of the comparison count the whole")
		}
	})
	t.Run("a choice whose last column keeps less than its share is decided all the same", func(t *testing.T) {
		l := newLine(t, plan.Reel{Kind: "cat5e", Length: 44.75, Quantity: 2})
		proposal := l.pick(t, cabling.Request{})
		require.True(t, proposal.Proved)
		require.Empty(t, proposal.Unserved)
	})
	t.Run("a plug that is poorer than the panel counts in the panel", func(t *testing.T) {
		// At 20 °C the panel's two connections lose 0.4 dB with plugs of its own category and 0.8 dB with these.
		for metres, unserved := range map[float64]int{45.8: 0, 45.9: 1, 46.2: 1} {
			l := newLine(t, plan.Reel{Kind: "cat5e", Length: metres, Quantity: 2})
			require.Len(t, l.pick(t, cabling.Request{}).Unserved, unserved, "%v m twice", metres)
			next, err := plan.Do(l.Plan, nil, func(e *plan.Edit) error {
				for i, reel := range []int{0, 0} {
					e.SetSegments(l.links[i], []plan.Segment{{Reel: e.Now().Reels.At(reel).ID}})
				}
				return nil
			})
			require.NoError(t, err)
			l.Plan = next
			require.Len(t, l.pick(t, cabling.Request{}).Unserved, unserved, "%v m twice, laid already", metres)
		}
	})
	t.Run("a piece that is not picked for counts as it lies", func(t *testing.T) {
		for metres, unserved := range map[float64]int{50: 0, 60: 1} {
			l := newLine(t, long, short)
			next, err := plan.Do(l.Plan, nil, func(e *plan.Edit) error {
				e.SetSegments(l.links[0], []plan.Segment{{Kind: "cat5e", Length: metres}})
				return nil
			})
			require.NoError(t, err)
			l.Plan = next
			require.Len(t, l.pick(t, cabling.Request{Links: l.links[1:]}).Unserved, unserved, "%v m of Cat 5e lie in the other piece", metres)
		}
	})
}

// TestPicksOfALineAgreeWithTryingAll tries every pair of reels on the plan itself, judged by its budgets.
func TestPicksOfALineAgreeWithTryingAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var stock []plan.Reel
		for range rapid.IntRange(1, 4).Draw(t, "rows") {
			stock = append(stock, plan.Reel{
				Kind:   rapid.SampledFrom([]plan.CableKindID{"cat5e", "cat6a", "cat6a-own"}).Draw(t, "kind"),
				Length: rapid.Float64Range(40, 80).Draw(t, "length"), Quantity: rapid.IntRange(1, 2).Draw(t, "quantity"),
			})
		}
		l := newLine(t, stock...)
		least := 2
		var reels []plan.Reel
		for reel := range l.Reels.All() {
			reels = append(reels, reel)
		}
		for _, a := range reels {
			least = min(least, 1)
			for _, b := range reels {
				next, err := plan.Do(l.Plan, nil, func(e *plan.Edit) error {
					e.SetSegments(l.links[0], []plan.Segment{{Reel: a.ID}})
					e.SetSegments(l.links[1], []plan.Segment{{Reel: b.ID}})
					return nil
				})
				if err == nil && budget.NewReckoner(next).All()[0].MarginDB >= 0 {
					least = 0
				}
			}
		}
		proposal := l.pick(t, cabling.Request{})
		require.True(t, proposal.Proved)
		require.Len(t, proposal.Unserved, least)
	})
}
