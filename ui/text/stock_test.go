package text_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/catalogue"
	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/words"
	"stageloom/ui/text"
)

func stockTold(rows []text.StockRow) string {
	var b strings.Builder
	for _, row := range rows {
		if row.Head != "" {
			fmt.Fprintf(&b, "%s\n", row.Head)
			continue
		}
		fmt.Fprintf(&b, "  %-32s %s\n", row.Name, row.Note)
	}
	return b.String()
}

// marked is a small stock of its own: some of it in a link, one reel suspect, one faulty.
func marked(t *testing.T) *plan.Plan {
	t.Helper()
	ids := plan.NewIDSource(1, 2)
	p, err := plan.Do(plan.New("x"), ids, func(e *plan.Edit) error {
		for _, kind := range []plan.CableKindID{"cat6a", "cat6", "fibre-multimode"} {
			if err := catalogue.UseCable(e, kind); err != nil {
				return err
			}
		}
		plan.Put(e, plan.Kind{ID: "box", Name: "Box", Group: "Stage"})
		plan.Put(e, plan.KindPort{Kind: "box", Name: "A", Transport: "aes50"})
		from := e.AddDevice(plan.Device{Kind: "box"})
		to := e.AddDevice(plan.Device{Kind: "box", X: 90})
		link := e.AddLink(plan.Link{Transport: "aes50", From: from, FromPort: "A", To: to, ToPort: "A"})
		box := e.AddCase(plan.Case{Name: "Case 3, stage data"})
		heap := e.AddReel(plan.Reel{Kind: "cat6", Length: 25, Quantity: 6})
		laid := e.AddReel(plan.Reel{Tag: "6A01", Kind: "cat6a", Length: 50, Case: box})
		e.AddReel(plan.Reel{Tag: "6A02", Kind: "cat6a", Length: 50, Case: box})
		e.AddReel(plan.Reel{Tag: "6A03", Kind: "cat6a", Length: 50, Condition: plan.Suspect, Reason: "shell loose"})
		e.AddReel(plan.Reel{Tag: "6A04", Kind: "cat6a", Length: 90})
		e.AddReel(plan.Reel{Kind: "fibre-multimode", Length: 300, Owner: "hire", Hire: "H 112"})
		faulty := e.AddReel(plan.Reel{Tag: "6A06", Kind: "cat6a", Length: 50})
		e.SetSegments(link, []plan.Segment{{Reel: laid}, {Reel: heap}, {Reel: heap}})
		_, err := e.MarkReel(faulty, plan.Mark{Condition: plan.Faulty, Reason: "core broken", FoundAt: "FOH"})
		return err
	})
	require.NoError(t, err)
	return p
}

func TestTheStockSaysWhatIsLeftOfWhatThereIs(t *testing.T) {
	p := marked(t)
	golden(t, "stock", stockTold(text.StockOf(p, "", words.Units{})))
	golden(t, "stock-feet", stockTold(text.StockOf(p, "6a", words.Units{Length: quantity.Imperial})))
	golden(t, "stock-tag", stockTold(text.StockOf(p, "case 3 50 m", words.Units{})))
	require.Empty(t, text.StockOf(p, "no such thing", words.Units{}))
	require.Empty(t, text.StockOf(plan.New("x"), "", words.Units{}))
}

func TestTheCountsOfTheStockAddUp(t *testing.T) {
	for name, p := range map[string]*plan.Plan{"a small stock": marked(t), "the demo's": demo.Weekender()} {
		t.Run(name, func(t *testing.T) { addUp(t, p) })
	}
}

func addUp(t *testing.T, p *plan.Plan) {
	t.Helper()
	count, left, used := 0, 0, 0
	for _, row := range text.StockOf(p, "", words.Units{}) {
		count += row.Count
		left += row.Left
		if row.Faulty {
			left += row.Count
		}
	}
	cables := 0
	for reel := range p.Reels.All() {
		cables += reel.Count()
	}
	for segment := range p.Segments.All() {
		if segment.Reel != "" {
			used++
		}
	}
	require.Equal(t, cables, count)
	require.Equal(t, cables-used, left)
}

func TestAFaultyOrUsedReelIsNotHeldOut(t *testing.T) {
	p := marked(t)
	used := p.UsedReels()
	offered := 0
	for _, query := range []string{"", "a", "6"} {
		for _, row := range text.StockOf(p, query, words.Units{}) {
			offer, free := row.Offer()
			if !free {
				continue
			}
			offered++
			reel, found := p.Reels.Get(plan.Key(offer.Reel))
			require.True(t, found)
			require.NotEqual(t, plan.Faulty, reel.Condition)
			require.Less(t, used[reel.ID], reel.Count())
			require.Equal(t, reel.Kind, offer.Kind)
			require.Equal(t, plan.Segment{Reel: reel.ID}, offer.Segment())
		}
	}
	require.Positive(t, offered)
	require.Equal(t, plan.Segment{Kind: "cat6a", Length: 20}, text.CableOffer{Kind: "cat6a", Length: 20}.Segment())
}
