package cabling

import (
	"cmp"
	"context"
	"slices"

	"stageloom/model/picking"
	"stageloom/model/plan"
)

// hireLengths are the lengths that kinds are offered in for hire, beside those of the stock, in metres. Common practice, no
// source.
var hireLengths = []float64{10, 25, 50, 100}

// hireIn finds the fewest cables that, with the stock, serve every link of the proposal that any can: more of what the stock
// holds, or of the kinds that unserved links want.
func (s *survey) hireIn(ctx context.Context, proposal *Proposal, outcomes []outcome) {
	if len(proposal.Unserved) == 0 {
		return
	}
	left := s.leftAfter(outcomes)
	s.offer(proposal.Unserved)
	z := s.question()
	best := z.hireForEach(ctx, s.byLine(left), outcomes)
	if all := z.hireForAll(ctx); all.better(best) {
		best = all
	}
	for i, served := range best.served {
		if !served && !s.runs[i].wanting() {
			proposal.Beyond = append(proposal.Beyond, s.runs[i].link.ID)
		}
	}
	proposal.HireProved = best.proved
	for at, n := range best.count {
		if n > 0 {
			l := &s.lines[at]
			proposal.HireIn = append(proposal.HireIn, Hire{Kind: l.kind, KindName: kindName(s.plan, l.kind), Length: l.length, Count: n})
		}
	}
	proposal.HireIn = summed(proposal.HireIn)
}

// hiring is what to hire of each line, and whom that serves.
type hiring struct {
	count  []int
	served []bool
	proved bool
}

// better reports whether a hiring serves more, or as much with fewer cables, or is proved where the other is not.
func (h hiring) better(other hiring) bool {
	return cmp.Or(
		cmp.Compare(number(h.served, true), number(other.served, true)), cmp.Compare(sum(other.count), sum(h.count)),
		cmp.Compare(btoi(h.proved), btoi(other.proved)),
	) > 0
}

func number(list []bool, value bool) (n int) {
	for _, v := range list {
		if v == value {
			n++
		}
	}
	return n
}

func sum(list []int) (total int) {
	for _, v := range list {
		total += v
	}
	return total
}

// hireNodes is how many nodes the search for the smallest hire of a plan with one link may take; with more links each costs
// more, and there are fewer by their square.
const hireNodes = 16000000

// hireForAll looks for the fewest cables over all links at once.
func (z *question) hireForAll(ctx context.Context) hiring {
	problem, links := z.problem, max(1, len(z.problem.Links))
	problem.Nodes = max(1, min(picking.DefaultNodes, hireNodes/(links*links)))
	hired, answer := picking.Hire(ctx, &problem)
	h := hiring{
		count:  make([]int, len(z.problem.Lines)),
		proved: answer.Bounds[picking.Unserved] == answer.Sums[picking.Unserved] && answer.Bounds[picking.Hired] == answer.Sums[picking.Hired],
	}
	for _, use := range hired {
		h.count[use.Line] += use.Count
	}
	_, h.served = z.picks(answer)
	for i, r := range z.survey.runs {
		if r.settled() {
			_, h.served[i] = r.lay(nil)
		}
	}
	return h
}

// hireForEach lets what is served lie as it is and hires for one unserved link after the other, the most important first.
// No plan is too large for it, but others may do with fewer.
func (z *question) hireForEach(ctx context.Context, left []int, outcomes []outcome) hiring {
	h := hiring{count: make([]int, len(z.problem.Lines)), served: make([]bool, len(outcomes))}
	for i := range outcomes {
		h.served[i] = outcomes[i].served
	}
	alone := picking.Problem{Lines: slices.Clone(z.problem.Lines), Joints: z.problem.Joints}
	for at := range alone.Lines {
		alone.Lines[at].Count = left[at]
	}
	for _, i := range z.byPriority() {
		if h.served[z.runIndex[i]] {
			continue
		}
		together := z.together(i)
		alone.Links, alone.Wholes = nil, nil
		for _, at := range together {
			alone.Links = append(alone.Links, z.problem.Links[at])
		}
		if whole := z.wholeOf(i); whole != nil {
			alone.Wholes = []picking.Whole{{Links: counting(len(together)), Limit: whole.Limit, Wanted: whole.Wanted}}
		}
		hired, answer := picking.Hire(ctx, &alone)
		if slices.ContainsFunc(answer.Picks, func(picks []int) bool { return picks == nil }) {
			continue
		}
		for at, picks := range answer.Picks {
			h.served[z.runIndex[together[at]]] = true
			for _, line := range picks {
				alone.Lines[line].Count--
			}
		}
		for _, use := range hired {
			h.count[use.Line] += use.Count
			alone.Lines[use.Line].Count += use.Count
		}
	}
	return h
}

// byPriority is the order of the links, the most important first.
func (z *question) byPriority() []int {
	order := counting(len(z.problem.Links))
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(z.problem.Links[b].Priority, z.problem.Links[a].Priority) })
	return order
}

// summed makes one row of cables that are alike but for what was measured on others.
func summed(rows []Hire) (all []Hire) {
	slices.SortFunc(rows, func(a, b Hire) int {
		return cmp.Or(cmp.Compare(a.KindName, b.KindName), cmp.Compare(a.Kind, b.Kind), cmp.Compare(b.Length, a.Length))
	})
	for _, row := range rows {
		if last := len(all) - 1; last >= 0 && all[last].Kind == row.Kind && all[last].Length == row.Length {
			all[last].Count += row.Count
			continue
		}
		all = append(all, row)
	}
	return all
}

// offer adds lines of which there is none yet, in the lengths they are hired in: the kinds that unserved links want, and for
// those that want none, each kind of the stock that they may have.
func (s *survey) offer(unserved []Unserved) {
	kinds := map[plan.CableKindID]bool{}
	for _, r := range s.runs {
		if !slices.ContainsFunc(unserved, func(u Unserved) bool { return u.Link == r.link.ID }) {
			continue
		}
		if kind, known := s.kinds[r.link.FillKind]; known {
			kinds[kind.ID] = kinds[kind.ID] || !s.barred(kind.ID)
			continue
		}
		for _, l := range s.lines {
			kinds[l.kind] = kinds[l.kind] || r.allows(s.kinds[l.kind])
		}
	}
	for kind, offered := range kinds {
		for _, length := range hireLengths {
			key := lineKey{kind: kind, length: length}
			if _, there := s.lineOf[key]; !there && offered {
				s.lineOf[key] = len(s.lines)
				s.lines = append(s.lines, line{lineKey: key, sample: plan.Segment{Kind: kind, Length: length}})
			}
		}
	}
	s.sortLines()
	clear(s.losses)
	s.hiring = true
}
