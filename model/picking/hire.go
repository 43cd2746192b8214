package picking

import (
	"cmp"
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
	choice, a := m.stages(ctx, order, m.greedyHire(order), nil)
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

// greedyHire is a first choice where reels may be hired: links one by one, those of the highest priority and the greatest need
// first, each by the pattern that wants least beyond what is left of stock and shelf.
func (m *master) greedyHire(order []Objective) []int {
	r := newRoom(m, nil, [objectives]int{})
	choice := make([]int, len(m.groups))
	for group := len(m.problem.Links); group < len(m.groups); group++ {
		choice[group] = m.groups[group][0]
		if last := m.groups[group][len(m.groups[group])-1]; m.hires(last) {
			choice[group] = last // as many as there may be, until it is known how many it takes
		}
		r.take(choice[group], 1)
	}
	used := make([]int, len(m.problem.Lines))
	for _, group := range m.byWeight() {
		best, least := -1, [3]int{}
		for _, i := range m.groups[group] {
			if !r.fits(i) {
				continue
			}
			more := m.beyond(used, m.columns[i].lines)
			if best < 0 {
				best, least = i, more
				continue
			}
			than := cmp.Or(cmp.Compare(m.columns[i].cost[Unserved], m.columns[best].cost[Unserved]), slices.Compare(more[:], least[:]))
			if than < 0 || than == 0 && m.better(i, best, order) {
				best, least = i, more
			}
		}
		choice[group] = best
		r.take(best, 1)
		for _, line := range m.columns[best].lines {
			used[line]++
		}
	}
	m.hireAsUsed(choice, used)
	return choice
}

// hireAsUsed has of each line no more beyond the stock than is used.
func (m *master) hireAsUsed(choice, used []int) {
	for group := len(m.problem.Links); group < len(m.groups); group++ {
		if c := &m.columns[choice[group]]; m.hires(choice[group]) {
			line := c.lines[0]
			choice[group] = m.groups[group][min(len(c.lines), max(0, used[line]-m.problem.Lines[line].Count))]
		}
	}
}

// hires tells a column of reels had beyond the stock.
func (m *master) hires(column int) bool {
	c := &m.columns[column]
	return c.cost[Hired]+c.cost[FromShelf] > 0
}

// beyond is what some reels want beyond stock and shelf, its length, and what they want of the shelf, when others are used.
func (m *master) beyond(used, lines []int) (more [3]int) {
	for i, line := range lines {
		l, n := &m.problem.Lines[line], used[line]
		for _, other := range lines[:i] {
			if other == line {
				n++
			}
		}
		switch {
		case n >= l.Count+l.Shelf:
			more[0]++
			more[1] += l.Length
		case n >= l.Count:
			more[2]++
		}
	}
	return more
}

// byWeight is the order in which links are given reels at first: those of the highest priority and the greatest need first.
func (m *master) byWeight() []int {
	links := make([]int, len(m.problem.Links))
	for i := range links {
		links[i] = i
	}
	slices.SortStableFunc(links, func(a, b int) int {
		p, q := &m.problem.Links[a], &m.problem.Links[b]
		return cmp.Or(cmp.Compare(q.Priority, p.Priority), cmp.Compare(q.Need, p.Need))
	})
	return links
}
