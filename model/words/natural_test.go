package words_test

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/words"
)

func TestManyNamesAreSortedAsTwoAreCompared(t *testing.T) {
	type row struct {
		name string
		at   int
	}
	odd := rapid.SampledFrom([]string{"", "L2", "L02", "l2", "L10", "\xff", "\xc3", "É", "é", "İ", "K", "/", ":", "0", "00", strings.Repeat("9", 300), strings.Repeat("9", 254) + "a"})
	text := rapid.OneOf(rapid.StringMatching(`[aAbB0129 é]{0,6}`), odd, rapid.String())
	rapid.Check(t, func(t *rapid.T) {
		var rows []row
		for i, name := range rapid.SliceOfN(rapid.Custom(func(t *rapid.T) string { return odd.Draw(t, "a") + text.Draw(t, "b") }), 0, 12).Draw(t, "names") {
			rows = append(rows, row{name, i})
		}
		want := slices.Clone(rows)
		slices.SortStableFunc(want, func(a, b row) int { return words.Natural(a.name, b.name) })
		words.SortNatural(rows, func(r *row) string { return r.name }, func(_, _ *row) int { return 0 })
		require.Equal(t, want, rows)
	})
}

func TestNaturalOrder(t *testing.T) {
	want := []string{"", "2", "10", "a", "FOH", "foh 2", "L01", "L1", "L1a", "L2", "L10", "L10 b", "é1", "é12", "Ö"}
	names := slices.Clone(want)
	rand.New(rand.NewPCG(1, 1)).Shuffle(len(names), func(i, j int) { names[i], names[j] = names[j], names[i] })
	slices.SortFunc(names, words.Natural)
	require.Equal(t, want, names)
}

func TestNaturalOrderIsAnOrder(t *testing.T) {
	text := rapid.StringMatching(`[aAbB0129 é]{0,6}`)
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := text.Draw(t, "a"), text.Draw(t, "b"), text.Draw(t, "c")
		require.Equal(t, words.Natural(a, b), -words.Natural(b, a))
		require.Equal(t, a == b, words.Natural(a, b) == 0)
		if words.Natural(a, b) <= 0 && words.Natural(b, c) <= 0 {
			require.LessOrEqual(t, words.Natural(a, c), 0)
		}
	})
}
