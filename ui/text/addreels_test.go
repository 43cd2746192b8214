package text_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/exchange"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/words"
	"stageloom/ui/text"
)

func TestReelsAreAddedAsPeopleWriteThem(t *testing.T) {
	for _, c := range []struct {
		name string
		form text.AddReels
		told string
	}{
		{"a quantity", text.AddReels{Lines: "12 x 50 m", Kind: "cat6a"}, "12 cables of 50 m, 600 m in all"},
		{"several sorts, one with its own kind", text.AddReels{Lines: "12 x 50 m\n\n3 x 20 m Cat 6", Kind: "cat6a"}, "15 cables in 2 rows, 660 m in all"},
		{"one tag each", text.AddReels{Lines: "50 m", Kind: "cat6a", Tags: "A01-A12"}, "12 cables of 50 m, 600 m in all"},
	} {
		t.Run(c.name, func(t *testing.T) {
			list, reason := c.form.Read(plan.New("x"), words.Units{})
			require.Empty(t, reason)
			require.Equal(t, c.told, text.ListTold(list, words.Units{}))
		})
	}
	t.Run("a bare length in feet where feet are shown", func(t *testing.T) {
		list, reason := text.AddReels{Lines: "2 x 100", Kind: "cat6a"}.Read(plan.New("x"), words.Units{Length: quantity.Imperial})
		require.Empty(t, reason)
		require.InDelta(t, 30.48, list.Rows[0].Reels[0].Length, 1e-9)
	})
	p := marked(t)
	for _, c := range []struct {
		name, says string
		form       text.AddReels
	}{
		{"nothing is written", "Write what there is", text.AddReels{Kind: "cat6a"}},
		{"no kind", "No kind of cable is written.", text.AddReels{Lines: "12 x 50 m"}},
		{"a kind nobody knows", `"Black drum" is no kind of cable`, text.AddReels{Lines: "12 x 50 m Black drum", Kind: "cat6a"}},
		{"tags for several lines", "Tags go with one line", text.AddReels{Lines: "50 m\n20 m", Kind: "cat6a", Tags: "X1"}},
		{"a tag that is there", "Tag 6A01 is in the stock already.", text.AddReels{Lines: "50 m", Kind: "cat6a", Tags: "6A01"}},
		{"more tags than cables", "names 3, but the quantity is 4", text.AddReels{Lines: "4 x 50 m", Kind: "cat6a", Tags: "X1-X3"}},
		{"a day of no calendar", "is no day", text.AddReels{Lines: "50 m", Kind: "cat6a", Return: "2031-02-31"}},
	} {
		t.Run(c.name+" is refused", func(t *testing.T) {
			_, reason := c.form.Read(p, words.Units{})
			require.Contains(t, reason, c.says)
		})
	}
}

func TestAListIsToldWithItsFaultsAndGaps(t *testing.T) {
	faults := make([]exchange.Fault, 5)
	for i := range faults {
		faults[i] = exchange.Fault{Row: i + 2, Column: "B", Head: "Length", Words: "no length is written"}
	}
	require.Equal(t, "Row 2, column B \"Length\": no length is written.\nRow 3, column B \"Length\": no length is written.\n… and 3 more.", text.FaultsTold(faults, 2))
	require.Empty(t, text.FaultsTold(nil, 2))
	require.Equal(t, "1 row has faults", text.RowsWithFaults(1))
	require.Equal(t, "5 rows have faults", text.RowsWithFaults(5))
	grid := exchange.Grid{Rows: [][]string{{"Ch", "Name"}, {"1", "Kick"}, {"4", "Hat"}}}
	list := exchange.ReadInputs(grid, exchange.Guess(grid, exchange.InputFields()), 0)
	require.Equal(t, "2 inputs; no input has number 2 to 3", text.InputsTold(list, plan.New("x"), ""))
	require.Contains(t, text.InputsTold(list, demo.Weekender(), ""), "of which 2 are in the plan already")
	act := demo.Weekender().Acts.At(0)
	require.Contains(t, text.InputsTold(list, demo.Weekender(), act.ID), " for "+act.Name+": 0 as in the house, 2 of this act alone; 2 of the house are not used in it; 46 of the house stay, of which the list says nothing")
	list.Strike = true
	require.Contains(t, text.InputsTold(list, demo.Weekender(), act.ID), "48 of the house are not used in it")
	require.Empty(t, text.PatchingTold(exchange.Patching{}))
	require.Equal(t, "; 6 sockets and 1 channel patched as the list says; what 2 rows say of sockets or channels is left out",
		text.PatchingTold(exchange.Patching{Sockets: 6, Channels: 1, Left: []exchange.Fault{{Row: 2}, {Row: 2}, {Row: 4}}}))
	require.Equal(t, "; what 1 row says of a socket or channel is left out", text.PatchingTold(exchange.Patching{Left: []exchange.Fault{{Row: 2}}}))
	require.Equal(t, "Read as Mac Roman. That is a guess.", text.ReadTold("Mac Roman", []string{"that is a guess"}))
	require.Equal(t, []string{"B  Name", "Kick", "Hat"}, text.PreviewColumn(grid, exchange.Layout{Head: 1}, 1, 5))
	require.Equal(t, []string{"C", "", "", ""}, text.PreviewColumn(grid, exchange.Layout{}, 2, 5))
}
