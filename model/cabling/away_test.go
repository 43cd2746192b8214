package cabling_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/cabling"
	"stageloom/model/plan"
)

// away marks a reel as one that is in the stock and not there.
func away(state string) func(*plan.Reel) { return func(r *plan.Reel) { r.State = state } }

// lacking marks so many of a row as what the house does not let the show have.
func lacking(count int) func(*plan.Reel) {
	return func(r *plan.Reel) { r.Taking, r.Lacking, r.LackingWhy = "t-22222", count, "is out: 1 with Barn" }
}

// laidReels are the tags of the reels that links lie on.
func laidReels(p *plan.Plan) (tags []string) {
	for segment := range p.Segments.All() {
		reel, _ := p.Reels.Get(plan.Key(segment.Reel))
		tags = append(tags, reel.Tag)
	}
	return tags
}

func TestWhatIsNotThereIsNeitherPickedNorOffered(t *testing.T) {
	s := newShow(t, 40, 40)
	missing := s.reel(t, "M", "cat6a", 45, away(plan.Missing))
	s.reel(t, "W", "cat6a", 45, away(plan.InRepair))
	s.reel(t, "G", "cat6a", 45, away(plan.WrittenOff))
	s.reel(t, "T", "cat6a", 45, lacking(1))
	row := s.reel(t, "", "cat6a", 50, many(3), lacking(2))
	proposal := s.pick(t, cabling.Request{})
	served := 0
	for _, change := range proposal.Links {
		for _, segment := range change.After {
			require.Equal(t, row, segment.Reel)
			served++
		}
	}
	require.Equal(t, 1, served, "one of the three is there")

	s.lay(t, 0, plan.Segment{Reel: missing, Kept: true})
	s.reel(t, "B", "cat6a", 60)
	require.Empty(t, tagged(cabling.Replacements(s.Plan, s.links[0], 1, false), "M", "W", "G", "T"))
	s.take(t, cabling.Request{})
	require.NotContains(t, laidReels(s.Plan), "M", "a cable that is not there is picked away, though it was kept")
	require.Equal(t, 2, s.Plan.Segments.Len())
}

// tagged keeps the tags that candidates bear of some.
func tagged(candidates []cabling.Candidate, of ...string) (kept []string) {
	for _, tag := range tags(candidates) {
		for _, one := range of {
			if tag == one {
				kept = append(kept, tag)
			}
		}
	}
	return kept
}
