package cabling

import (
	"slices"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/plan"
)

// Shorter says by how many whole metres each hired reel that links lay may be shorter than it is stated, all of them together:
// what a link has too much is shared by the hired reels on it, and cables that are tied into one piece give the same. It is
// tried on the plan itself, with reels that nobody has measured: no link may miss metres or stand worse than it does; where one
// would, none of its hired reels may be shorter.
func Shorter(p *plan.Plan) map[plan.ReelID]int {
	s := shortening{plan: p, before: budget.NewReckoner(p).All()}
	may := s.shares()
	for {
		s.evenTied(may)
		worse := s.worse(may)
		if len(worse) == 0 {
			return may
		}
		for _, id := range worse {
			may[id] = 0
		}
	}
}

// shortening tries a plan with shorter hired reels.
type shortening struct {
	plan   *plan.Plan
	before []budget.Budget // by link, as the table has them
}

// forgiven is what rounding takes off a metre.
const forgiven = 1e-6

// shares are what the metres of the links leave over for each hired reel; a reel keeps a metre of its own.
func (s shortening) shares() map[plan.ReelID]int {
	may := map[plan.ReelID]int{}
	for i := range s.before {
		b := &s.before[i]
		reels := s.hired(b.Link)
		for _, id := range reels {
			reel, _ := s.plan.Reels.Get(plan.Key(id))
			share := 0
			if !b.Measured.Wanting() {
				share = max(0, int(min((b.Laid-b.Run)/float64(len(reels)), reel.Length-1)+forgiven))
			}
			if known, found := may[id]; !found || share < known {
				may[id] = share
			}
		}
	}
	return may
}

// hired are the hired reels that a link lays, one as often as it lies there.
func (s shortening) hired(link plan.LinkID) (reels []plan.ReelID) {
	for _, segment := range s.plan.SegmentsOf(link) {
		reel, found := s.plan.Reels.Get(plan.Key(segment.Reel))
		if _, lent := reel.Lender(); found && lent && segment.Reel != "" {
			reels = append(reels, reel.ID)
		}
	}
	return reels
}

// evenTied gives cables of one piece the least that any of them may be shorter.
func (s shortening) evenTied(may map[plan.ReelID]int) {
	least := map[string]int{}
	piece := func(id plan.ReelID) string {
		reel, _ := s.plan.Reels.Get(plan.Key(id))
		return strings.ToLower(strings.TrimSpace(reel.TiedInto))
	}
	for id, metres := range may {
		if known, found := least[piece(id)]; !found || metres < known {
			least[piece(id)] = metres
		}
	}
	for id := range may {
		if name := piece(id); name != "" {
			may[id] = least[name]
		}
	}
}

// worse are the reels that may not be shorter: those of links that miss metres or stand worse with other reels of the same
// lengths, or with shorter ones. What lies between loses no more than the former and reaches no less than the latter.
func (s shortening) worse(may map[plan.ReelID]int) (reels []plan.ReelID) {
	failed := false
	for _, times := range []int{0, 1} {
		next := s.with(may, times)
		if next == nil {
			return s.all(may)
		}
		for i, now := range budget.NewReckoner(next).All() {
			if was := s.before[i]; now.Missing > was.Missing+forgiven || standingAt(now) > standingAt(was) {
				failed = true
				reels = append(reels, s.around(now)...)
			}
		}
	}
	reels = slices.DeleteFunc(reels, func(id plan.ReelID) bool { return may[id] == 0 })
	if failed && len(reels) == 0 {
		return s.all(may)
	}
	return reels
}

// around are the hired reels of a link and of the line that it is part of.
func (s shortening) around(b budget.Budget) []plan.ReelID {
	reels := s.hired(b.Link)
	if b.Whole != nil {
		for _, link := range b.Whole.Links() {
			reels = append(reels, s.hired(link)...)
		}
	}
	return reels
}

// all are the reels that may be shorter.
func (s shortening) all(may map[plan.ReelID]int) (reels []plan.ReelID) {
	for id, metres := range may {
		if metres > 0 {
			reels = append(reels, id)
		}
	}
	return reels
}

// standingAt is where a link's standing is among all, the best first; one without a grade stands before them.
func standingAt(b budget.Budget) int { return slices.Index(budget.Standings(), b.Standing()) }

// with is the plan with others in the place of reels that may be shorter, so many times as much shorter; nil where it takes
// none.
func (s shortening) with(may map[plan.ReelID]int, times int) *plan.Plan {
	next, err := plan.Do(s.plan, nil, func(e *plan.Edit) error {
		for id, metres := range may {
			if metres == 0 {
				continue
			}
			reel, _ := e.Now().Reels.Get(plan.Key(id))
			reel.Length -= float64(times * metres)
			reel.Measured = plan.Optional{}
			plan.Put(e, reel)
		}
		return nil
	})
	if err != nil {
		return nil
	}
	return next
}
