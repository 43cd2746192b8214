package cabling

import (
	"cmp"
	"fmt"
	"slices"

	"stageloom/model/budget"
	"stageloom/model/checks"
	"stageloom/model/plan"
)

// Candidate is a cable that can replace another: a free reel of the stock, or one that lies in a less important link.
type Candidate struct {
	Reel    plan.Reel
	Suspect bool
	// Link is how the link would stand with it.
	Link budget.Budget
	// From and FromOrder name the link that would lose it, blank and 0 where it is free; FromName is that link's name, and
	// Left how it would stand without.
	From      plan.LinkID
	FromName  string
	FromOrder int
	Left      budget.Budget

	link  plan.LinkID
	order int
	was   plan.Segment
	// priority is that of the link which would lose it.
	priority int
}

// Free tells whether the cable lies free in the stock.
func (c Candidate) Free() bool { return c.From == "" }

// Edit lays the cable in the place of the other, which is free then, and takes it from the link that has it.
func (c Candidate) Edit(e *plan.Edit) error {
	if chain := e.Now().SegmentsOf(c.link); c.order > len(chain) || chain[c.order-1] != c.was {
		return fmt.Errorf("%w: the cable to be replaced is another one by now; ask again", plan.ErrRefused)
	}
	if c.From != "" {
		if chain := e.Now().SegmentsOf(c.From); c.FromOrder > len(chain) || chain[c.FromOrder-1].Reel != c.Reel.ID {
			return fmt.Errorf("%w: %s has another cable by now; ask again", plan.ErrRefused, c.FromName)
		}
		if err := e.RemoveSegment(c.From, c.FromOrder); err != nil {
			return err
		}
	}
	return e.ReplaceSegment(c.link, c.order, plan.Segment{Reel: c.Reel.ID, Kept: c.was.Kept})
}

// Replacements tells what can replace the cable of an order in a link now: cables whose ends fit, that reach as far as the
// link needs and stay inside its limit; free ones first, then those of links of less priority. What leaves the wanted margin
// goes first, then what is free, what is good, the least important link, the least coiled. Equal reels are named once.
// Suspect ones are among them when asked, faulty ones never.
func Replacements(p *plan.Plan, link plan.LinkID, order int, suspect bool) []Candidate {
	row, found := p.Link(link)
	if !found || order < 1 || order > len(p.SegmentsOf(link)) {
		return nil
	}
	s := newSurvey(p, Request{Links: []plan.LinkID{}, Suspect: suspect})
	r := s.newRun(row)
	candidates := r.freeCandidates(order)
	candidates = append(candidates, r.takenCandidates(order)...)
	slices.SortStableFunc(candidates, compareCandidates)
	return candidates
}

func compareCandidates(a, b Candidate) int {
	under := func(c Candidate) int { return btoi(c.Link.Graded && c.Link.MarginDB < c.Link.WantedDB) }
	return cmp.Or(
		cmp.Compare(under(a), under(b)), cmp.Compare(btoi(!a.Free()), btoi(!b.Free())), cmp.Compare(btoi(a.Suspect), btoi(b.Suspect)),
		cmp.Compare(a.priority, b.priority), cmp.Compare(a.Reel.Length, b.Reel.Length), cmp.Compare(b.Link.MarginDB, a.Link.MarginDB),
		checks.Natural(a.FromName, b.FromName), byTag(a.Reel, b.Reel),
	)
}

// freeCandidates are the free lines of stock that fit.
func (r *run) freeCandidates(order int) (found []Candidate) {
	for _, line := range r.survey.lines {
		if len(line.free) == 0 {
			continue
		}
		reel, _ := r.survey.plan.Reels.Get(plan.Key(line.free[0]))
		if c, fits := r.candidate(order, reel); fits {
			found = append(found, c)
		}
	}
	return found
}

// takenCandidates are the reels of links of less priority that fit, each line once a link.
func (r *run) takenCandidates(order int) (found []Candidate) {
	p := r.survey.plan
	for link := range p.Links.All() {
		if link.Priority >= r.link.Priority {
			continue
		}
		named := map[lineKey]bool{}
		for _, segment := range p.SegmentsOf(link.ID) {
			reel, is := p.Reels.Get(plan.Key(segment.Reel))
			bad := reel.Condition == plan.Faulty || reel.Condition == plan.Suspect && !r.survey.request.Suspect
			if !is || bad || segment.Kept || named[keyOf(reel)] {
				continue
			}
			named[keyOf(reel)] = true
			if c, fits := r.candidate(order, reel); fits {
				c.From, c.FromName, c.FromOrder, c.priority = link.ID, link.Name, segment.Order, link.Priority
				rest := slices.Delete(slices.Clone(p.SegmentsOf(link.ID)), segment.Order-1, segment.Order)
				c.Left = r.survey.reckoner.Cabled(link, renumbered(rest))
				found = append(found, c)
			}
		}
	}
	return found
}

// candidate tries a reel in the place of a cable.
func (r *run) candidate(order int, reel plan.Reel) (Candidate, bool) {
	kind := r.survey.kinds[reel.Kind]
	chain := slices.Clone(r.chain)
	was := chain[order-1]
	chain[order-1] = plan.Segment{Link: was.Link, Order: order, Reel: reel.ID, Coupler: was.Coupler, Kept: was.Kept}
	if !r.carries(kind) || !r.fitsAt(chain, order) {
		return Candidate{}, false
	}
	b := r.survey.reckoner.Cabled(r.link, chain)
	if b.Unknown() || b.Graded && b.Grade == budget.Over || b.Missing > 0 && b.Missing > r.now.Missing {
		return Candidate{}, false
	}
	return Candidate{
		Reel: reel, Suspect: reel.Condition == plan.Suspect, Link: b, link: r.link.ID, order: order, was: was,
	}, true
}

// fitsAt tells whether the cable of an order fits what it meets at both ends.
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
