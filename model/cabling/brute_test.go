package cabling_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/budget"
	"stageloom/model/cabling"
	"stageloom/model/checks"
	"stageloom/model/plan"
)

// Every chain of free reels about the kept cables, tried on the plan itself and judged by its budgets and checks, tells what
// can be served at best: a way of its own from plan to answer, with no problem, no tables and no optimiser in between.
func TestNoPickServesMoreThanThePlanItselfTells(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyShow(t, 2)
		request := cabling.Request{Suspect: rapid.Bool().Draw(t, "suspect")}
		proposal := s.pick(t, request)
		unserved := 0
		for _, u := range proposal.Unserved {
			unserved += max(1, u.Priority)
		}
		require.True(t, proposal.Proved)
		require.Equal(t, s.leastUnserved(request), unserved)
	})
}

// leastUnserved tries all chains for the first link, and for each all chains for the second.
func (s *show) leastUnserved(request cabling.Request) int {
	free := map[plan.ReelID]int{}
	for reel := range s.Reels.All() {
		if reel.Condition != plan.Faulty && (reel.Condition != plan.Suspect || request.Suspect) {
			free[reel.ID] = reel.Count()
		}
	}
	var options [][]map[plan.ReelID]int
	weights := []int{}
	for _, id := range s.links {
		for _, kept := range keptOf(s.Plan, s.SegmentsOf(id)) {
			free[kept.Reel]--
		}
	}
	for _, id := range s.links {
		link, _ := s.Link(id)
		weights = append(weights, max(1, link.Priority))
		options = append(options, s.servings(link, free))
	}
	best := 0
	for _, w := range weights {
		best += w
	}
	var try func(i, unserved int)
	try = func(i, unserved int) {
		if i == len(options) {
			best = min(best, unserved)
			return
		}
		try(i+1, unserved+weights[i])
		for _, use := range options[i] {
			if fitsIn(use, free) {
				take(free, use, -1)
				try(i+1, unserved)
				take(free, use, 1)
			}
		}
	}
	try(0, 0)
	return best
}

func fitsIn(use, free map[plan.ReelID]int) bool {
	for id, n := range use {
		if free[id] < n {
			return false
		}
	}
	return true
}

func take(free, use map[plan.ReelID]int, by int) {
	for id, n := range use {
		free[id] += by * n
	}
}

// servings lists the reels of all chains that serve a link.
func (s *show) servings(link plan.Link, free map[plan.ReelID]int) (found []map[plan.ReelID]int) {
	kept := keptOf(s.Plan, s.SegmentsOf(link.ID))
	cables := 4
	if link.MaxJoins > 0 {
		cables = link.MaxJoins + 1
	}
	seen := map[string]bool{}
	var extend func(chain []plan.Segment, next int, use map[plan.ReelID]int)
	extend = func(chain []plan.Segment, next int, use map[plan.ReelID]int) {
		if next == len(kept) && len(chain) > 0 {
			if key := usage(s.Plan, use); !seen[key] && s.serves(link, chain) {
				seen[key] = true
				copied := map[plan.ReelID]int{}
				take(copied, use, 1)
				found = append(found, copied)
			}
		}
		if len(chain) == max(cables, len(kept)) {
			return
		}
		grown := func(segment plan.Segment) []plan.Segment { return append(append([]plan.Segment{}, chain...), segment) }
		if next < len(kept) {
			extend(grown(kept[next]), next+1, use)
		}
		for reel := range s.Reels.All() {
			if use[reel.ID] < free[reel.ID] && len(chain)+len(kept)-next < cables {
				use[reel.ID]++
				extend(grown(plan.Segment{Reel: reel.ID}), next, use)
				use[reel.ID]--
			}
		}
	}
	extend(nil, 0, map[plan.ReelID]int{})
	return found
}

func usage(p *plan.Plan, use map[plan.ReelID]int) string {
	key := ""
	for reel := range p.Reels.All() {
		for range use[reel.ID] {
			key += string(reel.ID)
		}
	}
	return key
}

// serves lays a chain and asks budget and checks. What two reels of the stock cannot be joined is not drawn here.
func (s *show) serves(link plan.Link, chain []plan.Segment) bool {
	next, err := plan.Do(s.Plan, nil, func(e *plan.Edit) error {
		for _, id := range s.links {
			e.SetSegments(id, nil)
		}
		e.SetSegments(link.ID, chain)
		return nil
	})
	if err != nil {
		panic(err)
	}
	b := budget.Of(next, link)
	if b.Missing > 0 || b.Graded && (b.Unknown() || b.MarginDB < 0) {
		return false
	}
	subject := &checks.Subject{Plan: next, Reckoner: budget.NewReckoner(next), Budgets: budget.NewReckoner(next).All()}
	for _, rule := range checks.Rules() {
		for _, name := range faults {
			if rule.ID != name {
				continue
			}
			for _, finding := range rule.Find(subject) {
				if finding.Where[0].Key == link.Key() {
					return false
				}
			}
		}
	}
	return true
}
