package text_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/fields"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/text"
)

// gone is the small stock with reels that are not there: a missing one, one that another show has, and four of six equal ones.
func gone(t *testing.T) *plan.Plan {
	t.Helper()
	p, err := plan.Do(marked(t), nil, func(e *plan.Edit) error {
		for row := range e.Now().Reels.All() {
			switch {
			case row.Tag == "6A02":
				row.State, row.StateOn = plan.Missing, "2027-06-22"
			case row.Tag == "6A04":
				row.Taking, row.Lacking, row.LackingWhy = "t-22222", 1, "is out: 1 with Barn"
			case row.Quantity == 6:
				row.Taking, row.Lacking, row.LackingWhy = "t-33333", 4, "is out: 4 with Barn"
			}
			plan.Put(e, row)
		}
		return nil
	})
	require.NoError(t, err)
	return p
}

func reelTagged(p *plan.Plan, tag string) (found plan.Reel) {
	for row := range p.Reels.All() {
		if row.Tag == tag {
			found = row
		}
	}
	return found
}

func TestWhatIsNotThereIsSaidAndNotHeldOut(t *testing.T) {
	p := gone(t)
	golden(t, "stock-away", stockTold(text.StockOf(p, "", words.Units{})))
	golden(t, "stock-away-tags", stockTold(text.StockOf(p, "6a", words.Units{})))
	for _, query := range []string{"", "a", "6"} {
		for _, row := range text.StockOf(p, query, words.Units{}) {
			if offer, free := row.Offer(); free {
				reel, _ := p.Reels.Get(plan.Key(offer.Reel))
				require.Less(t, p.UsedReels()[reel.ID], reel.There(), "%s is held out", row.Name)
			}
		}
	}
	for _, choice := range text.CablesFor(p, p.Links.At(0).ID, words.Units{}) {
		reel, _ := p.Reels.Get(plan.Key(choice.Segment.Reel))
		require.Positive(t, reel.There(), choice.Words)
	}
}

func TestACableThatIsNotThereIsNeitherOfferedNorTaken(t *testing.T) {
	p := gone(t)
	field, segment := fields.Of(plan.SegmentsTable, "reel"), p.Segments.At(0)
	state := fields.On(p, nil, words.Units{})
	for _, tag := range []string{"6A02", "6A04"} {
		reel := reelTagged(p, tag)
		for _, option := range field.Options(state, segment) {
			require.NotEqual(t, string(reel.ID), option.Value)
		}
		_, err := plan.Do(p, nil, func(e *plan.Edit) error { return field.Put(e, words.Units{}, segment.Key(), string(reel.ID)) })
		require.ErrorContains(t, err, tag+" "+reel.AwayWords())
	}
}
