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
	s := newSurvey(p, request)
	z := s.question()
	answer := picking.Pick(ctx, &z.problem, progress)
	outcomes := s.give(z.picks(answer))
	proposal := s.propose(outcomes)
	proposal.Unserved = z.explain(outcomes)
	proposal.Proved = answer.Proved
	for _, o := range z.problem.Objectives() {
		proposal.Objectives = append(proposal.Objectives, Objective{o.String(), answer.Sums[o], answer.Bounds[o]})
	}
	s.hireIn(ctx, proposal, outcomes)
	return proposal, nil
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
