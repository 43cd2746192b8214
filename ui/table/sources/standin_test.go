package sources_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/ui/panel"
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
	shown := cell(p, "links", spare, "stands for")
	require.Equal(t, "any between its ends: L1, L2", shown)
	p, err = set(t, p, "links", spare, "stands for", "l2", panel.Units{})
	require.NoError(t, err)
	require.Equal(t, "L2", cell(p, "links", spare, "stands for"))
	_, err = set(t, p, "links", spare, "stands for", "L9", panel.Units{})
	require.ErrorContains(t, err, `there is no link "L9"`)
	_, err = set(t, p, "links", "L1", "stands for", "L2", panel.Units{})
	require.ErrorContains(t, err, "is no laid spare")
	p, err = set(t, p, "links", spare, "stands for", shown, panel.Units{})
	require.NoError(t, err)
	require.Equal(t, shown, cell(p, "links", spare, "stands for"), "what a cell says can be pasted back")
}
