package assess_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/plan"
)

func TestLinksAreReadWithTheirOwnBudgets(t *testing.T) {
	a := assess.Of(demo.Weekender())
	var read []plan.Link
	for link, b := range a.InOrder() {
		require.Equal(t, link.ID, b.Link)
		read = append(read, *link)
	}
	require.Equal(t, a.Links(), read)
}
