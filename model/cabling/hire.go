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

// hireIn finds the fewest cables, and of those the fewest metres, that with the stock and what the house offers serve every link
// of the proposal that any can: more of what the stock holds, or of the kinds that unserved links want.
func (s *survey) hireIn(ctx context.Context, proposal *Proposal, outcomes []outcome) {
	if len(proposal.Unserved) == 0 {
		return
	}
	left := s.leftAfter(outcomes)
	s.offer(proposal.Unserved)
	z := s.question()
	best := z.hireForAll(ctx)
	// What was measured better than its kind serves as it lies, which the hire over all links does not count on.
	if !best.proved || slices.ContainsFunc(s.lines, func(l line) bool { return l.measured.Set }) {
		if each := z.hireForEach(ctx, s.byLine(left), outcomes); !best.better(each) {
			best = each
		}
	}
	for i, served := range best.served {
		if !served && !s.runs[i].wanting() {
			proposal.Beyond = append(proposal.Beyond, s.runs[i].link.ID)
		}
	}
	proposal.HireProved = best.proved
	shorter := best.shorter()
	for at, n := range best.count {
		l := &s.lines[at]
		row := Hire{Kind: l.kind, KindName: kindName(s.plan, l.kind), Length: l.length}
		if row.Count = min(n, l.shelf); row.Count > 0 {
			proposal.FromShelf = append(proposal.FromShelf, row)
		}
		if row.Count = n - row.Count; row.Count > 0 {
			row.WouldDo = shorter[at]
			proposal.HireIn = append(proposal.HireIn, row)
		}
	}
	proposal.FromShelf, proposal.HireIn = summed(proposal.FromShelf), summed(proposal.HireIn)
}

// hiring is what to have of each line beyond the stock, that of the shelf first, whom that serves, and with which lines.
type hiring struct {
	survey *survey
	count  []int
	picks  [][]int // of runs that may have hired ones
	served []bool
	proved bool
}

func (s *survey) newHiring() hiring {
	return hiring{survey: s, count: make([]int, len(s.lines)), picks: make([][]int, len(s.runs)), served: make([]bool, len(s.runs))}
}

// hired is how many of a line are hired.
func (h hiring) hired(at int) int { return max(0, h.count[at]-h.survey.lines[at].shelf) }

// sums are the cables hired, their millimetres, and the cables from the shelf.
func (h hiring) sums() (hired, length, shelf int) {
	for at, n := range h.count {
		hired += h.hired(at)
		length += h.hired(at) * millimetres(h.survey.lines[at].length)
		shelf += n - h.hired(at)
	}
	return hired, length, shelf
}

// better reports whether a hiring serves more, or as much with fewer cables, fewer metres of them or less of the shelf, or is
// proved where the other is not.
func (h hiring) better(other hiring) bool {
	hired, length, shelf := h.sums()
	itsHired, itsLength, itsShelf := other.sums()
	return cmp.Or(
		cmp.Compare(number(h.served, true), number(other.served, true)), cmp.Compare(itsHired, hired), cmp.Compare(itsLength, length),
		cmp.Compare(itsShelf, shelf), cmp.Compare(btoi(h.proved), btoi(other.proved)),
	) > 0
}

func number[V comparable](list []V, value V) (n int) {
	for _, v := range list {
		if v == value {
			n++
		}
	}
	return n
}

// hireNodes is how many nodes the search for the smallest hire of a plan with one link may take; with more links each costs
// more, and there are fewer by their square.
const hireNodes = 16000000

// hireForAll looks for the fewest cables, and the fewest metres of those, over all links at once.
func (z *question) hireForAll(ctx context.Context) hiring {
	problem, links := z.problem, max(1, len(z.problem.Links))
	problem.Nodes = max(1, min(picking.DefaultNodes, hireNodes/(links*links)))
	hired, answer := picking.Hire(ctx, &problem)
	h := z.survey.newHiring()
	h.proved = true
	for _, o := range []picking.Objective{picking.Unserved, picking.Hired, picking.HiredLength} {
		h.proved = h.proved && answer.Bounds[o] == answer.Sums[o]
	}
	for _, use := range hired {
		h.count[use.Line] += use.Count
	}
	h.picks, h.served = z.picks(answer)
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
	h := z.survey.newHiring()
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
			run := z.runIndex[together[at]]
			h.served[run], h.picks[run] = true, picks
			for _, line := range picks {
				alone.Lines[line].Count--
			}
		}
		for _, use := range hired {
			h.count[use.Line] += use.Count
			alone.Lines[use.Line].Count += use.Count
			alone.Lines[use.Line].Shelf = max(0, alone.Lines[use.Line].Shelf-use.Count)
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
