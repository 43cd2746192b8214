package revision_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/model/planfile"
	"stageloom/model/quantity"
	"stageloom/model/revision"
)

func sealed(t *testing.T, p *plan.Plan, letter, date string) *plan.Plan {
	t.Helper()
	next, err := planfile.Seal(p, letter, date, "")
	require.NoError(t, err)
	return next
}

func edited(t *testing.T, p *plan.Plan, edit func(*plan.Edit) error) *plan.Plan {
	t.Helper()
	next, err := plan.Do(p, plan.NewIDSource(7, 8), edit)
	require.NoError(t, err)
	return next
}

func settings(with func(*plan.Settings)) func(*plan.Edit) error {
	return func(e *plan.Edit) error {
		s := e.Now().Settings
		with(&s)
		e.SetSettings(s)
		return nil
	}
}

func TestHowAPlanStandsToItsRevisions(t *testing.T) {
	p := demo.Weekender()
	draft := revision.StandingOf(p)
	require.Equal(t, "draft, not issued", draft.Mark())
	require.Equal(t, "draft, not issued", draft.String())
	require.True(t, draft.Drafted())
	require.Empty(t, draft.Date())

	a := sealed(t, p, "A", "2027-05-30")
	require.Equal(t, p.Settings.Date, a.Settings.Date, "the show is on the day it was on")
	asIssued := revision.StandingOf(a)
	require.Equal(t, []string{"A", "revision A", "issued 2027-05-30", "Revision A, issued 2027-05-30."},
		[]string{asIssued.Mark(), asIssued.String(), asIssued.Date(), asIssued.Sentence()})
	require.Equal(t, []string{"A, issued 2027-05-30"}, revision.Issues(a))

	l01 := linkNamed(t, a, "L01").ID
	for name, edit := range map[string]func(*plan.Edit) error{
		"a link that moved": func(e *plan.Edit) error {
			e.Move(plan.MovingWith(a, nil, []plan.PositionID{a.Positions.At(0).ID}), geom.Pt(0.05, 0))
			return nil
		},
		"a note": func(e *plan.Edit) error {
			return plan.Update(e, plan.Key(l01), func(l *plan.Link) { l.Note = "mind it" })
		},
		"the show day": settings(func(s *plan.Settings) { s.Date = "2027-06-13" }),
		"a margin":     settings(func(s *plan.Settings) { s.WantedMargin = plan.Some(2) }),
		"slots": func(e *plan.Edit) error {
			plan.Put(e, plan.SlotPatch{Link: e.Now().SlotPatches.At(0).Link, Direction: "return", Slot: 48, Use: "reserved"})
			return nil
		},
		"the reel of the stock": func(e *plan.Edit) error {
			return plan.Update(e, e.Now().Reels.At(0).Key(), func(r *plan.Reel) { r.Length++ })
		},
	} {
		t.Run(name+" is a change that was not issued", func(t *testing.T) {
			now := edited(t, a, edit)
			standing := revision.StandingOf(now)
			require.Equal(t, "A + changes, not issued", standing.Mark())
			require.Equal(t, "revision A + changes, not issued", standing.String())
			require.Equal(t, "A issued 2027-05-30", standing.Date())
			require.Contains(t, standing.Sentence(), "A + changes, not issued: the plan was changed since revision A was issued 2027-05-30.")
			since, err := revision.SinceLast(assess.Of(now), quantity.Metric)
			require.NoError(t, err)
			require.NotEmpty(t, since.Lines(9), "what makes the sheets others than those issued is told")
			require.Equal(t, "B", revision.StandingOf(sealed(t, now, "B", "")).Mark())
		})
	}
	for name, edit := range map[string]func(*plan.Edit) error{
		"what is done on site": func(e *plan.Edit) error { return e.MarkDone(l01, plan.Tested, true) },
		"what was heard in a line check": func(e *plan.Edit) error {
			at := plan.LineCheck{Input: e.Now().Inputs.At(0).ID, At: "2027-06-18T16:31:00+02:00", Result: plan.Dead}
			if _, err := e.SetLineCheck(at); err != nil {
				return err
			}
			return e.ClearLineCheck("", at.Input, "2027-06-18T16:45:00+02:00")
		},
		"the paper to print on": settings(func(s *plan.Settings) {
			s.PrintPaper, s.PrintGrey = "A3", true
		}),
		"the identity that a copy gets": settings(func(s *plan.Settings) { s.Identity = "meadowmeadowmeadow22" }),
		"what the house does not let the show have": func(e *plan.Edit) error {
			return plan.Update(e, e.Now().Reels.At(0).Key(), func(r *plan.Reel) { r.Lacking, r.LackingWhy = 1, "is out: 1 with Barn" })
		},
		"the letter of the next revision": settings(func(s *plan.Settings) { s.Revision = "B" }),
		"who chose a cable": func(e *plan.Edit) error {
			segments := slices.Clone(e.Now().SegmentsOf(l01))
			segments[0].Kept = !segments[0].Kept
			e.SetSegments(l01, segments)
			return nil
		},
		"what is taken back": func(e *plan.Edit) error {
			if err := plan.Update(e, plan.Key(l01), func(l *plan.Link) { l.Note = "mind it" }); err != nil {
				return err
			}
			return plan.Update(e, plan.Key(l01), func(l *plan.Link) { l.Note = linkNamed(t, a, "L01").Note })
		},
	} {
		t.Run(name+" is none", func(t *testing.T) {
			now := edited(t, a, edit)
			require.Equal(t, "A", revision.StandingOf(now).Mark())
			since, err := revision.SinceLast(assess.Of(now), quantity.Metric)
			require.NoError(t, err)
			require.Nil(t, since, "A is the first: nothing came before it")
			require.Equal(t, "None to tell: no earlier revision of this plan was issued.", since.Lead())
		})
	}
	t.Run("revisions that do not fit each other cannot be what is printed", func(t *testing.T) {
		broken := edited(t, a, func(e *plan.Edit) error {
			plan.Put(e, plan.Revision{Number: 2, Letter: "B", Changes: `{"levels": {"drop": ["v-44444"]}}`})
			return nil
		})
		require.Equal(t, "B + changes, not issued", revision.StandingOf(broken).Mark())
		_, err := revision.SinceLast(assess.Of(broken), quantity.Metric)
		require.ErrorContains(t, err, "does not fit")
	})
}

func TestAnIssueIsComparedWithTheOneBefore(t *testing.T) {
	a := sealed(t, demo.Weekender(), "A", "2027-05-30")
	b := sealed(t, edited(t, a, settings(func(s *plan.Settings) { s.Date = "2027-06-13" })), "B", "2027-06-01")
	since, err := revision.SinceLast(assess.Of(b), quantity.Metric)
	require.NoError(t, err)
	require.Equal(t, "Changed since revision A of 2027-05-30", since.Heading())
	require.Equal(t, []string{"Show date: 2027-06-13, was 2027-06-18"}, since.Lines(5))
	require.Equal(t, "1 figure of the plan.", since.Lead())
	b = edited(t, b, settings(func(s *plan.Settings) { s.Site = "Upper field" }))
	since, err = revision.SinceLast(assess.Of(b), quantity.Metric)
	require.NoError(t, err)
	require.Equal(t, "Changed since revision B of 2027-06-01", since.Heading())
	require.Len(t, since.Lines(0), 1)
	require.Equal(t, "and 1 more", since.Lines(0)[0])
}

func TestHowFarSomethingMovedIsToldAcrossAndUp(t *testing.T) {
	for _, c := range []struct {
		by     geom.Point
		metres string
		feet   string
	}{
		{geom.Pt(35, 20), "moved 35.0 m right and 20.0 m up", "moved 114.8 ft right and 65.6 ft up"},
		{geom.Pt(-30, -0.04), "moved 30.0 m left", "moved 98.4 ft left"},
		{geom.Pt(0, -12.25), "moved 12.3 m down", "moved 40.2 ft down"},
		{geom.Pt(0.09, 0.09), "moved 0.1 m right and 0.1 m up", "moved 0.3 ft right and 0.3 ft up"},
	} {
		before, now := after(t, func(e *plan.Edit) error {
			e.Move(plan.MovingWith(e.Now(), nil, []plan.PositionID{e.Now().Positions.At(0).ID}), c.by)
			return nil
		})
		name := now.Plan.Positions.At(0).Name + " (position): "
		require.Equal(t, name+c.metres, revision.Changes(before, now, quantity.Metric)[0].String())
		require.Equal(t, name+c.feet, revision.Changes(before, now, quantity.Imperial)[0].String())
	}
}

func TestWhatIsGoneSaysWhatItWas(t *testing.T) {
	before, now := after(t, func(e *plan.Edit) error {
		position, device, area := e.Now().Positions.At(0), e.Now().Devices.At(0), e.Now().Areas.At(0)
		e.RemovePosition(position.ID)
		e.RemoveDevices(device.ID)
		e.RemoveArea(area.ID)
		return nil
	})
	said := words(before, now)
	for _, sentence := range []string{
		before.Plan.Positions.At(0).Name + " (position): gone", before.Plan.Devices.At(0).Name + " (device): gone", before.Plan.Areas.At(0).Name + " (area): gone",
	} {
		require.Contains(t, said, sentence)
	}
	for _, change := range revision.Changes(before, now, quantity.Metric) {
		named := change.What != "" || change.Where.Table == "" || slices.Contains([]string{"inputs", "outputs", "rest"}, change.Where.Table)
		require.True(t, named, "%s says what it is", change)
	}
}

func TestChangesThatNoWordsAreMadeOfAreToldByTheirList(t *testing.T) {
	before, now := after(t, func(e *plan.Edit) error {
		plan.Put(e, plan.Reel{ID: "r-zzzzz", Kind: e.Now().Reels.At(0).Kind, Length: 20})
		l := linkNamed(t, e.Now(), "L01")
		l.Note, l.Colour = "behind the riser", "pink"
		plan.Put(e, l)
		l = linkNamed(t, e.Now(), "L04")
		l.Note = "mind it"
		plan.Put(e, l)
		return nil
	})
	said := words(before, now)
	require.Contains(t, said, "Stock: 1 row new")
	require.Contains(t, said, "L04 (link): changed in its details")
	require.Regexp(t, `^L01 \(link\): tape now pink, was \w+$`, said[0])
}
