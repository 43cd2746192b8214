package cabling

import (
	"slices"

	"stageloom/model/budget"
	"stageloom/model/picking"
	"stageloom/model/plan"
)

// Several links may be one electrical line, through passive devices, with one limit. Those of them that are picked for are a
// whole of the problem; what the line loses beside them is taken off its limit first.

// restOf is what a run's line loses beside the runs that are picked for, each step rounded up to thousandths of a dB.
func (s *survey) restOf(r *run, picked func(plan.LinkID) bool) (rest int) {
	before, behind := r.fixed.Around()
	for _, step := range slices.Concat(before, behind) {
		if step.Link == "" || !picked(step.Link) {
			rest += up(step.LossDB)
		}
	}
	return rest
}

// rests takes off each run's limit what its line loses beside the links of the request.
func (s *survey) rests() {
	asked := map[plan.LinkID]bool{}
	for _, r := range s.runs {
		asked[r.link.ID] = true
	}
	for _, r := range s.runs {
		r.rest = s.restOf(r, func(id plan.LinkID) bool { return asked[id] })
	}
}

// wholes puts the lines of which several links, or one with other pieces that are settled, are picked for.
func (z *puzzle) wholes(place map[plan.LinkID]int) {
	seen := map[plan.LinkID]bool{}
	byLink := map[plan.LinkID]*run{}
	for _, r := range z.survey.runs {
		byLink[r.link.ID] = r
	}
	for _, at := range z.runIndex {
		r := z.survey.runs[at]
		if !r.fixed.PartOf() || seen[r.link.ID] {
			continue
		}
		whole := picking.Whole{Limit: r.limit - r.rest, Wanted: r.wanted}
		for _, id := range r.fixed.Whole.Links() {
			seen[id] = true
			piece, asked := byLink[id]
			number, picked := place[id]
			switch {
			case picked:
				whole.Links = append(whole.Links, number)
				whole.Limit -= piece.keptLoss()
			case asked: // settled
				whole.Limit -= up(piece.now.OwnDB)
			}
		}
		whole.Limit = max(1, whole.Limit) // 0 is none
		for _, number := range whole.Links {
			link := &z.problem.Links[number]
			link.Limit, link.Wanted = []int{whole.Limit}, 0
		}
		z.problem.Wholes = append(z.problem.Wholes, whole)
	}
}

// wholeOf is the whole that a link of the problem is a piece of; nil for none.
func (z *puzzle) wholeOf(number int) *picking.Whole {
	for i := range z.problem.Wholes {
		if slices.Contains(z.problem.Wholes[i].Links, number) {
			return &z.problem.Wholes[i]
		}
	}
	return nil
}

// together are the links of the problem that share a limit with one, itself among them.
func (z *puzzle) together(number int) []int {
	if whole := z.wholeOf(number); whole != nil {
		return whole.Links
	}
	return []int{number}
}

func counting(n int) []int {
	numbers := make([]int, n)
	for i := range numbers {
		numbers[i] = i
	}
	return numbers
}

// asOne reckons links that are pieces of one line with all that each of them comes to.
func (s *survey) asOne(outcomes []outcome) {
	var links []plan.Link
	var chains [][]plan.Segment
	var budgets []*budget.Budget
	for i := range outcomes {
		if o := &outcomes[i]; o.run.fixed.PartOf() {
			links, chains = append(links, o.run.link), append(chains, o.laid.segments())
			budgets = append(budgets, &o.laid.budget)
		}
	}
	for i, b := range s.reckoner.CabledTogether(links, chains) {
		*budgets[i] = b
	}
}
