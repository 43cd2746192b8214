package cabling

import (
	"cmp"
	"fmt"
	"slices"

	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// Candidate is what can replace a cable: a free reel of the stock, one that lies in a less important link, two free ones
// joined, or one free one for several cables.
type Candidate struct {
	Reel plan.Reel
	// Also is the reel that is joined behind the first; its id is blank where one does.
	Also    plan.Reel
	Suspect bool
	// Replaces is how many cables of the link, from the order First on, it takes the place of.
	First, Replaces int
	// Link is how the link would stand with it.
	Link budget.Budget
	// From and FromOrder name the link that would lose it, blank and 0 where it is free; FromName is that link's name, and
	// Left how it would stand without.
	From      plan.LinkID
	FromName  string
	FromOrder int
	Left      budget.Budget

	link plan.LinkID
	was  []plan.Segment
	// lies tells that the link which would lose it lies on site.
	lies bool
	// priority is that of the link which would lose it.
	priority int
}

// Free reports whether the cable lies free in the stock.
func (c Candidate) Free() bool { return c.From == "" }

// Joined reports whether it is two cables joined.
func (c Candidate) Joined() bool { return c.Also.ID != "" }

// Reels are its cables from the near end on.
func (c Candidate) Reels() []plan.Reel {
	if c.Joined() {
		return []plan.Reel{c.Reel, c.Also}
	}
	return []plan.Reel{c.Reel}
}

// Edit lays the cable in the place of the others, which are free then, and takes it from the link that has it.
func (c Candidate) Edit(e *plan.Edit) error {
	chain := slices.Clone(e.Now().SegmentsOf(c.link))
	last := c.First - 1 + c.Replaces
	if last > len(chain) || !slices.Equal(chain[c.First-1:last], c.was) {
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
	e.SetSegments(c.link, slices.Replace(chain, c.First-1, last, c.segments()...))
	return nil
}

// segments are its cables as they lie: the first behind the coupler that was there.
func (c Candidate) segments() []plan.Segment {
	laid := []plan.Segment{{Reel: c.Reel.ID, Coupler: c.was[0].Coupler, Kept: c.was[0].Kept}}
	if c.Joined() {
		laid = append(laid, plan.Segment{Reel: c.Also.ID, Kept: c.was[0].Kept})
	}
	return laid
}

// Replacements tells what can replace the cable of an order in a link now: cables whose ends fit, that reach as far as the
// link needs and stay inside its limit; free ones first, then those of links of less priority; then one cable for it and its
// neighbours, and two joined. What leaves the wanted margin goes first, then what is free, what is good, one for one, what lies
// in no link on site, the least important link, the least coiled. Equal reels are named once.
// Suspect ones are among them when asked, faulty ones never.
func Replacements(p *plan.Plan, link plan.LinkID, order int, suspect bool) []Candidate {
	row, found := p.Link(link)
	if !found || order < 1 || order > len(p.SegmentsOf(link)) {
		return nil
	}
	s := newSurvey(p, Request{Links: []plan.LinkID{}, Suspect: suspect}, tie{})
	r := s.newRun(row)
	candidates := r.freeCandidates(order)
	candidates = append(candidates, r.takenCandidates(order)...)
	candidates = append(candidates, r.forSeveral(order)...)
	candidates = append(candidates, r.joinedCandidates(order)...)
	slices.SortStableFunc(candidates, compareCandidates)
	return candidates
}

func compareCandidates(a, b Candidate) int {
	under := func(c Candidate) int { return btoi(c.Link.Graded && c.Link.MarginDB < c.Link.WantedDB) }
	sort := func(c Candidate) int { return c.Replaces - 1 + 2*btoi(c.Joined()) }
	return cmp.Or(
		cmp.Compare(under(a), under(b)), cmp.Compare(btoi(!a.Free()), btoi(!b.Free())), cmp.Compare(btoi(a.Suspect), btoi(b.Suspect)),
		cmp.Compare(sort(a), sort(b)), cmp.Compare(btoi(a.lies), btoi(b.lies)), cmp.Compare(a.priority, b.priority),
		cmp.Compare(a.Reel.Length+a.Also.Length, b.Reel.Length+b.Also.Length), cmp.Compare(b.Link.MarginDB, a.Link.MarginDB),
		words.Natural(a.FromName, b.FromName), byTag(a.Reel, b.Reel), byTag(a.Also, b.Also),
	)
}

// freeCandidates are the free lines of stock that fit.
func (r *run) freeCandidates(order int) (found []Candidate) {
	for _, line := range r.survey.lines {
		if len(line.free) == 0 {
			continue
		}
		reel, _ := r.survey.plan.Reels.Get(plan.Key(line.free[0]))
		if c, fits := r.candidate(order, 1, reel); fits {
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
			bad := r.survey.unfit(segment) || reel.Condition == plan.Suspect && !r.survey.request.Suspect
			if !is || bad || reel.TiedInto != "" || segment.Kept || named[keyOf(reel)] {
				continue
			}
			named[keyOf(reel)] = true
			if c, fits := r.candidate(order, 1, reel); fits {
				c.lies = link.Lies()
				c.From, c.FromName, c.FromOrder, c.priority = link.ID, link.Name, segment.Order, link.Priority
				rest := slices.Delete(slices.Clone(p.SegmentsOf(link.ID)), segment.Order-1, segment.Order)
				c.Left = r.survey.reckoner.Cabled(link, renumbered(rest))
				found = append(found, c)
			}
		}
	}
	return found
}
