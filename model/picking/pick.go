package picking

import (
	"context"
	"slices"
)

// Pick chooses reels for every link. The same problem has the same answer on every machine. When the context is called off
// it returns the best picks so far with their bounds; progress may be nil.
func Pick(ctx context.Context, p *Problem, progress Progress) *Answer {
	m := newMaster(p, false)
	order := p.Objectives()
	choice, a := m.stages(ctx, order, m.greedy(order), progress)
	for link := range p.Links {
		a.Picks = append(a.Picks, nil)
		if c := &m.columns[choice[link]]; !c.empty {
			a.Picks[link] = append([]int{}, c.lines...)
		}
	}
	return a
}

// stages makes the objectives small one after the other.
func (m *master) stages(ctx context.Context, order []Objective, choice []int, progress Progress) ([]int, *Answer) {
	nodes := m.problem.Nodes
	if nodes == 0 {
		nodes = DefaultNodes
	}
	called := func() bool { return ctx.Err() != nil }
	a := &Answer{Patterns: m.patterns, Proved: m.whole}
	var proved []Objective
	for _, objective := range order {
		tell := func(sum, bound int) {
			if progress != nil {
				progress(objective, sum, bound)
			}
		}
		f, bound := m.improve(objective, proved, choice, nodes, called, tell)
		choice = f.best
		a.Searched += f.nodes
		a.Bounds[objective] = bound
		a.Proved = a.Proved && bound == f.sum
		proved = append(proved, objective)
	}
	a.Sums = m.sums(choice)
	a.Stopped = ctx.Err() != nil || slices.ContainsFunc(order, func(o Objective) bool { return a.Bounds[o] < a.Sums[o] })
	return choice, a
}
