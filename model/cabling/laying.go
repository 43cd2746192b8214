package cabling

import (
	"cmp"
	"slices"

	"stageloom/model/budget"
	"stageloom/model/plan"
)

// piece is a cable that is to be laid: its segment, its kind, and its line of stock where it was picked, else −1. A picked
// one stands for any of its line until it is tagged.
type piece struct {
	segment plan.Segment
	kind    plan.CableKind
	length  float64
	line    int
	tagged  bool
}

// laying is an order of cables from the near end on, with what it loses and how well it lies.
type laying struct {
	chain   []piece
	budget  budget.Budget
	loss    int // thousandths of a dB, each part rounded up
	under   bool
	blocked int // joins inside a road, water or a crowd
	aloft   int // joins that nobody reaches
	lengths []int
}

// lay finds the order in which loose cables lie among the kept ones of a run: one in which all ends fit, inside the limit,
// with the wanted margin where any order leaves it; then the fewest joins inside a road, water or a crowd, the fewest out of
// reach, and the longest cables first from the drum end. False where no order fits or all are over.
func (r *run) lay(lines []int) (best laying, found bool) {
	if !r.sound {
		return best, false
	}
	r.orders(nil, r.survey.pieces(r.kept), r.piecesOf(lines), func(chain []piece) {
		if l, stands := r.reckoned(chain); stands && (!found || l.compare(&best) < 0) {
			best, found = l, true
		}
	})
	return best, found
}

// piecesOf are cables of these lines, not tagged yet.
func (r *run) piecesOf(lines []int) []piece {
	pieces := make([]piece, len(lines))
	for i, at := range lines {
		l := &r.survey.lines[at]
		pieces[i] = piece{segment: l.sample, kind: r.survey.kinds[l.kind], length: l.length, line: at}
	}
	return pieces
}

// orders visits every chain in which the ends fit. Kept cables stay in their order; equal loose ones are one.
func (r *run) orders(chain, kept, loose []piece, visit func([]piece)) {
	if len(kept)+len(loose) == 0 {
		if len(chain) > 0 && r.ends(chain[len(chain)-1].kind) {
			visit(chain)
		}
		return
	}
	if len(kept) > 0 && r.goesOn(chain, kept[0]) {
		r.orders(append(slices.Clone(chain), kept[0]), kept[1:], loose, visit)
	}
	for i, next := range loose {
		same := func(p piece) bool { return p.line == next.line && p.line >= 0 }
		if slices.ContainsFunc(loose[:i], same) || !r.goesOn(chain, next) {
			continue
		}
		rest := slices.Delete(slices.Clone(loose), i, i+1)
		r.orders(append(slices.Clone(chain), next), kept, rest, visit)
	}
}

func (r *run) goesOn(chain []piece, next piece) bool {
	if len(chain) == 0 {
		return r.begins(next.kind)
	}
	return follows(chain[len(chain)-1].kind, next.kind, r.turned)
}

// reckoned is a chain with its budget; false where it is over, of unknown loss, or too short, or nobody gave the metres.
func (r *run) reckoned(chain []piece) (laying, bool) {
	l := laying{chain: chain, lengths: make([]int, len(chain))}
	for i, p := range chain {
		l.lengths[i] = millimetres(p.length)
	}
	l.budget = r.survey.reckoner.Cabled(r.link, l.segments())
	l.loss = rounded(&l.budget)
	if r.wanting() || l.budget.Missing > 0 || l.budget.Unknown() || l.budget.Graded && l.loss > r.limit {
		return l, false
	}
	l.under = l.budget.Graded && l.loss > r.limit-r.wanted
	l.blocked, l.aloft = r.survey.groundOf().joins(r, l.lengths)
	if !r.turned { // the drum end is the far one: the longest cable lies there
		slices.Reverse(l.lengths)
	}
	return l, true
}

func (l *laying) compare(other *laying) int {
	return cmp.Or(
		cmp.Compare(btoi(l.under), btoi(other.under)), cmp.Compare(l.blocked, other.blocked), cmp.Compare(l.aloft, other.aloft),
		slices.Compare(other.lengths, l.lengths), cmp.Compare(l.loss, other.loss),
	)
}

// segments is the chain as rows of the plan.
func (l *laying) segments() []plan.Segment {
	rows := make([]plan.Segment, len(l.chain))
	for i, p := range l.chain {
		rows[i] = p.segment
	}
	return renumbered(rows)
}

// pieces is a chain of the plan, none of it picked.
func (s *survey) pieces(chain []plan.Segment) []piece {
	all := make([]piece, len(chain))
	for i, segment := range chain {
		all[i] = piece{segment: segment, kind: s.kindOf(segment), length: s.lengthOf(segment), line: -1}
	}
	return all
}
