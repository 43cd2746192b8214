package plan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
)

func TestASpareStandsInForWhatItNamesElseForAnyBetweenItsEnds(t *testing.T) {
	s, spare := spared(t)
	named := func() (names []string) {
		row, _ := s.Plan.Link(spare)
		for _, link := range s.Plan.StandsInFor(row) {
			names = append(names, link.Name)
		}
		return names
	}
	bc, _ := s.Plan.Link(s.bc)
	require.Equal(t, []string{bc.Name}, named(), "the link it was laid beside has its ends")
	ab, _ := s.Plan.Link(s.ab)
	s.do(t, func(e *plan.Edit) error { return e.StandIn(spare, s.ab) })
	require.Equal(t, []string{ab.Name}, named())
	s.do(t, func(e *plan.Edit) error { return e.StandIn(spare, "") })
	require.Equal(t, []string{bc.Name}, named())

	s.do(t, func(e *plan.Edit) error { return e.StandIn(spare, s.ab) })
	s.do(t, func(e *plan.Edit) error { e.RemoveLinks(s.ab); return nil })
	row, _ := s.Plan.Link(spare)
	require.Empty(t, row.StandsFor, "what it was named to is gone")
}

func TestOnlyASpareStandsInAndNotForASpare(t *testing.T) {
	s, spare := spared(t)
	var other plan.LinkID
	s.do(t, func(e *plan.Edit) (err error) { other, err = e.AddSpare(s.bc); return err })
	for words, edit := range map[string]func(*plan.Edit) error{
		"is no laid spare":       func(e *plan.Edit) error { return e.StandIn(s.bc, s.ab) },
		"is a laid spare itself": func(e *plan.Edit) error { return e.StandIn(spare, other) },
		"no such link":           func(e *plan.Edit) error { return e.StandIn(spare, "k-99999") },
	} {
		_, err := plan.Do(s.Plan, s.ids, edit)
		require.ErrorContains(t, err, words)
	}
}

func TestTheSpareThatNamesALinkIsOfferedFirst(t *testing.T) {
	s, first := spared(t)
	var second plan.LinkID
	s.do(t, func(e *plan.Edit) (err error) {
		second, err = e.AddSpare(s.bc)
		e.SetSegments(second, []plan.Segment{{Kind: "cat6", Length: 50}})
		return err
	})
	require.Equal(t, first, s.Plan.SparesFor(s.bc)[0].ID)
	s.do(t, func(e *plan.Edit) error { return e.StandIn(second, s.bc) })
	require.Equal(t, second, s.Plan.SparesFor(s.bc)[0].ID)
	s.do(t, func(e *plan.Edit) error { return e.StandIn(second, s.ab) })
	require.Equal(t, first, s.Plan.SparesFor(s.bc)[0].ID, "one that is named to another link is offered last")
}

func TestATakeOverIsTurnedBackInOneStep(t *testing.T) {
	s, spare := spared(t)
	s.do(t, func(e *plan.Edit) error { return e.Reverse(spare) })
	before := s.Plan
	s.do(t, func(e *plan.Edit) error { return e.TakeOver(s.bc, spare, plan.Mark{FoundAt: "FOH"}) })
	s.do(t, func(e *plan.Edit) error {
		return plan.Update(e, plan.Key(s.bc), func(l *plan.Link) { l.Note = "since" })
	})
	s.do(t, func(e *plan.Edit) error { return e.TurnBack(s.bc, spare) })
	require.Len(t, s.Plan.SegmentsOf(s.bc), 2)
	require.Equal(t, before.SegmentsOf(s.bc)[0], s.Plan.SegmentsOf(s.bc)[0], "the other one is of several reels alike, of which it is marked apart")
	require.Equal(t, before.PointsOf(s.bc), s.Plan.PointsOf(s.bc))
	require.Equal(t, "r-44444", string(s.Plan.SegmentsOf(spare)[0].Reel))
	link, _ := s.Plan.Link(s.bc)
	require.Equal(t, "since", link.Note, "other work since stays")
	require.Equal(t, plan.Laid, link.Done, "it is to be plugged in and tested")
	for _, segment := range s.Plan.SegmentsOf(s.bc) {
		require.Equal(t, plan.Suspect, s.Plan.ConditionOf(segment), "nobody said that they are good again")
	}
	_, err := plan.Do(s.Plan, s.ids, func(e *plan.Edit) error { return e.TurnBack(s.bc, s.ab) })
	require.ErrorContains(t, err, "is no laid spare")
}

func TestALinkAsItWouldLieIsWhatTheTakeOverMakesOfIt(t *testing.T) {
	for _, turned := range []bool{false, true} {
		s, spare := spared(t)
		s.do(t, func(e *plan.Edit) error {
			e.SetSegments(spare, []plan.Segment{{Kind: "cat6", Length: 20}, {Kind: "cat6", Length: 30, Coupler: "cat6"}})
			e.SetPoints(spare, []plan.LinkPoint{{X: 3, Y: 4}, {X: 5, Y: 9}})
			if err := e.TypeWay(spare, 44, "taped"); err != nil {
				return err
			}
			if turned {
				return e.Reverse(spare)
			}
			return nil
		})
		link, _ := s.Plan.Link(s.bc)
		row, _ := s.Plan.Link(spare)
		lying, segments, points, fits := s.Plan.TakenOver(link, row)
		require.True(t, fits)
		s.do(t, func(e *plan.Edit) error { return e.TakeOver(s.bc, spare, plan.Mark{}) })
		now, _ := s.Plan.Link(s.bc)
		require.Equal(t, now, lying)
		require.Equal(t, s.Plan.SegmentsOf(s.bc), segments)
		require.Equal(t, s.Plan.PointsOf(s.bc), points)
	}
}
