package stock_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/dialogs/hosttest"
	"stageloom/ui/stock"
	"stageloom/ui/text"
)

// columnsKept are the columns of lists, as long as a test runs.
type columnsKept map[string][]string

func (k columnsKept) ListColumns(heads string) (fields []string, found bool) {
	fields, found = k[heads]
	return fields, found
}

func (k columnsKept) SetListColumns(heads string, fields []string) { k[heads] = fields }

func open(t *testing.T) (*hosttest.Host, *stock.Dialogs) {
	t.Helper()
	h, library := hosttest.New(t, plan.New("New plan")), house.Open(t.TempDir())
	return h, &stock.Dialogs{
		Host: h, Library: func() house.Library { return library },
		Chosen: func() (text.StockRow, bool) { return text.StockRow{}, false }, Columns: columnsKept{}, ActShown: func() plan.ActID { return "" },
	}
}

func TestReelsAreAddedToThePlanAndToTheHouse(t *testing.T) {
	h, d := open(t)
	d.AddReels(d.OfPlan())
	h.Item("What there is").(*dialogs.Entry).SetText("12 x 50 m")
	h.Tap("Add")
	require.Equal(t, 1, h.Desk().Plan().Reels.Len())
	require.Contains(t, h.Said, "Added 12 cables")

	changed := 0
	d.AddReels(d.OfHouse(func() { changed++ }))
	h.Item("What there is").(*dialogs.Entry).SetText("3 x 20 m")
	h.Tap("Add")
	require.Equal(t, 1, changed)
	require.Equal(t, 1, h.Desk().Plan().Reels.Len(), "the plan has none of the house's")
	inHouse, err := d.Library().Stock()
	require.NoError(t, err)
	require.Equal(t, 1, inHouse.Plan.Reels.Len())
}

func TestAHouseLineIsMadeAndTold(t *testing.T) {
	h, d := open(t)
	var made plan.Ref
	d.AskHouseLine("", func(ref plan.Ref) { made = ref })
	h.Item("House line").(*dialogs.Entry).SetText("Line 7")
	h.Item("Length").(*dialogs.Entry).SetText("40 m")
	h.Tap("Make it")
	require.Empty(t, made, "its kind is not known")
	h.Item("Kind").(*dialogs.Chooser).SetSelectedIndex(0)
	h.Tap("Make it")
	require.Equal(t, "house_lines", made.Table)
	line, found := h.Desk().Plan().HouseLines.Get(made.Key)
	require.True(t, found)
	require.Equal(t, "Line 7", line.Name)
}

func TestAReelThatIsGoneIsNotEdited(t *testing.T) {
	h, d := open(t)
	d.EditReel(d.OfPlan(), "none")
	require.Equal(t, "This reel is not in the stock any more.", h.Said)
	require.Zero(t, h.Open())
}

func TestALineOfTheStockOffersEachOfItsReels(t *testing.T) {
	h, d := open(t)
	var laid []text.CableOffer
	var refused error
	d.Lay = func(offer text.CableOffer) { laid = append(laid, offer) }
	d.Refused = func(err error) { refused = err }
	var reels []plan.ReelID
	require.NoError(t, h.Desk().Do("Stock", func(e *plan.Edit) error {
		plan.Put(e, plan.CableKind{ID: "cat6a", Name: "Cat 6A", Media: "balanced-pair", Category: "cat6a"})
		for _, tag := range []string{"A", "B"} {
			reels = append(reels, e.AddReel(plan.Reel{Kind: "cat6a", Length: 50, Tag: tag, Quantity: 1, Condition: plan.Good}))
		}
		return nil
	}))
	items := d.ReelItems(text.StockRow{Reels: reels, Kind: "cat6a", Length: 50, Free: reels[0]})
	var labels []string
	for _, item := range items {
		labels = append(labels, item.Label)
	}
	require.Equal(t, []string{"Lay on the selected link", "Lay this one", "Edit…", "Mark faulty…", "Take out of the stock"}, labels)
	items[1].ChildMenu.Items[1].Action()
	require.Equal(t, []text.CableOffer{{Reel: reels[1], Kind: "cat6a", Length: 50}}, laid)
	items[4].ChildMenu.Items[1].Action()
	require.Equal(t, 1, h.Desk().Plan().Reels.Len())
	require.Contains(t, h.Said, "Took ")
	d.RemoveReel(reels[1])
	require.Error(t, refused, "it is gone already")
	require.True(t, d.ReelItems(text.StockRow{Reels: reels[:1]})[0].Disabled, "none is free")
}
