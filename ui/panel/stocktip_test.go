package panel_test

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/ui/panel"
	"stageloom/ui/pointer"
)

func TestARowOfTheStockSaysWhatTheHouseHasNotAndIsToldWhole(t *testing.T) {
	start(t)
	p, err := plan.Do(marked(t), nil, func(e *plan.Edit) error {
		for row := range e.Now().Reels.All() {
			if row.Quantity == 6 {
				row.Taking, row.Lacking, row.LackingWhy = "t-33333", 2, "is out: 2 with Barn since 2027-06-18"
				plan.Put(e, row)
			}
		}
		return nil
	})
	require.NoError(t, err)
	s := panel.NewStockList(p, func() {})
	rest := func() {}
	s.Tips = pointer.NewTips(func(_ time.Duration, do func()) func() {
		rest = do
		return func() {}
	})
	show(t, s, 220, 600)
	require.Subset(t, drawnOf(s), []string{"2 the house has not", "2/6"}, "it fits into the column")
	row := rowsOf(s, "stockRow")["25 m"].(desktop.Hoverable)
	row.MouseIn(&desktop.MouseEvent{PointEvent: fyne.PointEvent{AbsolutePosition: fyne.NewPos(20, 100)}})
	rest()
	require.Contains(t, s.Tips.Words(), "lacking 2: 2 with Barn since 2027-06-18")
	row.MouseOut()
	require.Empty(t, s.Tips.Words())
}
