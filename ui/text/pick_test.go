package text_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/budget"
	"stageloom/model/cabling"
	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/text"
)

func picks(t *testing.T, p *plan.Plan, request cabling.Request) text.Picks {
	t.Helper()
	proposal, err := cabling.Pick(context.Background(), p, request, nil)
	require.NoError(t, err)
	return text.PicksOf(p, proposal, words.Units{})
}

func TestPicksAreComparedInWords(t *testing.T) {
	p := demo.Weekender()
	k := picks(t, p, cabling.Request{})
	require.True(t, k.Changed)
	require.Regexp(t, `^\d+ links? would change: \d+ cables? comes?(, \d+ goe?s?)?\.$`, k.Head)
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

// What lies and would be taken apart is named one by one, at the head, and beside every word of proof.
func TestAPickNamesWhatItTakesApart(t *testing.T) {
	p := demo.Weekender()
	proposal, err := cabling.Pick(context.Background(), p, cabling.Request{}, nil)
	require.NoError(t, err)
	proposal.OnSite = []cabling.OnSite{{Name: "L36", Done: plan.Tested, TakenApart: true}, {Name: "L40", Done: plan.Laid, TakenApart: true}}
	k := text.PicksOf(p, proposal, words.Units{})
	require.True(t, k.TakesApart)
	require.Len(t, k.OnSite, 2)
	require.Contains(t, k.OnSite[0], "takes apart L36, tested")
	require.Contains(t, k.Head, "Takes apart L36 (tested) and L40 (laid).")
	require.Contains(t, k.Proof, "Proved, with L36 (tested) and L40 (laid) taken apart:")
	proposal.Proved = false
	require.Contains(t, text.PicksOf(p, proposal, words.Units{}).Proof, "with L36 (tested) and L40 (laid) taken apart")
	proposal.OnSite, proposal.Proved, proposal.Left = nil, true, true
	require.Contains(t, text.PicksOf(p, proposal, words.Units{}).Proof, "that leave what lies on site")
}
