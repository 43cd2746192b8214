package text_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/text"
)

// stockRow is the line of the stock list with a name under the head of a kind.
func stockRow(t *testing.T, p *plan.Plan, query, kind, name string) text.StockRow {
	t.Helper()
	head := ""
	for _, row := range text.StockOf(p, query, words.Units{}) {
		if row.Head != "" {
			head = row.Head
		} else if head == kind && row.Name == name {
			return row
		}
	}
	t.Fatalf("no line %q of %q", name, kind)
	return text.StockRow{}
}

func TestLinesOfTheStockSayWhatIsTheHouses(t *testing.T) {
	p := gone(t)
	require.Equal(t, "0 of 6 left, 4 the house has not", stockRow(t, p, "", "Cat 6", "25 m").Note)
	require.Equal(t, "0 of 1 left, the house has not", stockRow(t, p, "", "Cat 6A", "90 m").Note)
	require.Equal(t, "90 m, the house has not", stockRow(t, p, "6a04", "Cat 6A", "6A04").Note)
	own := stockRow(t, p, "", "Cat 6A", "50 m")
	require.NotContains(t, own.Note, "house", "the show's own says nothing of the house")
	require.NotContains(t, text.StockTip(p, own, words.Units{}), "house")
	tip := text.StockTip(p, stockRow(t, p, "", "Cat 6", "25 m"), words.Units{})
	require.Equal(t, "25 m Cat 6\n0 of 6 left, 4 the house has not\nthe house's: 6 of 6\n6 × 25 m Cat 6 lacking 4: 4 with Barn", tip)
	require.Contains(t, text.StockTip(p, stockRow(t, p, "6a04", "Cat 6A", "6A04"), words.Units{}), "6A04 lacking: 1 with Barn")
	require.Empty(t, text.StockTip(p, text.StockRow{Head: "Cat 6"}, words.Units{}))

	let, err := plan.Do(p, nil, func(e *plan.Edit) error {
		for row := range e.Now().Reels.All() {
			row.Lacking, row.LackingWhy = 0, ""
			switch row.Tag {
			case "6A01":
				row.Taking = "t-44444"
			case "6A06":
				row.Taking = "t-66666"
			case "6A02":
				row.Taking = "t-55555" // it is missing, and the house's all the same
			}
			plan.Put(e, row)
		}
		return nil
	})
	require.NoError(t, err)
	require.Equal(t, "6A06, the house's", stockRow(t, let, "", "Faulty, kept out", "Cat 6A 50 m").Note)
	require.Contains(t, stockRow(t, let, "", "Cat 6", "25 m").Note, "of 6 left, the house's")
	require.Equal(t, "1 of 3 left, 1 suspect, 1 not there, 2 the house's", stockRow(t, let, "", "Cat 6A", "50 m").Note)
	require.Equal(t, "50 m, is missing since 2027-06-22, the house's", stockRow(t, let, "6a02", "Cat 6A", "6A02").Note)
}
