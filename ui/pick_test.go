package ui_test

import (
	"context"
	"slices"
	"testing"

	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/cabling"
	"stageloom/model/house"
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
	s.app.Until(t, "a pick is shown", func() bool { return s.reads(" would change: ") })
	s.tap("Cancel")
	require.Zero(t, s.state().Overlays)
	before := s.desk.Plan()
	s.choose("Stock", "Pick cables…")
	s.tap("Cancel")
	require.Zero(t, s.state().Overlays)
	require.Same(t, before, s.desk.Plan(), "nothing is laid")
}

// What a pick asks to hire in is added to the stock in one step, and picked from at once.
func TestWhatAPickAsksToHireIsAddedAndPickedFrom(t *testing.T) {
	s := open(t, "light", demoFile(t))
	require.NoError(t, s.desk.Do("Next to no stock", func(e *plan.Edit) error {
		for segment := range e.Now().Segments.All() {
			plan.Drop[plan.Segment](e, segment.Key())
		}
		left := 0
		for reel := range e.Now().Reels.All() {
			if left++; left > 3 {
				plan.Drop[plan.Reel](e, reel.Key())
			}
		}
		return nil
	}))
	before := s.desk.Plan().Reels.Len()
	s.choose("Stock", "Pick cables…")
	s.app.Until(t, "a pick asks to hire", func() bool { return s.reads("To hire in, so that ") })
	s.tap("Add what is to be hired…")
	s.enter("Owner", "Northquay Hire")
	s.tap("Add to the stock")
	hired := 0
	for reel := range s.desk.Plan().Reels.All() {
		if reel.Owner == "Northquay Hire" {
			hired++
		}
	}
	require.Positive(t, hired)
	require.Equal(t, before+hired, s.desk.Plan().Reels.Len())
	s.app.Until(t, "it is picked from", func() bool { return s.reads(" would change: ") })
	s.tap("Cancel")
}

// What was picked of the house is taken and laid in one step, and one undo takes both back; where from is remembered.
func TestAPickTakesFromTheHouse(t *testing.T) {
	s := open(t, "light", demoFile(t))
	before := s.desk.Plan()
	require.NoError(t, house.Open(s.folder).ChangeStock(func(e *plan.Edit) error {
		for kind := range before.CableKinds.All() {
			plan.Put(e, kind)
		}
		for reel := range before.Reels.All() {
			reel.Case = ""
			reel.Tag = ""
			plan.Put(e, reel)
		}
		return nil
	}))
	require.NoError(t, s.desk.Do("Empty", func(e *plan.Edit) error {
		for link := range e.Now().Links.All() {
			e.SetSegments(link.ID, nil)
		}
		for reel := range e.Now().Reels.All() {
			plan.Drop[plan.Reel](e, reel.Key())
		}
		return nil
	}))
	empty := s.desk.Plan()
	s.choose("Stock", "Pick cables…")
	s.app.Until(t, "a pick is shown", func() bool { return s.reads("To be taken from the house") })
	s.radio("the show")
	s.app.Until(t, "the house is named before a hire", func() bool { return s.reads("To take from the house, so that ") })
	require.False(t, s.reads("To be taken from the house"))
	require.Equal(t, "show", s.app.Preferences().String("pick from"))
	s.radio("the house")
	s.app.Until(t, "a pick is shown", func() bool { return s.reads("To be taken from the house") })
	s.tap("Lay these")
	require.Contains(t, s.state().Notice, "The house learns what is taken when the plan is saved.")
	taken := 0
	for reel := range s.desk.Plan().Reels.All() {
		require.NotEmpty(t, reel.Taking)
		taken += reel.Count()
	}
	require.Positive(t, taken)
	s.desk.Undo()
	require.True(t, plan.Equal(empty, s.desk.Plan()))
}

// radio chooses an option of the open dialog.
func (s *screen) radio(option string) {
	s.t.Helper()
	for _, object := range test.LaidOutObjects(s.window.Canvas().Overlays().Top()) {
		if group, is := object.(*widget.RadioGroup); is && slices.Contains(group.Options, option) {
			group.SetSelected(option)
			return
		}
	}
	s.t.Fatalf("no choice %q", option)
}
