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
	s.bare()
	for _, r := range s.runs {
		r.rest = s.restOf(r, func(id plan.LinkID) bool { return asked[id] })
	}
}

// bare reckons the lines of which several links are picked for with their kept cables alone: a connection of a passive device
// is as poor as the plug in it, which is not settled before a cable is picked.
func (s *survey) bare() {
	for _, r := range s.runs {
		if !r.fixed.PartOf() {
			continue
		}
		for _, b := range s.reckoner.CabledTogether(s.line(r, nil)) {
			if b.Link == r.link.ID {
				r.fixed.Whole = b.Whole
			}
		}
	}
}

// line are the links of the request that are pieces of a run's line, each with its kept cables, the run's own with others.
func (s *survey) line(r *run, others []plan.Segment) (links []plan.Link, chains [][]plan.Segment) {
	for _, piece := range s.runs {
		if !slices.Contains(r.fixed.Whole.Links(), piece.link.ID) {
			continue
		}
		chain := renumbered(piece.kept)
		if piece == r && others != nil {
			chain = others
		}
		links, chains = append(links, piece.link), append(chains, chain)
	}
	return links, chains
}

// meeting is what the connection of the passive device at an end of a run loses more for the plug of a kind, in thousandths
// of a dB; 0 at a port of a device, which counts nothing, and behind a panel, whose lead is what meets it.
func (r *run) meeting(kind plan.CableKindID, near bool) int {
	if !r.fixed.PartOf() || near && r.link.FromPanel != "" || !near && r.link.ToPanel != "" {
		return 0
	}
	ends, known := r.dearer[kind]
	if !known {
		for _, b := range r.survey.reckoner.CabledTogether(r.survey.line(r, renumbered([]plan.Segment{{Kind: kind, Length: 1}}))) {
			if b.Link == r.link.ID {
				ends = [2]int{dearerBeside(b, r.fixed, true), dearerBeside(b, r.fixed, false)}
			}
		}
		if r.dearer == nil {
			r.dearer = map[plan.CableKindID][2]int{}
		}
		r.dearer[kind] = ends
	}
	if near {
		return ends[0]
	}
	return ends[1]
}

// dearerBeside is how much more the step beside an end of a link loses in one budget than in another.
func dearerBeside(with, without budget.Budget, near bool) int {
	beside := func(b budget.Budget) float64 {
		before, behind := b.Around()
		switch {
		case near && len(before) > 0:
			return before[len(before)-1].LossDB
		case !near && len(behind) > 0:
			return behind[0].LossDB
		}
		return 0
	}
	return max(0, up(beside(with))-up(beside(without)))
}

// wholes puts the lines of which several links, or one with other pieces that are settled, are picked for.
func (z *question) wholes(place map[plan.LinkID]int) {
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
func (z *question) wholeOf(number int) *picking.Whole {
	for i := range z.problem.Wholes {
		if slices.Contains(z.problem.Wholes[i].Links, number) {
			return &z.problem.Wholes[i]
		}
	}
	return nil
}

// together are the links of the problem that share a limit with one, itself among them.
func (z *question) together(number int) []int {
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
