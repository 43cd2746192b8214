package cabling_test

import (
	"context"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/budget"
	"stageloom/model/cabling"
	"stageloom/model/checks"
	"stageloom/model/demo"
	"stageloom/model/demo/demotest"
	"stageloom/model/plan"
	"stageloom/model/plan/plantest"
)

func anyRequest(t *rapid.T, s *show) cabling.Request {
	request := cabling.Request{
		OnTheDay: rapid.Bool().Draw(t, "on the day"), Suspect: rapid.Bool().Draw(t, "suspect"),
		DifferentKinds: rapid.Bool().Draw(t, "different kinds"), HoldBack: rapid.Bool().Draw(t, "hold back"),
		MaxJoins: rapid.IntRange(0, 3).Draw(t, "joins"), OwnKind: rapid.IntRange(0, 5).Draw(t, "own kind") == 0,
	}
	if rapid.Bool().Draw(t, "barred") {
		request.Barred = []plan.CableKindID{"cat5e"}
	}
	if rapid.IntRange(0, 3).Draw(t, "some") == 0 {
		request.Links = []plan.LinkID{s.links[0]}
	}
	return request
}

func TestWhatIsPickedStandsByTheBudgetsWord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyShow(t, 5)
		before, request := s.Plan, anyRequest(t, s)
		proposal := s.take(t, request)
		stands(t, before, s.Plan, proposal)

		again := s.pick(t, request)
		if proposal.Proved && again.Proved {
			require.Zero(t, again.Changes, "picked again, nothing changes")
			require.Equal(t, proposal.Proposed, again.Proposed)
		}
	})
}

// faults are findings that no picked link may have by its cables.
var faults = []string{"over-limit", "too-short", "uncabled", "unknown-loss", "wrong-medium", "screen", "shell", "connector", "socket-at-device", "pairs-missing"}

// stands holds a proposal that was done to all that a pick promises.
func stands(t require.TestingT, before, after *plan.Plan, proposal *cabling.Proposal) {
	picked := map[plan.LinkID]bool{}
	subject := checks.NewSubject(after)
	found := map[plan.Key][]string{}
	for _, rule := range checks.Rules() {
		for _, finding := range rule.Find(subject) {
			if slices.Contains(faults, finding.Rule) {
				found[finding.Where[0].Key] = append(found[finding.Where[0].Key], finding.What)
			}
		}
	}
	for _, change := range proposal.Links {
		picked[change.Link] = true
		link, _ := after.Link(change.Link)
		b := budget.Of(after, link)
		require.Equal(t, b, change.Proposed, "the comparison tells what will be")
		if !change.Served {
			continue
		}
		require.Empty(t, found[link.Key()])
		require.Zero(t, b.Missing)
		if b.Graded {
			require.GreaterOrEqual(t, b.MarginDB, 0.0)
			require.GreaterOrEqual(t, change.PickedDB, b.LossDB-1e-9, "never less than the budget says")
			require.LessOrEqual(t, change.PickedDB-b.LossDB, 0.001*float64(len(b.Parts)))
		}
		require.Equal(t, keptOf(before, change.Before), keptOf(after, change.After), "kept cables stay, in their order")
		for _, segment := range change.After {
			reel, is := after.Reels.Get(plan.Key(segment.Reel))
			require.NotEqual(t, plan.Faulty, reel.Condition)
			if is && !segment.Kept && reel.Condition == plan.Suspect {
				require.True(t, proposal.Request.Suspect)
			}
			require.False(t, is && !segment.Kept && slices.Contains(proposal.Request.Barred, reel.Kind))
		}
	}
	for link := range after.Links.All() {
		if !picked[link.ID] {
			require.True(t, slices.Equal(before.SegmentsOf(link.ID), after.SegmentsOf(link.ID)), "what was not asked for stays")
		}
	}
	require.Len(t, proposal.Unserved, proposal.Proposed.Links-proposal.Proposed.Served)
}

func keptOf(p *plan.Plan, chain []plan.Segment) (kept []plan.Segment) {
	for _, segment := range chain {
		reel, _ := p.Reels.Get(plan.Key(segment.Reel))
		if segment.HouseLine != "" || segment.Kept && reel.Condition != plan.Faulty {
			segment.Order, segment.Coupler = 0, ""
			kept = append(kept, segment)
		}
	}
	return kept
}

func TestLargePlansArePicked(t *testing.T) {
	for name, p := range map[string]*plan.Plan{"the weekender": demo.Weekender(), "grades": demotest.Grades(), "a large plan": demotest.Large(3)} {
		t.Run(name, func(t *testing.T) {
			s := &show{Plan: p}
			for _, onTheDay := range []bool{false, true} {
				before := s.Plan
				proposal := s.take(t, cabling.Request{OnTheDay: onTheDay})
				stands(t, before, s.Plan, proposal)
				require.True(t, proposal.Proved)
				require.GreaterOrEqual(t, proposal.Proposed.Served, proposal.Now.Served)
			}
		})
	}
}

// Plans drawn from nothing but the tags of their fields hold what no engineer would think of.
func TestAnyPlanAtAllIsPicked(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := plantest.Plan(t, rapid.IntRange(100, 400).Draw(t, "edits"))
		request := cabling.Request{OnTheDay: rapid.Bool().Draw(t, "on the day"), HoldBack: true, DifferentKinds: rapid.Bool().Draw(t, "kinds")}
		proposal, err := cabling.Pick(context.Background(), p, request, nil)
		require.NoError(t, err)
		next, err := plan.Do(p, nil, proposal.Edit)
		require.NoError(t, err)
		for _, change := range proposal.Links {
			link, _ := next.Link(change.Link)
			b := budget.Of(next, link)
			require.Equal(t, b, change.Proposed)
			if change.Served {
				require.Zero(t, b.Missing)
				require.NotEqual(t, budget.Over, b.Grade)
				require.LessOrEqual(t, change.PickedDB-b.LossDB, 0.001*float64(len(b.Parts)))
			}
		}
		for _, unserved := range proposal.Unserved {
			require.NotEmpty(t, unserved.String())
		}
	})
}
