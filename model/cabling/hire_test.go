package cabling_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/cabling"
	"stageloom/model/plan"
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

// The lengths that would do serve as many, all of them together.
func TestWhatMayBeShorterServesAll(t *testing.T) {
	shorter := 0
	rapid.Check(t, func(t *rapid.T) {
		s := anyShow(t, 4)
		proposal := s.pick(t, cabling.Request{})
		for _, row := range proposal.HireIn {
			require.Len(t, row.WouldDo, row.Count)
			for _, length := range row.WouldDo {
				require.LessOrEqual(t, length, row.Length)
				s.reel(t, "", row.Kind, length)
				if length < row.Length {
					shorter++
				}
			}
		}
		after := s.pick(t, cabling.Request{})
		require.Equal(t, after.Proposed.Links-len(proposal.Beyond), after.Proposed.Served)
	})
	require.NotZero(t, shorter)
}

func TestOfEquallyManyTheLeastMetresAreHired(t *testing.T) {
	s := newShow(t, 42.5, 52.2)
	s.lay(t, 0, plan.Segment{Reel: s.reel(t, "A", "cat6a", 80), Kept: true})
	s.lay(t, 1)
	s.reel(t, "B", "cat6a", 60, condition(plan.Faulty))
	s.reel(t, "C", "cat6a", 20)
	proposal := s.pick(t, cabling.Request{})
	require.Len(t, proposal.HireIn, 1)
	require.Equal(t, "1 × 50 m of Cat 6A; 33 m would do", proposal.HireIn[0].String(), "beside the 20 m of the stock")
	require.Equal(t, []cabling.Advice{{Head: "To hire in, so that all are served", Rows: []string{"1 × 50 m of Cat 6A; 33 m would do"}}}, proposal.Advice())
}

// Whom a hire serves is said once, for window and command: all, or all but the links beyond any hire.
func TestAdviceNamesWhomNoHireServes(t *testing.T) {
	s := newShow(t, 40, 600)
	proposal := s.pick(t, cabling.Request{})
	require.Empty(t, proposal.HireIn, "no kind is there and none is wanted")
	require.Equal(t, []cabling.Advice{{Head: "No hire of the kinds that the stock holds or links want serves L01 and L02"}}, proposal.Advice())
	s.reel(t, "A", "cat6a", 30)
	proposal = s.pick(t, cabling.Request{})
	require.Equal(t, []cabling.Advice{{Head: "To hire in, so that all but L02 are served", Rows: []string{"1 × 10 m of Cat 6A"}}}, proposal.Advice())
}

// What the house offers is named before anything is hired, and never picked where that was not asked for.
func TestTheShelfComesBeforeAHire(t *testing.T) {
	s := newShow(t, 40, 45, 90)
	offered := map[plan.ReelID]bool{s.reel(t, "H1", "cat6a", 50): true, s.reel(t, "H2", "cat6a", 50): true}
	request := cabling.Request{Offered: offered, ForHire: true}
	proposal := s.pick(t, request)
	require.Zero(t, proposal.Proposed.Served)
	require.Equal(t, []cabling.Advice{
		{Head: "To take from the house first", Rows: []string{"2 × 50 m of Cat 6A"}},
		{Head: "To hire in, so that all are served", Rows: []string{"1 × 100 m of Cat 6A; 90 m would do"}},
	}, proposal.Advice())
	request.ForHire = false
	require.Equal(t, 2, s.pick(t, request).Proposed.Served)
	request.OfTheHouse = true
	own := s.reel(t, "A", "cat6a", 45)
	for _, change := range s.pick(t, request).Links {
		for _, segment := range change.After {
			require.NotEqual(t, own, segment.Reel, "the show's own are not the house's")
		}
	}
	request.OfTheHouse = false
	words := map[string]bool{}
	s.reel(t, "Z1", "cat6a", 50)
	s.reel(t, "Z2", "cat6a", 50)
	s.take(t, request)
	for _, word := range s.words() {
		words[word] = true
	}
	require.False(t, words["H1"], "of equal ones the show's own are taken, whatever their tags: %v", words)
}

func TestTheSmallestHire(t *testing.T) {
	s := newShow(t, 40, 40, 90)
	s.reel(t, "A", "cat6a", 50)
	proposal := s.pick(t, cabling.Request{})
	require.True(t, proposal.HireProved)
	require.Empty(t, proposal.Beyond)
	require.Equal(t, []cabling.Hire{
		{Kind: "cat6a", KindName: "Cat 6A", Length: 100, Count: 1, WouldDo: []float64{90}}, {Kind: "cat6a", KindName: "Cat 6A", Length: 50, Count: 1, WouldDo: []float64{40}},
	}, proposal.HireIn)
	require.Equal(t, "1 × 100 m of Cat 6A; 90 m would do", proposal.HireIn[0].String())
}
