package sources_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/model/words"
)

func TestALaidSpareIsNamedToALinkInItsCell(t *testing.T) {
	p := show(t)
	p, err := plan.Do(p, plan.NewIDSource(6, 6), func(e *plan.Edit) error {
		_, err := e.AddSpare(e.Now().Links.At(0).ID)
		return err
	})
	require.NoError(t, err)
	spare := ""
	for link := range p.Links.All() {
		if link.IsSpare() {
			spare = link.Name
		}
	}
	shown := cell(p, "links", spare, "stands_for")
	require.Empty(t, shown, "any between its ends")
	p, err = set(t, p, "links", spare, "stands_for", "l2", words.Units{})
	require.NoError(t, err)
	require.Equal(t, "L2", cell(p, "links", spare, "stands_for"))
	_, err = set(t, p, "links", spare, "stands_for", "L9", words.Units{})
	require.ErrorContains(t, err, `"L9" is none of L1, L2`)
	_, err = set(t, p, "links", "L1", "stands_for", "L2", words.Units{})
	require.ErrorContains(t, err, "is no laid spare")
	p, err = set(t, p, "links", spare, "stands_for", shown, words.Units{})
	require.NoError(t, err)
	require.Equal(t, shown, cell(p, "links", spare, "stands_for"), "what a cell says can be pasted back")
}
