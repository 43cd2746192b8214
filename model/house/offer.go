package house

import "stageloom/model/plan"

// Offer puts rows of the house's stock into a copy of a plan in which somebody only looks at what the plan could take, with
// their kinds and cases; the copy says nothing of takings, so it is never saved. It returns the copy's rows, each with its want.
func (s *Stock) Offer(e *plan.Edit, wants ...Want) map[plan.ReelID]Want {
	offered := map[plan.ReelID]Want{}
	for _, want := range wants {
		row, found := s.Plan.Reels.Get(plan.Key(want.Reel))
		if !found || want.Quantity < 1 {
			continue
		}
		row.Quantity, row.HouseReel = want.Quantity, string(want.Reel)
		offered[copyReel(e, s.Plan, row)] = want
	}
	return offered
}
