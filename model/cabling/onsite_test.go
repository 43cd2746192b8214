package cabling_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/budget"
	"stageloom/model/cabling"
	"stageloom/model/plan"
)

// wanting is a tested link of 40 m on the one reel of 100 m, and a link of 90 m that nothing else serves.
func wanting(t *testing.T) *show {
	s := newShow(t, 40, 90)
	long := s.reel(t, "A", "cat6a", 100)
	s.reel(t, "B", "cat6a", 50)
	s.change(t, 0, func(l *plan.Link) { l.MaxJoins = 1 })
	s.change(t, 1, func(l *plan.Link) { l.MaxJoins = 1 })
	s.lay(t, 0, plan.Segment{Reel: long})
	s.done(t, 0, plan.Tested)
	return s
}

func (s *show) done(t require.TestingT, i int, step string) {
	s.do(t, func(e *plan.Edit) error { return e.SetDone(s.links[i], step) })
}

func TestPickingLeavesWhatLiesOnSite(t *testing.T) {
	for name, onTheDay := range map[string]bool{"as for a new plan": false, "on the day": true} {
		t.Run(name, func(t *testing.T) {
			s := wanting(t)
			proposal := s.take(t, cabling.Request{OnTheDay: onTheDay})
			require.Equal(t, []string{"A", "no cable"}, s.words(), "a tested link keeps its cable")
			require.Empty(t, proposal.OnSite)
			require.True(t, proposal.Left)
			require.Len(t, proposal.Unserved, 1)
			require.Equal(t, "L02 gets none, too few for all: taken by L01; L01 is tested, left as it lies", proposal.Unserved[0].String())
			require.Equal(t, []plan.LinkID{s.links[0]}, proposal.Unserved[0].Lying)
			link, _ := s.Link(s.links[0])
			require.Equal(t, plan.Tested, link.Done)

			proposal = s.pick(t, cabling.Request{OnTheDay: onTheDay, TakeApart: true})
			require.Empty(t, proposal.Unserved)
			require.Len(t, proposal.OnSite, 1)
			require.Equal(t, "takes apart L01, tested: A goes, B comes", proposal.OnSite[0].String())
			require.Equal(t, "L01 (tested)", proposal.TakesApart())
		})
	}
}

func TestNoJoinIsWorthWhatLies(t *testing.T) {
	s := newShow(t, 90)
	a, b := s.reel(t, "A", "cat6a", 50), s.reel(t, "B", "cat6a", 50)
	s.reel(t, "C", "cat6a", 100)
	s.lay(t, 0, plan.Segment{Reel: a}, plan.Segment{Reel: b})
	require.Equal(t, 2+1, s.pick(t, cabling.Request{}).Changes, "what does not lie yet is laid without a join")
	for _, step := range plan.Steps() {
		s.done(t, 0, step)
		for _, request := range []cabling.Request{{}, {OnTheDay: true}, {TakeApart: true}, {OnTheDay: true, TakeApart: true}} {
			proposal := s.pick(t, request)
			require.Zero(t, proposal.Changes, "%s, %+v", step, request)
			require.Empty(t, proposal.OnSite)
			require.True(t, proposal.Proved)
		}
	}
}

func TestAFaultyReelGoesAndTheRestOfALaidLinkStays(t *testing.T) {
	s := newShow(t, 60)
	a, b := s.reel(t, "A", "cat6a", 35), s.reel(t, "B", "cat6a", 30)
	s.reel(t, "C", "cat6a", 40)
	s.reel(t, "D", "cat6a", 100)
	s.lay(t, 0, plan.Segment{Reel: a}, plan.Segment{Reel: b})
	s.done(t, 0, plan.Tested)
	s.do(t, func(e *plan.Edit) error {
		_, err := e.MarkReel(b, plan.Mark{Condition: plan.Faulty})
		return err
	})
	proposal := s.take(t, cabling.Request{OnTheDay: true})
	require.ElementsMatch(t, []string{"A", "C"}, tagsOf(s, 0))
	require.Len(t, proposal.OnSite, 1)
	require.Equal(t, "takes apart L01, joined: B, faulty, goes, C comes", proposal.OnSite[0].String())
}

func tagsOf(s *show, i int) (tags []string) {
	for _, segment := range s.SegmentsOf(s.links[i]) {
		tags = append(tags, cabling.Words(s.Plan, []plan.Segment{segment}))
	}
	return tags
}

func TestWhatIsTooShortIsAddedToAndNamed(t *testing.T) {
	s := newShow(t, 90)
	a := s.reel(t, "A", "cat6a", 50)
	s.reel(t, "B", "cat6a", 50)
	s.reel(t, "C", "cat6a", 100)
	s.lay(t, 0, plan.Segment{Reel: a})
	s.done(t, 0, plan.Laid)
	proposal := s.take(t, cabling.Request{})
	require.ElementsMatch(t, []string{"A", "B"}, tagsOf(s, 0))
	require.Equal(t, "adds to L01, laid: B comes", proposal.OnSite[0].String())
	require.Empty(t, proposal.TakesApart())
}

func TestALaidSpareIsLeftOutOfPickingForAll(t *testing.T) {
	s := newShow(t, 40)
	a := s.reel(t, "A", "cat6a", 50)
	s.reel(t, "B", "cat6a", 41)
	s.lay(t, 0, plan.Segment{Reel: a})
	s.do(t, func(e *plan.Edit) error { return e.MakeSpare(s.links[0]) })
	require.Len(t, s.pick(t, cabling.Request{}).Links, 1, "one that has no cable on site yet is picked for")
	s.done(t, 0, plan.Laid)
	require.Empty(t, s.pick(t, cabling.Request{}).Links)
}

// Whatever is drawn, what lies stays unless it is named; without leave nothing good goes.
func TestNothingThatLiesGoesUnnamed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyShow(t, 4)
		for i, id := range s.links {
			if len(s.SegmentsOf(id)) > 0 && rapid.Bool().Draw(t, "lies") {
				s.done(t, i, rapid.SampledFrom(plan.Steps()).Draw(t, "step"))
			}
		}
		before, request := s.Plan, anyRequest(t, s)
		request.TakeApart = rapid.Bool().Draw(t, "take apart")
		proposal := s.take(t, request)
		named := map[plan.LinkID]bool{}
		for _, one := range proposal.OnSite {
			named[one.Link] = one.TakenApart
			require.Contains(t, one.String(), one.Name+", "+one.Done)
		}
		for _, change := range proposal.Links {
			link, _ := before.Link(change.Link)
			if _, is := named[change.Link]; link.Lies() && !change.Same() {
				require.True(t, is, change.Name)
			}
			for _, segment := range change.Before {
				gone := !slices.ContainsFunc(change.After, func(s plan.Segment) bool { return s.Cable() == segment.Cable() })
				if gone && link.Lies() {
					require.True(t, named[change.Link])
					require.True(t, request.TakeApart || before.ConditionOf(segment) == plan.Faulty, "%s loses %v", change.Name, segment)
				}
			}
			if link.Lies() {
				require.Equal(t, budget.Of(s.Plan, link).Laid, change.Proposed.Laid)
			}
		}
	})
}
