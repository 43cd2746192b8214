package revision_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/revision"
)

// after edits the demo and returns both states.
func after(t *testing.T, edit func(*plan.Edit) error) (before, now *assess.Assessment) {
	t.Helper()
	p := demo.Weekender()
	next, err := plan.Do(p, plan.NewIDSource(1, 2), edit)
	require.NoError(t, err)
	return assess.Of(p), assess.Of(next)
}

// words are the changes as sentences.
func words(before, now *assess.Assessment) []string {
	var said []string
	for _, change := range revision.Changes(before, now, quantity.Metric) {
		said = append(said, change.String())
	}
	return said
}

func linkNamed(t *testing.T, p *plan.Plan, name string) plan.Link {
	t.Helper()
	for link := range p.Links.All() {
		if link.Name == name {
			return link
		}
	}
	t.Fatalf("there is no link %s", name)
	return plan.Link{}
}

func TestChangesInWords(t *testing.T) {
	for _, c := range []struct {
		sentence string
		edit     func(*plan.Edit) error
		contains []string
		never    string
	}{
		{
			"a position that moves carries its devices and stretches its links", func(e *plan.Edit) error {
				for position := range e.Now().Positions.All() {
					if position.Name == "FOH tower" {
						e.Move(plan.MovingWith(e.Now(), nil, []plan.PositionID{position.ID}), geom.Pt(30, 4))
					}
				}
				return nil
			}, []string{"FOH tower (position): moved 30.0 m right and 4.0 m up", "L01 (link): run 141.5 m (found), was 110.3 m, now over limit: do not use"}, "FOH console (device): moved",
		},
		{
			"a link that is new, and one that is gone", func(e *plan.Edit) error {
				l01 := linkNamed(t, e.Now(), "L01")
				e.RemoveLinks(l01.ID)
				l01.Name, l01.Partner, l01.Role = "L77", "", ""
				e.AddLink(l01)
				return nil
			}, []string{"L01 (link): gone: take it up", "L77 (link): new: Stage rack port AES50 1 to FOH console port AES50 1"}, "",
		},
		{
			"a link made of other cables", func(e *plan.Edit) error {
				e.SetSegments(linkNamed(t, e.Now(), "L10").ID, []plan.Segment{{Kind: "cat6", Length: 30}})
				return nil
			}, []string{"L10 (link): cables now 30 m of Cat 6"}, "",
		},
		{
			"a temperature", func(e *plan.Edit) error {
				s := e.Now().Settings
				s.Temperature = plan.Some(45)
				e.SetSettings(s)
				return nil
			}, []string{"Cable temperature: 45 °C, was the default"}, "",
		},
		{"nothing", func(*plan.Edit) error { return nil }, nil, ""},
	} {
		t.Run(c.sentence, func(t *testing.T) {
			said := words(after(t, c.edit))
			for _, sentence := range c.contains {
				require.Contains(t, said, sentence)
			}
			if c.contains == nil {
				require.Empty(t, said)
			}
			for _, sentence := range said {
				require.True(t, c.never == "" || len(sentence) < len(c.never) || sentence[:len(c.never)] != c.never, sentence)
			}
		})
	}
}

func TestASummaryNamesWhatMovedAndCountsTheRest(t *testing.T) {
	before, now := after(t, func(e *plan.Edit) error {
		for position := range e.Now().Positions.All() {
			if position.Name == "FOH tower" {
				e.Move(plan.MovingWith(e.Now(), nil, []plan.PositionID{position.ID}), geom.Pt(0, 30))
			}
		}
		return nil
	})
	changes := revision.Changes(before, now, quantity.Metric)
	links := 0
	for _, change := range changes {
		if change.Where.Table == "links" {
			links++
		}
	}
	require.Greater(t, links, 3)
	require.Regexp(t, `^FOH tower \(position\) moved 30\.0 m up; \d+ links$`, revision.Summary(changes))
	require.Empty(t, revision.Links(before, now), "cables and ends are those of before, however far they reach")
}

func TestLinksToLayOtherwise(t *testing.T) {
	var wanted plan.LinkID
	before, now := after(t, func(e *plan.Edit) error {
		wanted = linkNamed(t, e.Now(), "L04").ID
		e.SetSegments(wanted, []plan.Segment{{Kind: "cat6a", Length: 60}})
		kept := linkNamed(t, e.Now(), "L06")
		segments := append([]plan.Segment{}, e.Now().SegmentsOf(kept.ID)...)
		segments[0].Kept = true
		e.SetSegments(kept.ID, segments)
		return nil
	})
	require.Equal(t, map[plan.LinkID]bool{wanted: true}, revision.Links(before, now), "keeping a choice is no change")
}

// The marks that a save writes beside a row are told neither alone nor among rows that a reader changed.
func TestWhatTheHouseDoesNotLetTheShowHaveIsNotCountedAsChanged(t *testing.T) {
	lacks := func(e *plan.Edit, at int) error {
		return plan.Update(e, e.Now().Reels.At(at).Key(), func(r *plan.Reel) { r.Lacking, r.LackingWhy = 1, "is out: 1 with Barn" })
	}
	before, now := after(t, func(e *plan.Edit) error {
		require.NoError(t, lacks(e, 0))
		require.NoError(t, lacks(e, 1))
		return plan.Update(e, e.Now().Reels.At(1).Key(), func(r *plan.Reel) { r.Length++ })
	})
	require.Contains(t, words(before, now), "Stock: 1 row changed")
	require.Contains(t, words(now, before), "Stock: 1 row changed")
	before, now = after(t, func(e *plan.Edit) error { return lacks(e, 0) })
	require.Empty(t, words(before, now))
	require.Empty(t, words(now, before))
}
