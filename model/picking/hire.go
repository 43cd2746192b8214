package picking

import (
	"context"
	"slices"
)

// plenty is the problem with as many reels of every line as any link could take.
func (p *Problem) plenty() *Problem {
	q := *p
	q.Lines = slices.Clone(p.Lines)
	for i := range q.Lines {
		q.Lines[i].Count += MaxReels
	}
	return &q
}

// Hire finds the fewest reels to hire beyond the stock and the shelf with which as much as possible is served, by line; among
// equals the least length, then the fewest from the shelf, then those that leave fewest links under the wanted margin. A use
// counts what is had of the shelf and what is hired: the shelf's come first. Lines with a count of nought are those that can
// only be hired. The answer's picks use all alike. What stays unserved no number of these reels serves.
func Hire(ctx context.Context, p *Problem) ([]Use, *Answer) {
	bare := *p
	bare.Spares, bare.Order = nil, NewPlan
	bare.Lines = slices.Clone(p.Lines)
	for i := range bare.Lines {
		bare.Lines[i].Case = 0
	}
	m := newMaster(&bare, true)
	order := []Objective{Unserved, Hired, HiredLength, FromShelf, UnderMargin}
	choice, a := m.stages(ctx, order, m.greedy(order), nil)
	for link := range p.Links {
		a.Picks = append(a.Picks, nil)
		if c := &m.columns[choice[link]]; !c.empty {
			a.Picks[link] = append([]int{}, c.lines...)
		}
	}
	var hired []Use
	for group := len(p.Links); group < len(m.groups); group++ {
		if c := &m.columns[choice[group]]; !c.empty {
			hired = append(hired, Use{c.lines[0], len(c.lines)})
		}
	}
	return hired, a
}
