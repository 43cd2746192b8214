package picking

import (
	"cmp"
	"slices"
)

// Candidate is a reel that can take the place of another on a link.
type Candidate struct {
	Line int
	// From is the link that would give it up, -1 where one is left in the stock.
	From int
	// Margin is the least margin over all frequencies with a limit; without a limit it says nothing.
	Margin int
	// Under tells that it is less than wanted.
	Under bool
	// Excess is the length beyond need.
	Excess int
}

// Replacements lists what can take the place of one reel of a link's pick, in its place, so that the link still stands:
// what is left in the stock, and what less important links hold. The best come first: from the stock, then from the least
// important link; with the wanted margin; with the least length to spare.
func Replacements(p *Problem, picks [][]int, link, place int) []Candidate {
	left := make([]int, len(p.Lines))
	for i, line := range p.Lines {
		left[i] = line.Count
	}
	for _, lines := range picks {
		for _, line := range lines {
			left[line]--
		}
	}
	e := newEnumerator(p, link)
	var list []Candidate
	for i, u := range e.usable {
		c, stands := e.replaced(picks[link], place, i)
		if !stands {
			continue
		}
		c.Line, c.From = u.Line, -1
		if left[u.Line] > 0 {
			list = append(list, c)
			continue
		}
		for other, lines := range picks {
			if other != link && p.Links[other].Priority < p.Links[link].Priority && slices.Contains(lines, u.Line) {
				c.From = other
				list = append(list, c)
			}
		}
	}
	importance := func(c Candidate) int {
		if c.From < 0 {
			return -1
		}
		return p.Links[c.From].Priority
	}
	slices.SortStableFunc(list, func(a, b Candidate) int {
		return cmp.Or(cmp.Compare(importance(a), importance(b)), cmp.Compare(number(a.Under), number(b.Under)),
			cmp.Compare(a.Excess, b.Excess), cmp.Compare(b.Margin, a.Margin))
	})
	return list
}

func number(b bool) int {
	if b {
		return 1
	}
	return 0
}

// replaced reckons a pick with another reel in one place.
func (e *enumerator) replaced(lines []int, place, by int) (c Candidate, stands bool) {
	places := make([]int, len(lines))
	length := 0
	for i, line := range lines {
		at := by
		if i != place {
			at = slices.IndexFunc(e.usable, func(u Usable) bool { return u.Line == line })
		}
		if at < 0 {
			return c, false
		}
		places[i], length = at, length+e.lengths[at]
	}
	loss, fits := e.chain(places)
	if !fits || !e.within(loss) || length < e.link.Need {
		return c, false
	}
	known := false
	for f, limit := range e.link.Limit {
		if margin := limit - loss[f]; limit > 0 && (!known || margin < c.Margin) {
			c.Margin, known = margin, true
		}
	}
	c.Under, c.Excess = e.under(loss), length-e.link.Need
	return c, true
}
