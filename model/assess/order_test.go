package assess_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/plan"
)

func TestNaturalOrder(t *testing.T) {
	want := []string{"", "2", "10", "a", "FOH", "foh 2", "L01", "L1", "L1a", "L2", "L10", "L10 b", "é1", "é12", "Ö"}
	names := slices.Clone(want)
	rand.New(rand.NewPCG(1, 1)).Shuffle(len(names), func(i, j int) { names[i], names[j] = names[j], names[i] })
	slices.SortFunc(names, assess.Natural)
	require.Equal(t, want, names)
}

func TestNaturalOrderIsAnOrder(t *testing.T) {
	text := rapid.StringMatching(`[aAbB0129 é]{0,6}`)
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := text.Draw(t, "a"), text.Draw(t, "b"), text.Draw(t, "c")
		require.Equal(t, assess.Natural(a, b), -assess.Natural(b, a))
		require.Equal(t, a == b, assess.Natural(a, b) == 0)
		if assess.Natural(a, b) <= 0 && assess.Natural(b, c) <= 0 {
			require.LessOrEqual(t, assess.Natural(a, c), 0)
		}
	})
}

func TestLinksAreReadWithTheirOwnBudgets(t *testing.T) {
	a := assess.Of(demo.Weekender())
	var read []plan.Link
	for link, b := range a.InOrder() {
		require.Equal(t, link.ID, b.Link)
		read = append(read, *link)
	}
	require.Equal(t, a.Links(), read)
}
