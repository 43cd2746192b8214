package cabling_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/budget"
	"stageloom/model/cabling"
	"stageloom/model/plan"
)

// replacing is a link of 40 m on a reel that went bad, and a less and a more important link.
func replacing(t *testing.T) (*show, plan.ReelID) {
	s := newShow(t, 40, 40, 40)
	own := s.reel(t, "A", "cat6a", 50)
	s.reel(t, "B", "cat6a", 100)
	s.reel(t, "C", "cat6a", 30)
	s.reel(t, "D", "cat5e", 45, many(3))
	s.reel(t, "F", "cat6a", 50, condition(plan.Faulty))
	s.reel(t, "S", "cat6a", 41, condition(plan.Suspect))
	less, more := s.reel(t, "L", "cat6a", 42), s.reel(t, "M", "cat6a", 43)
	s.change(t, 0, func(l *plan.Link) { l.Priority = 2 })
	s.change(t, 1, func(l *plan.Link) { l.Priority = 1 })
	s.change(t, 2, func(l *plan.Link) { l.Priority = 3 })
	s.lay(t, 0, plan.Segment{Reel: own})
	s.lay(t, 1, plan.Segment{Reel: less})
	s.lay(t, 2, plan.Segment{Reel: more})
	return s, own
}

func tags(candidates []cabling.Candidate) (tags []string) {
	for _, c := range candidates {
		tag := c.Reel.Tag
		if c.Joined() {
			tag += "+" + c.Also.Tag
		}
		if c.Replaces > 1 {
			tag += fmt.Sprintf(" for %d", c.Replaces)
		}
		tags = append(tags, tag)
	}
	return tags
}

func TestWhatCanReplaceACable(t *testing.T) {
	s, _ := replacing(t)
	t.Run("what is free and what less important links have, in order", func(t *testing.T) {
		candidates := cabling.Replacements(s.Plan, s.links[0], 1, false)
		require.Equal(t, []string{"D", "B", "L"}, tags(candidates))
		require.True(t, candidates[0].Free())
		require.Equal(t, "L02", candidates[2].FromName)
		require.True(t, candidates[2].Left.Bare())
	})
	t.Run("suspect ones when asked, behind good ones", func(t *testing.T) {
		require.Equal(t, []string{"D", "B", "S", "L"}, tags(cabling.Replacements(s.Plan, s.links[0], 1, true)))
	})
	t.Run("the edit lays it and frees what it takes", func(t *testing.T) {
		taken := cabling.Replacements(s.Plan, s.links[0], 1, false)[2]
		next, err := plan.Do(s.Plan, nil, taken.Edit)
		require.NoError(t, err)
		require.Equal(t, "L", cabling.Words(next, next.SegmentsOf(s.links[0])))
		require.Empty(t, next.SegmentsOf(s.links[1]))
		_, err = plan.Do(next, nil, taken.Edit)
		require.ErrorIs(t, err, plan.ErrRefused)
		require.ErrorContains(t, err, "another one by now")
	})
	t.Run("there is nothing to replace where there is no cable", func(t *testing.T) {
		require.Empty(t, cabling.Replacements(s.Plan, s.links[0], 2, false))
		require.Empty(t, cabling.Replacements(s.Plan, "k-99999", 1, false))
	})
	t.Run("a port without room for a shell wants a plain plug again", func(t *testing.T) {
		s := newShow(t, 40)
		tail := s.reel(t, "T", "cat6a-tail", 2)
		s.reel(t, "U", "cat6a-tail", 3)
		long := s.reel(t, "A", "cat6a", 50)
		s.reel(t, "B", "cat6a", 60)
		s.change(t, 0, func(l *plan.Link) { l.FromPort = "B0" })
		s.lay(t, 0, plan.Segment{Reel: tail}, plan.Segment{Reel: long})
		require.Equal(t, []string{"U"}, tags(cabling.Replacements(s.Plan, s.links[0], 1, false)))
		require.Equal(t, []string{"B"}, tags(cabling.Replacements(s.Plan, s.links[0], 2, false)))
	})
}

func TestACandidateIsWhatTheLinkWouldBe(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyShow(t, 4)
		for _, id := range s.links {
			link, _ := s.Link(id)
			for order := range len(s.SegmentsOf(id)) {
				for _, c := range cabling.Replacements(s.Plan, id, order+1, true) {
					next, err := plan.Do(s.Plan, nil, c.Edit)
					require.NoError(t, err)
					require.Equal(t, budget.Of(next, link), c.Link)
					require.NotEqual(t, budget.Over, c.Link.Grade)
					if !c.Free() {
						donor, _ := s.Link(c.From)
						require.Less(t, donor.Priority, link.Priority)
						require.Equal(t, budget.Of(next, donor), c.Left)
					}
				}
			}
		}
	})
}

func TestAFaultyReelLeavesPicksAtOnce(t *testing.T) {
	s, own := replacing(t)
	require.Equal(t, "A", cabling.Words(s.Plan, s.SegmentsOf(s.links[0])))
	s.do(t, func(e *plan.Edit) error {
		_, err := e.MarkSegment(s.links[0], 1, plan.Mark{Condition: plan.Faulty, Reason: "pair 3 broken"})
		return err
	})
	proposal := s.pick(t, cabling.Request{OnTheDay: true})
	require.False(t, proposal.Links[0].ServedNow)
	require.True(t, proposal.Links[0].Served)
	for _, change := range proposal.Links {
		for _, segment := range change.After {
			require.NotEqual(t, own, segment.Reel)
		}
	}
	require.Equal(t, 2, proposal.Changes, "the other links keep theirs")
}

// A dead house line that no single reel replaces is replaced by two joined; several cables by one.
func TestSeveralForOneAndOneForSeveral(t *testing.T) {
	s := newShow(t, 60)
	s.do(t, func(e *plan.Edit) error {
		plan.Put(e, plan.HouseLine{ID: "h-22222", Name: "H01", Kind: "cat6a-solid", Length: 61, Condition: plan.Faulty})
		return nil
	})
	s.reel(t, "A", "cat6a", 30)
	s.reel(t, "B", "cat6a", 35)
	s.reel(t, "C", "cat6a", 20)
	s.lay(t, 0, plan.Segment{HouseLine: "h-22222"})
	candidates := cabling.Replacements(s.Plan, s.links[0], 1, false)
	require.ElementsMatch(t, []string{"A+B", "B+A"}, tags(candidates))
	s.do(t, candidates[0].Edit)
	require.Len(t, s.SegmentsOf(s.links[0]), 2)
	link, _ := s.Link(s.links[0])
	require.Zero(t, budget.Of(s.Plan, link).Missing)

	s.reel(t, "D", "cat6a", 65)
	candidates = cabling.Replacements(s.Plan, s.links[0], 2, false)
	require.Contains(t, tags(candidates), "D for 2")
	for _, c := range candidates {
		if c.Replaces == 2 {
			s.do(t, c.Edit)
		}
	}
	require.Equal(t, "D", cabling.Words(s.Plan, s.SegmentsOf(s.links[0])))

	s.change(t, 0, func(l *plan.Link) { l.MaxJoins = 1 })
	s.lay(t, 0, plan.Segment{HouseLine: "h-22222"})
	s.do(t, func(e *plan.Edit) error {
		for reel := range e.Now().Reels.All() {
			if reel.Tag == "D" {
				return e.RemoveReel(reel.ID)
			}
		}
		return nil
	})
	require.NotEmpty(t, cabling.Replacements(s.Plan, s.links[0], 1, false), "one join is allowed")
}

func TestWhatLiesOnSiteIsTakenLast(t *testing.T) {
	s := newShow(t, 40, 40, 40)
	a, b := s.reel(t, "A", "cat6a", 50), s.reel(t, "B", "cat6a", 51)
	for i := range 3 {
		s.change(t, i, func(l *plan.Link) { l.Priority = 3 - i })
	}
	s.change(t, 2, func(l *plan.Link) { l.Priority = 0 })
	s.lay(t, 0, plan.Segment{Kind: "cat6a", Length: 50})
	s.lay(t, 1, plan.Segment{Reel: b})
	s.lay(t, 2, plan.Segment{Reel: a})
	require.Equal(t, []string{"A", "B"}, tags(cabling.Replacements(s.Plan, s.links[0], 1, false)))
	s.done(t, 2, plan.Tested)
	require.Equal(t, []string{"B", "A"}, tags(cabling.Replacements(s.Plan, s.links[0], 1, false)))
}
