package checks_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/checks"
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
		slices.SortStableFunc(want, func(a, b row) int { return checks.Natural(a.name, b.name) })
		checks.SortNatural(rows, func(r *row) string { return r.name }, func(_, _ *row) int { return 0 })
		require.Equal(t, want, rows)
	})
}
