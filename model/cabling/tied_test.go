package cabling_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/budget"
	"stageloom/model/cabling"
	"stageloom/model/plan"
)

func tied(into string) func(*plan.Reel) { return func(r *plan.Reel) { r.TiedInto = into } }

// between puts both ends of some links at two positions.
func (s *show) between(t require.TestingT, links ...int) {
	s.do(t, func(e *plan.Edit) error {
		near, far := e.AddPosition(plan.Position{Name: "Stage"}), e.AddPosition(plan.Position{Name: "FOH"})
		for _, i := range links {
			for id, at := range map[plan.DeviceID]plan.PositionID{s.boxes[i]: near, s.desks[i]: far} {
				device, _ := e.Now().Device(id)
				device.Position = at
				plan.Put(e, device)
			}
		}
		return nil
	})
}

func TestATrunkPieceIsLaidWhole(t *testing.T) {
	s := newShow(t, 40, 45, 48, 20)
	s.between(t, 0, 1, 2)
	for i := range 3 {
		s.reel(t, fmt.Sprint("T", i+1), "cat6a", 50, tied("Trunk 2"))
	}
	s.reel(t, "A", "cat6a", 25)
	proposal := s.take(t, cabling.Request{})
	require.Equal(t, 4, proposal.Proposed.Served)
	require.Len(t, proposal.Whole, 1)
	require.Equal(t, "Trunk 2, whole: L01, L02, L03", proposal.Whole[0].String())
	require.Equal(t, "All 3 ways of laying the looms and trunk pieces whole were tried.", proposal.Tried)
	require.Equal(t, "A", s.words()[3])
	again := s.pick(t, cabling.Request{})
	require.Zero(t, again.Changes, "picked again, it stays")
	require.Equal(t, 4, again.Proposed.Served)
}

func TestACableOfATrunkPieceIsNeverPickedSingly(t *testing.T) {
	s := newShow(t, 40, 45)
	s.lay(t, 0, plan.Segment{Reel: s.reel(t, "T1", "cat6a", 50, tied("Trunk 2")), Kept: true})
	s.reel(t, "T2", "cat6a", 50, tied("Trunk 2"))
	proposal := s.pick(t, cabling.Request{})
	require.Len(t, proposal.Unserved, 1, "one of its cables is kept elsewhere, so it is not to be had whole")
	require.Empty(t, proposal.Whole)
	for _, c := range cabling.Replacements(s.Plan, s.links[1], 1, false) {
		require.Empty(t, c.Reel.TiedInto)
	}
}

func TestMainAndBackupAreNotInOneTrunkPiece(t *testing.T) {
	s := newShow(t, 40, 40)
	s.between(t, 0, 1)
	s.do(t, func(e *plan.Edit) error { return e.Pair(s.links[0], s.links[1]) })
	for range 2 {
		s.reel(t, "", "cat6a", 50, tied("Trunk 2"))
	}
	require.Equal(t, 1, s.pick(t, cabling.Request{}).Proposed.Served)
}

func TestTooManyWaysOfLayingTrunkPieces(t *testing.T) {
	ways := make([]float64, 14)
	for i := range ways {
		ways[i] = 30 + float64(i)
	}
	s := newShow(t, ways...)
	all := make([]int, len(ways))
	for i := range all {
		all[i] = i
	}
	s.between(t, all...)
	s.reel(t, "", "cat6a", 50, tied("Loom 1"), many(6))
	s.reel(t, "", "cat6a", 50, tied("Loom 2"), many(7))
	proposal := s.take(t, cabling.Request{})
	require.Equal(t, 13, proposal.Proposed.Served)
	require.Len(t, proposal.Whole, 2)
	require.False(t, proposal.Proved)
	require.Contains(t, proposal.Tried, "too many ways to try all")
}

// Every way of giving links cables of looms and trunk pieces is laid by hand, and the rest picked beside: none comes to less.
func TestTheBestWayOfLayingTrunkPieces(t *testing.T) {
	laid := 0
	rapid.Check(t, func(t *rapid.T) {
		s := newShow(t, rapid.SliceOfN(rapid.Float64Range(20, 80), 2, 3).Draw(t, "ways")...)
		s.between(t, 0, 1)
		length := rapid.SampledFrom([]float64{25, 50, 90})
		var trunks []plan.ReelID
		for i := range rapid.IntRange(1, 4).Draw(t, "cables of trunks") {
			trunks = append(trunks, s.reel(t, fmt.Sprint("T", i), "cat6a", length.Draw(t, "length"), tied(fmt.Sprint("Trunk ", i%2))))
		}
		for i := range rapid.IntRange(0, 3).Draw(t, "cables") {
			s.reel(t, fmt.Sprint("A", i), rapid.SampledFrom([]plan.CableKindID{"cat6a", "cat5e"}).Draw(t, "kind"), length.Draw(t, "length"))
		}
		proposal := s.pick(t, cabling.Request{MaxJoins: 1})
		require.True(t, proposal.Proved)
		got, best := worth(proposal), []float64(nil)
		s.everyTie(t, trunks, nil, func(way []plan.ReelID) {
			if w := s.worthOf(t, way); best == nil || less(w, best) {
				best = w
			}
		})
		require.InDeltaSlice(t, best, got, 1e-3)
		laid += len(proposal.Whole)
	})
	require.Greater(t, laid, 10)
}

func worth(p *cabling.Proposal) []float64 {
	w := []float64{float64(p.Proposed.Links - p.Proposed.Served), float64(p.Proposed.Under), 0, float64(p.Changes), p.Proposed.Coiled}
	for _, change := range p.Links {
		if change.Served {
			w[2] += float64(change.Proposed.Joins)
		}
	}
	return w
}

func less(a, b []float64) bool {
	for i := range a {
		if a[i] < b[i]-1e-3 || a[i] > b[i]+1e-3 {
			return a[i] < b[i]
		}
	}
	return false
}

// everyTie tries for each link every cable of a trunk that serves it alone, or none, where each trunk that is used lies between
// two positions and serves as many as any way of laying it does there.
func (s *show) everyTie(t require.TestingT, trunks, way []plan.ReelID, visit func([]plan.ReelID)) {
	if len(way) == len(s.links) {
		if s.whole(t, trunks, way) {
			visit(way)
		}
		return
	}
	s.everyTie(t, trunks, append(append([]plan.ReelID{}, way...), ""), visit)
	for _, id := range trunks {
		used := false
		for _, other := range way {
			used = used || other == id
		}
		if !used && s.aloneFits(t, len(way), id) {
			s.everyTie(t, trunks, append(append([]plan.ReelID{}, way...), id), visit)
		}
	}
}

func (s *show) aloneFits(t require.TestingT, i int, id plan.ReelID) bool {
	link, _ := s.Link(s.links[i])
	reel, _ := s.Reels.Get(plan.Key(id))
	b := cabledAlone(s, link, id)
	return reel.Length+0.049 >= b.Run && b.Missing == 0 && b.MarginDB >= b.WantedDB-0.0015
}

// whole tells that the first two links, which lie between two positions, and the third are not served by one trunk, and that no
// cable of a trunk in use could serve one more of its links.
func (s *show) whole(t require.TestingT, trunks, way []plan.ReelID) bool {
	name := func(id plan.ReelID) string {
		reel, _ := s.Reels.Get(plan.Key(id))
		return reel.TiedInto
	}
	for _, trunk := range []string{"Trunk 0", "Trunk 1"} {
		var mine []plan.ReelID
		for _, id := range trunks {
			if name(id) == trunk {
				mine = append(mine, id)
			}
		}
		pair, alone := 0, 0
		for i, id := range way {
			if name(id) != trunk {
				continue
			}
			if i < 2 {
				pair++
			} else {
				alone++
			}
		}
		if pair > 0 && alone > 0 {
			return false
		}
		both := false
		for _, a := range mine {
			for _, b := range mine {
				both = both || a != b && s.aloneFits(t, 0, a) && s.aloneFits(t, 1, b)
			}
		}
		if pair == 1 && both {
			return false
		}
	}
	return true
}

// worthOf lays cables of trunks by hand and picks for the other links from what is in no trunk.
func (s *show) worthOf(t require.TestingT, way []plan.ReelID) []float64 {
	by := &show{Plan: s.Plan, ids: s.ids, boxes: s.boxes, desks: s.desks, links: s.links}
	rest := []plan.LinkID{}
	tiedTo := 0.0
	coiled := 0.0
	by.do(t, func(e *plan.Edit) error {
		for i, id := range way {
			if id == "" {
				rest = append(rest, s.links[i])
				continue
			}
			link, _ := s.Link(s.links[i])
			b := cabledAlone(s, link, id)
			tiedTo++
			coiled += b.Laid - b.Run
			e.SetSegments(s.links[i], []plan.Segment{{Reel: id, Kept: true}})
		}
		used := e.Now().UsedReels()
		for reel := range s.Reels.All() {
			if reel.TiedInto != "" && used[reel.ID] == 0 {
				plan.Drop[plan.Reel](e, reel.Key())
			}
		}
		return nil
	})
	w := worth(by.pick(t, cabling.Request{Links: rest, MaxJoins: 1}))
	w[3] += tiedTo
	w[4] += coiled
	return w
}

func cabledAlone(s *show, link plan.Link, id plan.ReelID) budget.Budget {
	return budget.NewReckoner(s.Plan).Cabled(link, []plan.Segment{{Reel: id, Order: 1}})
}
