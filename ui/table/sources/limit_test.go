package sources_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/words"
	"stageloom/ui/table/sources"
)

// Whoever sees loss, limit and margin side by side adds them up in tenths.
func TestLossAndMarginGiveTheLimitAsPrinted(t *testing.T) {
	s := sources.Links(assess.Of(demo.Weekender()), words.Units{})
	at := map[string]int{}
	for i, column := range s.Columns() {
		at[column.Name] = i
	}
	tenths := func(row int, column string) int {
		words := s.Cell(row, at[column]).Text
		n, err := strconv.Atoi(strings.NewReplacer(" dB", "", "−", "-", "+", "", ".", "").Replace(words))
		require.NoError(t, err, words)
		return n
	}
	graded := 0
	for row := range s.Len() {
		if s.Cell(row, at["margin"]).Text == "" {
			require.Empty(t, s.Cell(row, at["limit"]).Text)
			continue
		}
		graded++
		require.Equal(t, tenths(row, "limit"), tenths(row, "loss")+tenths(row, "margin"), s.RowName(row))
	}
	require.Greater(t, graded, 15)
}
