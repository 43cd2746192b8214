package panel_test

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/model/catalogue"
	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/ui/panel"
)

func stockTold(rows []panel.StockRow) string {
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
	golden(t, "stock", stockTold(panel.StockOf(p, "", panel.Units{})))
	golden(t, "stock-feet", stockTold(panel.StockOf(p, "6a", panel.Units{Length: quantity.Imperial})))
	golden(t, "stock-tag", stockTold(panel.StockOf(p, "case 3 50 m", panel.Units{})))
	require.Empty(t, panel.StockOf(p, "no such thing", panel.Units{}))
	require.Empty(t, panel.StockOf(plan.New("x"), "", panel.Units{}))
}

func TestTheCountsOfTheStockAddUp(t *testing.T) {
	for name, p := range map[string]*plan.Plan{"a small stock": marked(t), "the demo's": demo.Weekender()} {
		t.Run(name, func(t *testing.T) { addUp(t, p) })
	}
}

func addUp(t *testing.T, p *plan.Plan) {
	t.Helper()
	count, left, used := 0, 0, 0
	for _, row := range panel.StockOf(p, "", panel.Units{}) {
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
		for _, row := range panel.StockOf(p, query, panel.Units{}) {
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
	require.Equal(t, plan.Segment{Kind: "cat6a", Length: 20}, panel.CableOffer{Kind: "cat6a", Length: 20}.Segment())
}

func TestAReelIsLaidWithEnterAndCarriedWithThePointer(t *testing.T) {
	start(t)
	p := marked(t)
	s := panel.NewStockList(p, func() {})
	var laid []panel.CableOffer
	var none []panel.StockRow
	var carried, dropped panel.CableOffer
	left := false
	s.Lay = func(offer panel.CableOffer) { laid = append(laid, offer) }
	s.None = func(row panel.StockRow) { none = append(none, row) }
	s.Carry = func(offer panel.CableOffer, _ fyne.Position) { carried = offer }
	s.Drop = func(offer panel.CableOffer, _ fyne.Position) { dropped = offer }
	s.Leave = func() { left = true }
	w := show(t, s, 220, 900)
	s.Focus(w.Canvas())
	test.Type(w.Canvas().Focused(), "6A06")
	w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	require.Len(t, none, 1, "a faulty one is not laid")
	require.Empty(t, laid)
	for range 4 {
		w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace})
	}
	test.Type(w.Canvas().Focused(), "cat 6 25 m")
	w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	require.Len(t, laid, 1)
	reel, _ := p.Reels.Get(plan.Key(laid[0].Reel))
	require.Equal(t, plan.CableKindID("cat6"), reel.Kind)
	for _, object := range test.LaidOutObjects(w.Canvas().Content()) {
		row, draggable := object.(fyne.Draggable)
		if draggable && strings.Contains(objectName(object), "stockRow") {
			row.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{AbsolutePosition: fyne.NewPos(500, 300)}})
			row.DragEnd()
		}
	}
	require.NotEmpty(t, carried.Reel)
	require.Equal(t, carried, dropped)
	w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	require.True(t, left)
}

func TestAnEmptyStockSaysWhatToDoFirst(t *testing.T) {
	start(t)
	added := 0
	w := show(t, panel.NewStockList(plan.New("x"), func() { added++ }), 220, 400)
	require.Contains(t, test.RenderToMarkup(w.Canvas()), "No cables yet.")
	test.TapCanvas(w.Canvas(), fyne.NewPos(205, 14))
	require.Equal(t, 1, added)
}
