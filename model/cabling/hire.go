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
func (s *survey) hireIn(ctx context.Context, proposal *Proposal) {
	if len(proposal.Unserved) == 0 {
		return
	}
	s.offer(proposal.Unserved)
	z := s.puzzle()
	hired, answer := picking.Hire(ctx, &z.problem)
	_, served := z.picks(answer)
	for i, r := range s.runs {
		if r.settled() {
			_, served[i] = r.lay(nil)
		}
		if !served[i] {
			proposal.Beyond = append(proposal.Beyond, r.link.ID)
		}
	}
	proposal.HireProved = answer.Proved
	type row struct {
		kind   plan.CableKindID
		length float64
	}
	rows := map[row]int{}
	for _, use := range hired {
		rows[row{s.lines[use.Line].kind, s.lines[use.Line].length}] += use.Count
	}
	for r, n := range rows {
		proposal.HireIn = append(proposal.HireIn, Hire{Kind: r.kind, KindName: kindName(s.plan, r.kind), Length: r.length, Count: n})
	}
	slices.SortFunc(proposal.HireIn, func(a, b Hire) int {
		return cmp.Or(cmp.Compare(a.KindName, b.KindName), cmp.Compare(a.Kind, b.Kind), cmp.Compare(b.Length, a.Length))
	})
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
}
