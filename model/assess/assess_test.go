package assess_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/assess"
	"stageloom/model/budget"
	"stageloom/model/catalogue"
	"stageloom/model/checks"
	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/model/plan/plantest"
	"stageloom/model/words"
)

// field is a plan of five links between six routers: one of each grade but uncabled, and one bare.
func field(t require.TestingT) (*plan.Plan, *plan.IDSource) {
	ids := plan.NewIDSource(3, 1)
	p, err := plan.Do(plan.New("Field"), ids, func(e *plan.Edit) error {
		for _, kind := range []plan.CableKindID{"cat6a-own", "cat5e", "cat6a", "cat6a-drum-socket"} {
			require.NoError(t, catalogue.UseCable(e, kind))
		}
		require.NoError(t, catalogue.Use(e, "aes50-router-5"))
		var last plan.DeviceID
		for i, cables := range [][]plan.Segment{nil, of("cat6a-own", 60), of("cat6a-own", 60, 60), of("cat6a-drum-socket", 60, 50), of("cat5e", 60, 60), nil} {
			next := e.AddDevice(plan.Device{Kind: "aes50-router-5", X: 30 * float64(i)})
			if i > 0 {
				link := e.AddLink(plan.Link{Transport: "aes50", From: last, FromPort: "AES50 1", To: next, ToPort: "AES50 2", FillKind: "cat6a"})
				e.SetSegments(link, cables)
			}
			last = next
		}
		return nil
	})
	require.NoError(t, err)
	return p, ids
}

func of(kind plan.CableKindID, lengths ...float64) (segments []plan.Segment) {
	for _, length := range lengths {
		segments = append(segments, plan.Segment{Kind: kind, Length: length})
	}
	return segments
}

func requireSame(t require.TestingT, want, got *assess.Assessment) {
	require.Equal(t, want.Budgets, got.Budgets)
	require.Equal(t, want.Findings, got.Findings)
	require.Equal(t, want.Totals, got.Totals)
	require.Equal(t, want.Links(), got.Links())
	require.Equal(t, want.Devices(), got.Devices())
}

func TestNextIsAlwaysOf(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, ids := field(t)
		if rapid.Bool().Draw(t, "any plan") {
			p = plantest.Plan(t, 40)
		}
		history := []*plan.Plan{p}
		a := assess.Of(p)
		for range 25 {
			next, err := plan.Do(p, ids, plantest.Edit(t, p, ids).Do)
			switch {
			case rapid.IntRange(0, 4).Draw(t, "undo") == 0:
				p = rapid.SampledFrom(history).Draw(t, "back to")
			case err == nil:
				p = next
				history = append(history, p)
			}
			a = assess.Next(a, p)
			require.Same(t, p, a.Plan)
		}
		requireSame(t, assess.Of(p), a)
	})
}

func TestARuleReadsNoMoreThanItNames(t *testing.T) {
	// One field of one row at a time, in a plan where every rule has something to look at.
	weekender, ids := demo.Weekender(), plan.NewIDSource(4, 2)
	start := assess.Of(weekender)
	rapid.Check(t, func(t *rapid.T) {
		p, a := weekender, start
		for range 8 {
			if next, err := plan.Do(p, ids, plantest.FieldChange(t, p).Do); err == nil {
				p, a = next, assess.Next(a, next)
				requireSame(t, assess.Of(p), a)
			}
		}
	})
}

func TestNothingIsReckonedAnewWhenNothingChanged(t *testing.T) {
	p, _ := field(t)
	a := assess.Of(p)
	require.Same(t, a, assess.Next(a, p))
	q, err := plan.Do(p, plan.NewIDSource(9, 9), func(e *plan.Edit) error {
		plan.Put(e, plan.Contact{ID: "x-22222", Name: "Stage manager"})
		return nil
	})
	require.NoError(t, err)
	next := assess.Next(a, q)
	require.Same(t, &a.Budgets[0], &next.Budgets[0], "a contact changes no budget")
	requireSame(t, assess.Of(q), next)
	require.NotNil(t, assess.Next(nil, q))
}

func TestTotals(t *testing.T) {
	p, _ := field(t)
	a := assess.Of(p)
	require.Equal(t, 5, a.Totals.Links)
	counts := map[budget.Grade]int{}
	for _, b := range a.Budgets {
		counts[b.Standing()]++
	}
	for _, grade := range budget.Standings() {
		require.Equal(t, counts[grade], a.Totals.Count(grade), grade)
	}
	require.Equal(t, 1, a.Totals.Bare)
	require.InDelta(t, 60+120+110+120, a.Totals.Metres, 1e-9)
	require.Equal(t, 3, a.Totals.Joins)
	require.Equal(t, []assess.CouplerTotal{{Connector: "8P8C", Hardware: "cat6a", Count: 2}}, a.Totals.Couplers, "drums join plug in socket")
	require.Equal(t, []assess.KindTotal{
		{Kind: "cat5e", Cables: 2, Metres: 120},
		{Kind: "cat6a", Assumed: a.Totals.Missing},
		{Kind: "cat6a-drum-socket", Cables: 2, Metres: 110},
		{Kind: "cat6a-own", Cables: 3, Metres: 180},
	}, a.Totals.Kinds)
	stops := 0
	for _, finding := range a.Findings {
		if finding.Severity == checks.Stop {
			stops++
		}
	}
	require.Equal(t, stops, a.Totals.Stops)
	require.Len(t, a.Findings, a.Totals.Stops+a.Totals.Warns+a.Totals.Notes)
}

func TestCouplersOfEachConnectorAreCountedApart(t *testing.T) {
	// The Weekender joins data reels, fibres, audio pairs and talkback; one coupler is Cat 5e.
	require.Equal(t, []assess.CouplerTotal{
		{Connector: "8P8C", Hardware: "cat5e", Count: 1},
		{Connector: "8P8C", Hardware: "cat6a", Count: 9},
		{Connector: "LC duplex", Count: 4},
		{Connector: "XLR", Count: 4},
	}, assess.Of(demo.Weekender()).Totals.Couplers)
}

func TestFindingsComeWorstFirstAndInReadingOrder(t *testing.T) {
	p, _ := field(t)
	a := assess.Of(p)
	require.True(t, slices.IsSortedFunc(a.Findings, func(x, y checks.Finding) int { return int(x.Severity) - int(y.Severity) }))
	for i := 1; i < len(a.Findings); i++ {
		if x, y := a.Findings[i-1], a.Findings[i]; x.Severity == y.Severity {
			require.LessOrEqual(t, words.Natural(x.What, y.What), 0)
		}
	}
}

func TestLookingUp(t *testing.T) {
	p, _ := field(t)
	a := assess.Of(p)
	for i, b := range a.Budgets {
		got, found := a.Budget(b.Link)
		require.True(t, found)
		require.Equal(t, a.Budgets[i], got)
	}
	_, found := a.Budget("k-zzzzz")
	require.False(t, found)
	links := a.Links()
	require.Equal(t, "L01", links[0].Name)
	require.Equal(t, "L05", links[4].Name)
	bare := a.FindingsAt("links", links[4].Key())
	require.Len(t, bare, 1)
	require.Equal(t, "uncabled", bare[0].Rule)
}
