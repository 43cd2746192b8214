package supply_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/cabling"
	"stageloom/model/demo"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/supply"
)

func TestOfEqualCablesTheShowsOwnComeFirst(t *testing.T) {
	s := newShow(t, 45, 45)
	s.own(t, plan.Reel{Tag: "S1", Kind: "cat6a", Length: 50})
	s.house(t, plan.Reel{Tag: "A1", Kind: "cat6a", Length: 50})
	s.house(t, plan.Reel{Tag: "A2", Kind: "cat6a", Length: 50})
	picked := s.take(t, supply.Both, cabling.Request{})
	require.Equal(t, []string{"1 × 50 m of Cat 6A: A1"}, picked.Words())
	used := s.plan.UsedReels()
	for reel := range s.plan.Reels.All() {
		require.Equal(t, 1, used[reel.ID], reel.Tag)
	}
}

func TestAPieceHeldBackIsTakenToo(t *testing.T) {
	s := newShow(t, 45)
	s.do(t, func(e *plan.Edit) error {
		for device := range e.Now().Devices.All() {
			device.Position = e.AddPosition(plan.Position{Name: device.Name})
			plan.Put(e, device)
		}
		return nil
	})
	s.house(t, plan.Reel{Kind: "cat6a", Length: 50, Quantity: 5})
	picked := s.take(t, supply.Both, cabling.Request{HoldBack: true})
	require.Len(t, picked.Proposal.Held, 2)
	require.Equal(t, []string{"3 × 50 m of Cat 6A"}, picked.Words(), "one is laid, one held back at each end")
	again := s.pick(t, supply.Both, cabling.Request{HoldBack: true})
	require.Empty(t, again.Takings)
}

func TestTheShelfIsNamedBeforeAHire(t *testing.T) {
	s := newShow(t, 45, 55)
	s.house(t, plan.Reel{Kind: "cat6a", Length: 50, Quantity: 5})
	picked := s.pick(t, supply.Show, cabling.Request{})
	require.Empty(t, picked.Takings, "the house is not picked from")
	advice := picked.Proposal.Advice()
	require.Equal(t, "To take from the house, so that all are served", advice[0].Head)
	require.Equal(t, []string{"3 × 50 m of Cat 6A"}, advice[0].Rows)
	require.Len(t, advice, 1, "nothing is hired")
}

func TestWhatThePickRestedOnMustStand(t *testing.T) {
	s := newShow(t, 45)
	row := s.house(t, plan.Reel{Tag: "A1", Kind: "cat6a", Length: 50})
	picked := s.pick(t, supply.Both, cabling.Request{})
	s.out(row, 1)
	_, err := plan.Do(s.plan, s.ids, picked.Edit(s.stock))
	require.ErrorIs(t, err, plan.ErrRefused)
	require.ErrorContains(t, err, "A1", "the house has lent it meanwhile")
	s.stock.Takings = nil
	s.own(t, plan.Reel{Kind: "cat6a", Length: 50})
	_, err = plan.Do(s.plan, s.ids, picked.Edit(s.stock))
	require.ErrorIs(t, err, plan.ErrRefused)
	require.ErrorContains(t, err, "pick again")
}

func TestKindsThatNoLinkCouldHaveAreNotLookedAt(t *testing.T) {
	s := newShow(t, 45)
	s.house(t, plan.Reel{Kind: "cat6a", Length: 50, Quantity: 5000})
	s.house(t, plan.Reel{Kind: "fibre-multimode", Length: 50})
	gathered, err := supply.Gather(s.plan, s.stock, supply.Both, nil)
	require.NoError(t, err)
	require.Equal(t, 1, gathered.Plan.Reels.Len())
	for reel := range gathered.Plan.Reels.All() {
		require.Equal(t, plan.CableKindID("cat6a"), reel.Kind)
		require.Less(t, reel.Count(), 10, "no more of equal ones than a link could have")
	}
	_, err = gathered.Pick(context.Background(), cabling.Request{Barred: []plan.CableKindID{"not-here"}}, nil)
	require.NoError(t, err, "to bar what no stock holds says nothing")
	picked, err := gathered.Pick(context.Background(), cabling.Request{Wanted: []plan.CableKindID{"not-here"}}, nil)
	require.NoError(t, err)
	require.Zero(t, picked.Proposal.Proposed.Served, "to want what no stock holds alone leaves nothing")
}

// BenchmarkPickWithAHouse compares a pick over 400 rows of a house with one over the same cables in the plan itself.
func BenchmarkPickWithAHouse(b *testing.B) {
	p, ids := demo.Weekender(), plan.NewIDSource(5, 6)
	bare, err := plan.Do(p, ids, func(e *plan.Edit) error {
		for link := range e.Now().Links.All() {
			e.SetSegments(link.ID, nil)
		}
		for reel := range e.Now().Reels.All() {
			plan.Drop[plan.Reel](e, reel.Key())
		}
		return nil
	})
	require.NoError(b, err)
	rows := func(into *plan.Plan) *plan.Plan {
		next, err := plan.Do(into, ids, func(e *plan.Edit) error {
			var all []plan.Reel
			for reel := range p.Reels.All() {
				all = append(all, reel)
			}
			for i := range 400 {
				reel := all[i%len(all)]
				reel.Quantity, reel.Tag, reel.Case, reel.Condition = 1, "", "", ""
				e.AddReel(reel)
			}
			return nil
		})
		require.NoError(b, err)
		return next
	}
	stock := house.Stock{Plan: plan.New("House stock")}
	stock.Plan, err = plan.Do(stock.Plan, ids, func(e *plan.Edit) error {
		for kind := range p.CableKinds.All() {
			plan.Put(e, kind)
		}
		return nil
	})
	require.NoError(b, err)
	stock.Plan = rows(stock.Plan)
	own := rows(bare)
	for b.Loop() {
		begun := b.Elapsed()
		_, err := cabling.Pick(context.Background(), own, cabling.Request{}, nil)
		require.NoError(b, err)
		alone := b.Elapsed() - begun
		_, err = supply.Pick(context.Background(), bare, stock, supply.Both, cabling.Request{}, nil)
		require.NoError(b, err)
		b.ReportMetric(float64(b.Elapsed()-begun-alone)/float64(alone), "times-the-plan's-own")
	}
}
