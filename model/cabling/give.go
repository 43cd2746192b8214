package cabling

import (
	"slices"

	"stageloom/model/plan"
)

// outcome is what becomes of one run: whether it is served, and its cables.
type outcome struct {
	run    *run
	served bool
	laid   laying
}

// give turns picks by line of stock into cables with their tags: picks[i] are the lines that run i has, served[i] whether it
// is served. A link keeps the reels it had as far as its picks are alike, and its whole chain as it lies where they are the
// same. An unserved link stays as it is unless another takes a reel of its.
func (s *survey) give(picks [][]int, served []bool) []outcome {
	outcomes := make([]outcome, len(s.runs))
	left := s.leftOver()
	for i, r := range s.runs {
		o := &outcomes[i]
		o.run = r
		if !served[i] {
			continue
		}
		if o.laid, o.served = r.asItLies(picks[i]); !o.served {
			o.laid, o.served = r.lay(picks[i])
			r.tagOwn(o.laid.chain)
		}
		for _, p := range o.laid.chain {
			if p.tagged {
				left[p.segment.Reel]--
			}
		}
	}
	for i := range outcomes {
		if o := &outcomes[i]; o.served {
			s.tagRest(o.laid.chain, left)
			o.laid.budget = s.reckoner.Cabled(o.run.link, o.laid.segments())
		}
	}
	for i := range outcomes {
		if o := &outcomes[i]; !o.served {
			o.laid.chain = s.pieces(o.run.unserved(left))
			o.laid.budget = s.reckoner.Cabled(o.run.link, o.laid.segments())
			// What a budget passes by less than a thousandth of a dB is no pick, but it serves as it lies.
			o.served = len(o.laid.chain) == len(o.run.chain) && o.run.stands() && o.run.servesNow()
		}
	}
	return outcomes
}

// leftOver counts what each reel's row has to give.
func (s *survey) leftOver() map[plan.ReelID]int {
	left := map[plan.ReelID]int{}
	for _, line := range s.lines {
		for _, reel := range line.free {
			left[reel]++
		}
	}
	return left
}

// asItLies is the chain as the plan has it, where its loose cables are these lines and it leaves no less than they can.
func (r *run) asItLies(lines []int) (laying, bool) {
	if len(lines) != len(r.loose) {
		return laying{}, false
	}
	had := make([]int, 0, len(r.loose))
	chain := r.survey.pieces(r.chain)
	for i := range chain {
		if r.survey.stays(chain[i].segment) {
			continue
		}
		at, is := r.survey.lineOfSegment(chain[i].segment)
		if !is {
			return laying{}, false
		}
		chain[i].line, chain[i].tagged = at, true
		had = append(had, at)
	}
	if !slices.Equal(sorted(had), sorted(lines)) || !r.fits(chain) {
		return laying{}, false
	}
	laid, stands := r.reckoned(chain)
	if stands && laid.under {
		best, found := r.lay(lines)
		stands = !found || best.under
	}
	return laid, stands
}

func sorted(lines []int) []int {
	lines = slices.Clone(lines)
	slices.Sort(lines)
	return lines
}

// fits reports whether all ends of a chain fit.
func (r *run) fits(chain []piece) bool {
	for i := range chain {
		if !r.goesOn(chain[:i], chain[i]) {
			return false
		}
	}
	return r.sound && len(chain) > 0 && r.ends(chain[len(chain)-1].kind)
}

// lineOfSegment is the line of stock that a loose segment's reel belongs to, if it may be picked.
func (s *survey) lineOfSegment(segment plan.Segment) (int, bool) {
	reel, is := s.plan.Reels.Get(plan.Key(segment.Reel))
	if !is {
		return 0, false
	}
	at, known := s.lineOf[keyOf(reel)]
	return at, known && slices.Contains(s.lines[at].free, reel.ID)
}

// tagOwn gives a run its own reels back where a picked cable is alike.
func (r *run) tagOwn(chain []piece) {
	own := slices.Clone(r.loose)
	for i := range chain {
		if chain[i].line < 0 {
			continue
		}
		at := slices.IndexFunc(own, func(had plan.Segment) bool {
			its, is := r.survey.lineOfSegment(had)
			return is && its == chain[i].line
		})
		if at >= 0 {
			chain[i].segment.Reel, chain[i].tagged = own[at].Reel, true
			own = slices.Delete(own, at, at+1)
		}
	}
}

// tagRest gives tags to the cables that have none yet, from the first of each line that is left.
func (s *survey) tagRest(chain []piece, left map[plan.ReelID]int) {
	for i := range chain {
		p := &chain[i]
		if p.line < 0 || p.tagged {
			continue
		}
		for _, reel := range s.lines[p.line].free {
			if left[reel] > 0 {
				left[reel]--
				p.segment.Reel, p.tagged = reel, true
				break
			}
		}
	}
}

// stands reports whether what a run has could be picked for it, or is of a loom or trunk piece that is not laid elsewhere.
func (r *run) stands() bool {
	for _, segment := range r.loose {
		reel, _ := r.survey.plan.Reels.Get(plan.Key(segment.Reel))
		_, is := r.survey.lineOfSegment(segment)
		tied := reel.TiedInto != "" && r.survey.allowed(reel) && !r.survey.tie.holds(reel)
		if !is && !tied || !r.allows(r.survey.kindOf(segment)) {
			return false
		}
	}
	return true
}

// pickable reports whether all loose cables of a run could be picked for it.
func (r *run) pickable() bool {
	for _, segment := range r.loose {
		if _, is := r.survey.lineOfSegment(segment); !is || !r.allows(r.survey.kindOf(segment)) {
			return false
		}
	}
	return true
}

// unserved is what an unserved run is left with: its chain as it is while all of its reels are there, else what is kept.
func (r *run) unserved(left map[plan.ReelID]int) []plan.Segment {
	wants := map[plan.ReelID]int{}
	for _, segment := range r.loose {
		if reel, _ := r.survey.plan.Reels.Get(plan.Key(segment.Reel)); r.survey.tie.holds(reel) {
			return r.kept
		}
		if _, is := r.survey.lineOfSegment(segment); is {
			wants[segment.Reel]++
		}
	}
	for reel, count := range wants {
		if left[reel] < count {
			return r.kept
		}
	}
	for reel, count := range wants {
		left[reel] -= count
	}
	return r.chain
}
