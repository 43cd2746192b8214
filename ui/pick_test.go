package ui_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/cabling"
	"stageloom/model/plan"
)

// A pick that is laid is one step, and one undo takes it back.
func TestPickedCablesAreOneStep(t *testing.T) {
	s := open(t, "light", demoFile(t))
	before := s.desk.Plan()
	proposal, err := cabling.Pick(context.Background(), before, cabling.Request{}, nil)
	require.NoError(t, err)
	require.NoError(t, s.desk.Do("Pick cables", proposal.Edit))
	require.Zero(t, s.desk.Assessment().Totals.Bare, "every link has cable")
	s.desk.Undo()
	require.True(t, plan.Equal(before, s.desk.Plan()))
}

func TestPickingWantsLinksAndAStock(t *testing.T) {
	s := open(t, "light")
	s.choose("Stock", "Pick cables…")
	require.Contains(t, s.state().Notice, "There is no link to pick cables for")
	require.Zero(t, s.state().Overlays)
}

// A pick is searched for beside the window and shown when it comes; closing gives up one that has not come.
func TestAPickIsSearchedForBesideTheWindow(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.choose("Stock", "Pick cables…")
	s.app.Until(t, "a pick is shown", func() bool { return s.reads(" taken or given up.") })
	s.tap("Cancel")
	require.Zero(t, s.state().Overlays)
	before := s.desk.Plan()
	s.choose("Stock", "Pick cables…")
	s.tap("Cancel")
	require.Zero(t, s.state().Overlays)
	require.Same(t, before, s.desk.Plan(), "nothing is laid")
}
