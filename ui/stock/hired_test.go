package stock_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/cabling"
	"stageloom/model/exchange"
	"stageloom/model/plan"
	"stageloom/ui/dialogs"
)

func TestWhatIsToBeHiredComesIntoTheStockInOneStep(t *testing.T) {
	h, d := open(t)
	done := 0
	d.AddHired([]cabling.Hire{
		{Kind: "cat6a", KindName: "Cat 6A", Length: 60.96, Count: 2},
		{Kind: "multicore-24", KindName: "Analogue multicore 24 ways", Length: 50, Count: 1},
	}, func() { done++ })
	require.True(t, h.Reads("1 × 50 m Analogue multicore 24 ways\n2 × 60.96 m Cat 6A"))
	h.Tap("Add to the stock")
	require.True(t, h.Reads("Write who hires them out"))
	h.Item("Owner").(*dialogs.Entry).SetText("us")
	h.Tap("Add to the stock")
	require.True(t, h.Reads("Write who hires them out"))
	h.Item("Owner").(*dialogs.Entry).SetText("Northquay Hire")
	h.Item("Hire reference").(*dialogs.Entry).SetText("NQ 7")
	h.Item("Return date").(*dialogs.Entry).SetText("2031-02-31")
	h.Tap("Add to the stock")
	require.True(t, h.Reads("is no day"))
	h.Item("Return date").(*dialogs.Entry).SetText("2031-02-28")
	h.Tap("Add to the stock")
	require.Equal(t, 1, done)
	var got []plan.Reel
	for _, reel := range exchange.InStockOrder(h.Desk().Plan()) {
		reel.ID = ""
		got = append(got, reel)
	}
	hired := plan.Reel{Owner: "Northquay Hire", Hire: "NQ 7", Return: "2031-02-28"}
	pair, multi := hired, hired
	pair.Kind, pair.Length, pair.Quantity = "cat6a", 60.96, 2
	multi.Kind, multi.Length = "multicore-24", 50
	require.Equal(t, []plan.Reel{pair, multi}, got)
	require.True(t, h.Desk().Undo())
	require.Equal(t, 0, h.Desk().Plan().Reels.Len(), "one step")
}
