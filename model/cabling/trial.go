package cabling

import (
	"cmp"
	"slices"

	"stageloom/model/budget"
	"stageloom/model/plan"
)

// candidate tries reels, one behind the other, in the place of so many cables from an order on.
func (r *run) candidate(first, replaces int, reels ...plan.Reel) (Candidate, bool) {
	c := Candidate{Reel: reels[0], First: first, Replaces: replaces, link: r.link.ID, was: slices.Clone(r.chain[first-1 : first-1+replaces])}
	if len(reels) > 1 {
		c.Also = reels[1]
	}
	for _, reel := range reels {
		if !r.carries(r.survey.kinds[reel.Kind]) {
			return c, false
		}
		c.Suspect = c.Suspect || reel.Condition == plan.Suspect
	}
	chain := renumbered(slices.Replace(slices.Clone(r.chain), first-1, first-1+replaces, c.segments()...))
	for order := first; order < first+len(reels); order++ {
		if !r.fitsAt(chain, order) {
			return c, false
		}
	}
	for i := range chain {
		chain[i].Link = r.link.ID
	}
	c.Link = r.survey.reckoner.Cabled(r.link, chain)
	b := &c.Link
	return c, !b.Unknown() && (!b.Graded || b.Grade != budget.Over) && (b.Missing == 0 || b.Missing <= r.now.Missing)
}

// forSeveral are free reels for the cable of an order and neighbours of it, none of which is kept or the venue's; only those
// that serve without any of the others' metres.
func (r *run) forSeveral(order int) (found []Candidate) {
	loose := func(i int) bool { return i == order || !r.chain[i-1].Kept && r.chain[i-1].HouseLine == "" }
	for first := order; first >= 1 && loose(first); first-- {
		for last := order; last <= len(r.chain) && loose(last); last++ {
			if first == last {
				continue
			}
			for _, line := range r.survey.lines {
				if len(line.free) == 0 {
					continue
				}
				reel, _ := r.survey.plan.Reels.Get(plan.Key(line.free[0]))
				if c, fits := r.candidate(first, last-first+1, reel); fits && c.Link.Missing == 0 {
					found = append(found, c)
				}
			}
		}
	}
	return found
}

// mostJoined is how many pairs are offered, the least coiled.
const mostJoined = 8

// joinedCandidates are two free reels joined in the place of one cable, neither of which would do alone, where the link may
// have a join more.
func (r *run) joinedCandidates(order int) (found []Candidate) {
	if joins := cmp.Or(r.link.MaxJoins, DefaultJoins); len(r.chain) > joins || len(r.chain) >= plan.MaxSegments {
		return nil
	}
	lines := r.survey.lines
	alone := make([]bool, len(lines))
	for i := range lines {
		alone[i] = len(lines[i].free) == 0 || r.aloneServes(order, lines[i].free[0])
	}
	for i := range lines {
		for j := range lines {
			twice := i == j && len(lines[i].free) < 2
			if alone[i] || alone[j] || twice {
				continue
			}
			near, _ := r.survey.plan.Reels.Get(plan.Key(lines[i].free[0]))
			far, _ := r.survey.plan.Reels.Get(plan.Key(lines[j].free[len(lines[j].free)-1]))
			if c, fits := r.candidate(order, 1, near, far); fits && c.Link.Missing == 0 {
				found = append(found, c)
			}
		}
	}
	slices.SortStableFunc(found, compareCandidates)
	return found[:min(mostJoined, len(found))]
}

// aloneServes reports whether one reel in the place of a cable makes the link reach.
func (r *run) aloneServes(order int, id plan.ReelID) bool {
	reel, _ := r.survey.plan.Reels.Get(plan.Key(id))
	c, fits := r.candidate(order, 1, reel)
	return fits && c.Link.Missing == 0
}

// fitsAt reports whether the cable of an order fits what it meets at both ends.
func (r *run) fitsAt(chain []plan.Segment, order int) bool {
	kind := r.survey.kindOf(chain[order-1])
	switch {
	case order == 1 && !r.begins(kind), order == len(chain) && !r.ends(kind):
		return false
	case order > 1 && !follows(r.survey.kindOf(chain[order-2]), kind, r.turned):
		return false
	}
	return order == len(chain) || follows(kind, r.survey.kindOf(chain[order]), r.turned)
}
