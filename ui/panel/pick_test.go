package panel_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/budget"
	"stageloom/model/cabling"
	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/ui/panel"
)

func picks(t *testing.T, p *plan.Plan, request cabling.Request) panel.Picks {
	t.Helper()
	proposal, err := cabling.Pick(context.Background(), p, request, nil)
	require.NoError(t, err)
	return panel.PicksOf(p, proposal, panel.Units{})
}

func TestPicksAreComparedInWords(t *testing.T) {
	p := demo.Weekender()
	k := picks(t, p, cabling.Request{})
	require.True(t, k.Changed)
	require.Regexp(t, `^\d+ links? would change, \d+ cables? taken or given up\.$`, k.Head)
	require.Equal(t, "Links served", k.Sums[0][0])
	require.Contains(t, k.Proof, "Proved")
	for _, link := range k.Links {
		require.True(t, link.Now != link.Proposed || link.Remark != "", "%s: what changes is said", link.Name)
		require.NotEqual(t, budget.Over, link.Grade, "nothing is picked that is over")
	}
	require.Equal(t, p.Links.Len(), len(k.Links)+k.Same)
}

func TestPicksOfNothing(t *testing.T) {
	k := picks(t, plan.New("Empty"), cabling.Request{})
	require.False(t, k.Changed)
	require.Equal(t, "There is no link to pick cables for.", k.Head)
}

func TestWhatWasPickedIsNotPickedAgain(t *testing.T) {
	p := demo.Weekender()
	proposal, err := cabling.Pick(context.Background(), p, cabling.Request{}, nil)
	require.NoError(t, err)
	laid, err := plan.Do(p, nil, proposal.Edit)
	require.NoError(t, err)
	k := picks(t, laid, cabling.Request{OnTheDay: true})
	require.False(t, k.Changed, "%+v", k.Links)
	require.Contains(t, k.Head, "Nothing to change")
}
