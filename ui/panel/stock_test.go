package panel_test

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/model/catalogue"
	"stageloom/model/plan"
	"stageloom/ui/panel"
	"stageloom/ui/text"
)

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

func TestAReelIsLaidWithEnterAndCarriedWithThePointer(t *testing.T) {
	start(t)
	p := marked(t)
	s := panel.NewStockList(p, func() {})
	var laid []text.CableOffer
	var none []text.StockRow
	var carried, dropped text.CableOffer
	left := false
	s.Lay = func(offer text.CableOffer) { laid = append(laid, offer) }
	s.None = func(row text.StockRow) { none = append(none, row) }
	s.Carry = func(offer text.CableOffer, _ fyne.Position) { carried = offer }
	s.Drop = func(offer text.CableOffer, _ fyne.Position) { dropped = offer }
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
