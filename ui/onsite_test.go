package ui_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/desk"
	"stageloom/model/geom"
	"stageloom/model/plan"
)

// tested marks a link of the demo tested.
func (s *screen) tested(name string) plan.Link {
	for link := range s.desk.Plan().Links.All() {
		if link.Name == name {
			require.NoError(s.t, s.desk.Do("Mark", func(e *plan.Edit) error { return e.MarkDone(link.ID, plan.Tested, true) }))
			link, _ = s.desk.Plan().Link(link.ID)
			return link
		}
	}
	s.t.Fatalf("the demo has no link %s", name)
	return plan.Link{}
}

// words are all that the topmost dialog says.
func (s *screen) words() (said string) {
	overlays := s.window.Canvas().Overlays().List()
	require.NotEmpty(s.t, overlays)
	for _, object := range test.LaidOutObjects(overlays[len(overlays)-1]) {
		if label, ok := object.(*widget.Label); ok {
			said += label.Text + "\n"
		}
	}
	return said
}

func (s *screen) escape() {
	s.window.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
}

// Whatever touches a tested link asks first, whoever makes the edit; leaving it changes nothing, and undo asks nothing.
func TestWhatLiesIsTouchedOnlyAfterAQuestion(t *testing.T) {
	s := open(t, "light", demoFile(t))
	link := s.tested("L01")
	for name, edit := range map[string]func(*plan.Edit) error{
		"take a cable off": func(e *plan.Edit) error { return e.RemoveSegment(link.ID, 1) },
		"delete it":        func(e *plan.Edit) error { e.RemoveLinks(link.ID); return nil },
		"drag its device": func(e *plan.Edit) error {
			e.Move(plan.MovingWith(e.Now(), []plan.DeviceID{link.From}, nil), geom.Pt(9, 9))
			return nil
		},
		"lay it another way": func(e *plan.Edit) error { return e.Draw(link.ID, []geom.Point{{X: 1, Y: 40}}) },
	} {
		t.Run(name, func(t *testing.T) {
			before := s.desk.Plan()
			require.ErrorIs(t, s.desk.Do(name, edit), desk.ErrAsked)
			require.Equal(t, 1, s.state().Overlays)
			require.Contains(t, s.words(), "L01, tested")
			s.tap("Leave it")
			require.Zero(t, s.state().Overlays)
			require.Same(t, before, s.desk.Plan())

			require.ErrorIs(t, s.desk.Do(name, edit), desk.ErrAsked)
			s.escape()
			require.Zero(t, s.state().Overlays, "Escape leaves it")
			require.Same(t, before, s.desk.Plan())

			require.ErrorIs(t, s.desk.Do(name, edit), desk.ErrAsked)
			s.tap("Do it all the same")
			require.NotSame(t, before, s.desk.Plan())
			require.Equal(t, name, s.desk.NextUndo(), "it is one step")
			s.choose("Edit", "Undo "+name)
			require.Zero(t, s.state().Overlays, "undo asks nothing")
			require.True(t, plan.Equal(before, s.desk.Plan()))
		})
	}
}

func TestWhatTouchesNothingOnSiteAsksNothing(t *testing.T) {
	s := open(t, "light", demoFile(t))
	link := s.tested("L01")
	require.NoError(t, s.desk.Do("note", func(e *plan.Edit) error {
		return plan.Update(e, link.Key(), func(r *plan.Link) { r.Note = "by the fence" })
	}))
	require.NoError(t, s.desk.Do("mark back by hand", func(e *plan.Edit) error { return e.MarkDone(link.ID, plan.Tested, false) }))
	require.NoError(t, s.desk.Do("nothing is done of the other", func(e *plan.Edit) error {
		for other := range e.Now().Links.All() {
			if other.Done == "" && len(e.Now().SegmentsOf(other.ID)) > 0 {
				return e.RemoveSegment(other.ID, 1)
			}
		}
		return nil
	}))
	require.Zero(t, s.state().Overlays)
}

func TestADeletedLinkThatLiesIsNamedAndEnterKeepsIt(t *testing.T) {
	s := open(t, "light", demoFile(t))
	link := s.tested("L01")
	s.desk.Select(plan.RefOf(link))
	s.choose("Edit", "Delete")
	require.Equal(t, 1, s.state().Overlays)
	require.Contains(t, s.words(), "On site: L01, tested, is deleted")
	s.window.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	require.True(t, s.desk.Plan().Links.Has(link.Key()))
	s.choose("Edit", "Delete")
	s.tap("Delete")
	require.False(t, s.desk.Plan().Links.Has(link.Key()))
	require.Zero(t, s.state().Overlays, "it is asked once")
}

func TestALaidSpareTakesOver(t *testing.T) {
	s := open(t, "light", demoFile(t))
	link := s.tested("L01")
	dead := s.desk.Plan().SegmentsOf(link.ID)
	s.desk.Select(plan.RefOf(link))
	s.choose("Links", "Let a laid spare take over…")
	require.Contains(t, s.state().Notice, "No laid spare")
	s.choose("Links", "Lay a spare beside it")
	ref := s.desk.Selection()[0]
	spare, _ := s.desk.Plan().Link(plan.LinkID(ref.Key))
	require.True(t, spare.IsSpare())
	require.NoError(t, s.desk.Do("lay", func(e *plan.Edit) error {
		e.SetSegments(spare.ID, []plan.Segment{{Kind: link.FillKind, Length: 100}})
		return e.SetDone(spare.ID, plan.Tested)
	}))
	s.desk.Select(plan.RefOf(link))
	s.choose("Links", "Let a laid spare take over…")
	require.Equal(t, 1, s.state().Overlays)
	s.tap("Take over")
	require.Zero(t, s.state().Overlays)
	now, _ := s.desk.Plan().Link(link.ID)
	require.Equal(t, plan.Laid, now.Done)
	require.Equal(t, 100.0, s.desk.Plan().SegmentsOf(link.ID)[0].Length)
	require.Len(t, s.desk.Plan().SegmentsOf(spare.ID), len(dead))
	require.Equal(t, spare.Name+" takes over L01", s.desk.NextUndo())
}

func TestANewHouseLineAsksForKindAndLength(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.desk.Select()
	s.choose("Tables", "House lines")
	s.window.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyInsert})
	require.Equal(t, 1, s.state().Overlays)
	s.tap("Make it")
	require.Zero(t, s.desk.Plan().HouseLines.Len(), "nothing is made of a guess that nobody said")
	require.Equal(t, 1, s.state().Overlays)
	s.choosers()[0].SetSelectedIndex(0)
	s.fillSecond("47 m")
	s.tap("Make it")
	require.Equal(t, 1, s.desk.Plan().HouseLines.Len())
	for line := range s.desk.Plan().HouseLines.All() {
		require.Equal(t, 47.0, line.Length)
	}
}
