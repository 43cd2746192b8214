package cabling

import (
	"context"
	"fmt"
	"slices"

	"stageloom/model/picking"
	"stageloom/model/plan"
)

// Progress is told while picking goes on: what is worked on, how far it has come, and the least it can come to.
type Progress = picking.Progress

// Pick picks cables for the links of a request and proposes them; the plan stays as it is. progress may be nil. When ctx is
// called off it proposes the best found so far. The same plan and request give the same proposal. An error says that a link
// or a kind of the request is not in the plan.
func Pick(ctx context.Context, p *plan.Plan, request Request, progress Progress) (*Proposal, error) {
	for _, id := range request.Links {
		if _, found := p.Link(id); !found {
			return nil, fmt.Errorf("pick: the plan has no link %s", id)
		}
	}
	for _, id := range slices.Concat(request.Wanted, request.Barred) {
		if !p.CableKinds.Has(plan.Key(id)) {
			return nil, fmt.Errorf("pick: the plan has no kind of cable %s", id)
		}
	}
	ways, all := []tie{{}}, true
	if tied := func(reel plan.Reel) bool { return reel.TiedInto != "" }; slices.ContainsFunc(slices.Collect(p.Reels.All()), tied) {
		ways, all = newSurvey(p, request, tie{}).ties()
	}
	var best *attempt
	for _, way := range ways {
		if next := try(ctx, p, request, way, progress); best == nil || next.better(best) {
			best = next
		}
		if ctx.Err() != nil {
			all = all && len(ways) == 1
			break
		}
	}
	proposal := best.proposal
	proposal.Whole = best.laidWhole(proposal.Links)
	proposal.Unserved = best.explain(best.outcomes)
	proposal.Proved = best.answer.Proved && all
	switch {
	case !all:
		proposal.Tried = "Looms and trunk pieces were laid where they serve the most links: there are too many ways to try all."
	case len(ways) > 1:
		proposal.Tried = fmt.Sprintf("All %d ways of laying the looms and trunk pieces whole were tried.", len(ways))
	}
	best.hireIn(ctx, proposal, best.outcomes)
	return proposal, nil
}

// attempt is a pick with some looms and trunk pieces laid.
type attempt struct {
	*survey
	*question
	answer   *picking.Answer
	outcomes []outcome
	proposal *Proposal
}

func try(ctx context.Context, p *plan.Plan, request Request, way tie, progress Progress) *attempt {
	s := newSurvey(p, request, way)
	z := s.question()
	a := &attempt{survey: s, question: z, answer: picking.Pick(ctx, &z.problem, progress)}
	a.outcomes = s.give(z.picks(a.answer))
	a.proposal = s.propose(a.outcomes)
	for _, o := range z.problem.Objectives() {
		a.proposal.Objectives = append(a.proposal.Objectives, Objective{o.String(), a.answer.Sums[o], a.answer.Bounds[o]})
	}
	return a
}

// aims are what proposals are compared by, in their order: those of the optimiser, over all links.
func (p *Proposal) aims() []float64 {
	unserved, joins, apart, none := 0, 0, 0, 0
	for i := range p.Links {
		if c := &p.Links[i]; c.Served {
			joins += c.Proposed.Joins
		} else {
			link, _ := p.base.Link(c.Link)
			unserved += max(1, link.Priority)
		}
	}
	for _, one := range p.OnSite {
		apart += btoi(one.TakenApart)
	}
	for _, held := range p.Held {
		none += btoi(held.Reel == "")
	}
	aims := []float64{float64(unserved), float64(apart), float64(none), float64(p.Proposed.Under), float64(joins), float64(p.Changes), p.Proposed.Coiled}
	if p.Request.OnTheDay {
		aims[4], aims[5] = aims[5], aims[4]
	}
	return aims
}

// better reports whether an attempt comes to less than another in the first aim in which they differ by more than a millimetre.
func (a *attempt) better(other *attempt) bool {
	mine, its := a.proposal.aims(), other.proposal.aims()
	for i := range mine {
		if d := mine[i] - its[i]; d > 1e-3 || d < -1e-3 {
			return d < 0
		}
	}
	return false
}

// picks turns an answer into the lines of every run, and whether it is served.
func (z *question) picks(answer *picking.Answer) (picks [][]int, served []bool) {
	runs := z.survey.runs
	picks, served = make([][]int, len(runs)), make([]bool, len(runs))
	for i, r := range runs {
		served[i] = r.settled()
	}
	for i, picked := range answer.Picks {
		at := z.runIndex[i]
		picks[at], served[at] = picked, picked != nil
	}
	return picks, served
}

// propose compares what runs come to with how they stand.
func (s *survey) propose(outcomes []outcome) *Proposal {
	s.asOne(outcomes)
	proposal := &Proposal{Request: s.request, base: s.plan}
	for i := range outcomes {
		o := &outcomes[i]
		change := o.change()
		proposal.Links = append(proposal.Links, change)
		proposal.Now.add(&change.Now, change.ServedNow)
		proposal.Proposed.add(&change.Proposed, change.Served)
		proposal.Changes += change.Changes
		proposal.Come += change.Come
		proposal.Go += change.Go
	}
	proposal.OnSite, proposal.Left = s.onSite(proposal.Links), len(s.lies) > 0
	if s.request.HoldBack {
		proposal.Held = s.held(s.leftAfter(outcomes))
	}
	return proposal
}

// leftAfter counts what each reel's row has to give when all runs have what they come to.
func (s *survey) leftAfter(outcomes []outcome) map[plan.ReelID]int {
	left := s.leftOver()
	for i := range outcomes {
		for _, segment := range outcomes[i].laid.segments() {
			if !s.stays(segment) && segment.Reel != "" {
				left[segment.Reel]--
			}
		}
	}
	return left
}

// byLine counts what is left of each line.
func (s *survey) byLine(left map[plan.ReelID]int) []int {
	count := make([]int, len(s.lines))
	for i, l := range s.lines {
		seen := map[plan.ReelID]bool{}
		for _, reel := range l.free {
			if !seen[reel] {
				seen[reel] = true
				count[i] += max(0, left[reel])
			}
		}
	}
	return count
}
