package cabling_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/cabling"
)

// What is hired is put into the stock, and all but the links that no hire serves are served.
func TestWhatIsHiredServesAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyShow(t, 4)
		request := cabling.Request{Suspect: rapid.Bool().Draw(t, "suspect")}
		proposal := s.pick(t, request)
		for _, row := range proposal.HireIn {
			s.reel(t, "", row.Kind, row.Length, many(row.Count))
		}
		after := s.pick(t, request)
		require.Equal(t, after.Proposed.Links-len(proposal.Beyond), after.Proposed.Served)
		require.Equal(t, len(proposal.Unserved) == 0, len(proposal.HireIn)+len(proposal.Beyond) == 0)
	})
}

func TestTheSmallestHire(t *testing.T) {
	s := newShow(t, 40, 40, 90)
	s.reel(t, "A", "cat6a", 50)
	proposal := s.pick(t, cabling.Request{})
	require.True(t, proposal.HireProved)
	require.Empty(t, proposal.Beyond)
	require.Equal(t, []cabling.Hire{
		{Kind: "cat6a", KindName: "Cat 6A", Length: 100, Count: 1}, {Kind: "cat6a", KindName: "Cat 6A", Length: 50, Count: 1},
	}, proposal.HireIn)
	require.Equal(t, "1 × 100 m of Cat 6A", proposal.HireIn[0].String())
}
