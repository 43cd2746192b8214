package plan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
)

// spared is the stage on site with a laid and tested spare beside the tested link bc.
func spared(t *testing.T) (*stage, plan.LinkID) {
	s := onSite(t)
	var spare plan.LinkID
	s.do(t, func(e *plan.Edit) (err error) {
		spare, err = e.AddSpare(s.bc)
		if err == nil {
			e.SetSegments(spare, []plan.Segment{{Reel: "r-44444"}})
			err = e.SetDone(spare, plan.Tested)
		}
		return err
	})
	return s, spare
}

func TestALaidSpareOccupiesNoPort(t *testing.T) {
	s, spare := spared(t)
	row, _ := s.Plan.Link(spare)
	link, _ := s.Plan.Link(s.bc)
	require.Equal(t, link.FromPort, row.FromPort)
	require.Empty(t, row.Partner)
	_, err := plan.Do(s.Plan, s.ids, func(e *plan.Edit) error {
		return plan.Update(e, row.Key(), func(r *plan.Link) { r.Role = "" })
	})
	require.ErrorContains(t, err, "holds already", "a link that is no spare wants its ports for itself")
}

func TestASpareTakesOverInOneStep(t *testing.T) {
	s, spare := spared(t)
	before := s.Plan
	link, _ := before.Link(s.bc)
	require.Len(t, before.SparesFor(s.bc), 1)
	s.do(t, func(e *plan.Edit) error {
		return e.TakeOver(s.bc, spare, plan.Mark{FoundAt: "FOH", FoundOn: "2031-06-18"})
	})
	now, _ := s.Plan.Link(s.bc)
	was, _ := s.Plan.Link(spare)
	require.Equal(t, plan.ReelID("r-44444"), s.Plan.SegmentsOf(s.bc)[0].Reel)
	require.Len(t, s.Plan.SegmentsOf(spare), 2)
	require.Equal(t, plan.Laid, now.Done, "its cables lie, and are to be plugged in and tested")
	require.Equal(t, plan.Laid, was.Done, "the dead ones lie still")
	require.True(t, was.IsSpare())
	require.Equal(t, []any{link.Name, link.Partner, link.Role, link.FromPort}, []any{now.Name, now.Partner, now.Role, now.FromPort})
	for _, segment := range s.Plan.SegmentsOf(spare) {
		require.Equal(t, plan.Suspect, s.Plan.ConditionOf(segment), "which of the two is bad nobody knows yet")
		reel, _ := s.Plan.Reels.Get(plan.Key(segment.Reel))
		require.Equal(t, "FOH", reel.FoundAt)
	}
	require.Equal(t, 1, s.Plan.UsedReels()["r-22222"], "no cable is in two links")
	require.Empty(t, plan.Check(s.Plan))
	touched := plan.TouchedOnSite(before, s.Plan)
	require.Len(t, touched, 2)
}

func TestTheOneDeadCableIsFaulty(t *testing.T) {
	s, spare := spared(t)
	s.do(t, func(e *plan.Edit) error {
		e.SetSegments(s.bc, []plan.Segment{{Reel: "r-22222"}})
		return nil
	})
	s.do(t, func(e *plan.Edit) error { return e.TakeOver(s.bc, spare, plan.Mark{}) })
	require.Equal(t, plan.Faulty, s.Plan.ConditionOf(plan.Segment{Reel: "r-22222"}))
}

func TestATakeOverThatCannotBeIsRefused(t *testing.T) {
	s, spare := spared(t)
	for name, edit := range map[string]func(*plan.Edit) error{
		"is no laid spare": func(e *plan.Edit) error { return e.TakeOver(spare, s.bc, plan.Mark{}) },
		"has no cable": func(e *plan.Edit) error {
			e.SetSegments(spare, nil)
			return e.TakeOver(s.bc, spare, plan.Mark{})
		},
		"no such link": func(e *plan.Edit) error { return e.TakeOver("k-99999", spare, plan.Mark{}) },
	} {
		_, err := plan.Do(s.Plan, s.ids, edit)
		require.ErrorContains(t, err, name)
	}
}

func TestAFaultyHouseLineTakesATestBack(t *testing.T) {
	s := onSite(t)
	s.do(t, func(e *plan.Edit) error {
		plan.Put(e, plan.HouseLine{ID: "h-22222", Name: "H01", Kind: "cat6", Length: 40})
		e.SetSegments(s.bc, []plan.Segment{{HouseLine: "h-22222"}})
		return nil
	})
	s.do(t, func(e *plan.Edit) error { return e.SetDone(s.bc, plan.Tested) })
	before := s.Plan
	s.do(t, func(e *plan.Edit) error {
		_, err := e.MarkSegment(s.bc, 1, plan.Mark{Condition: plan.Faulty, Reason: "dead"})
		return err
	})
	link, _ := s.Plan.Link(s.bc)
	require.Equal(t, plan.Joined, link.Done)
	touched := plan.TouchedOnSite(before, s.Plan)
	require.Len(t, touched, 1)
	require.True(t, touched[0].Found)
	require.Equal(t, link.Name+", tested, is to be tested again", touched[0].String())
	_, err := plan.Do(s.Plan, s.ids, func(e *plan.Edit) error { return e.MarkHouseLine("h-22222", plan.Mark{Condition: "old"}) })
	require.ErrorContains(t, err, "a house line is good, suspect or faulty")
}
