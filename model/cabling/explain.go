package cabling

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"stageloom/model/checks"
	"stageloom/model/plan"
)

// explain says why a run stays unserved, given what all runs came to and what is left of the stock.
func (s *survey) explain(r *run, outcomes []outcome, left []int) Unserved {
	u := Unserved{Link: r.link.ID, Name: r.link.Name, Priority: r.link.Priority}
	if r.settled() {
		return r.explainKept(u)
	}
	lines := r.carrying()
	if len(lines) == 0 {
		u.Why, u.detail = NoKind, "it holds no kind of cable that is allowed for it"
		return u
	}
	if reached := r.furthest(lines); reached < r.need {
		u.Why, u.Short = TooShort, float64(r.need+unnoticed-reached)/1000
		return u
	}
	best := &quest{run: r, lines: lines, limit: math.MaxInt, short: math.MaxInt}
	if r.fixed.Graded {
		best.leastLoss()
		if best.found && best.loss > r.limit {
			u.Why, u.OverDB = Over, float64(best.loss-r.limit)/1000
			return u
		}
		best.limit = r.limit
	}
	best.found = false
	best.leastShortage(left)
	if !best.found {
		u.Why, u.detail = NoFit, fmt.Sprintf("no cables that reach have ends for port %s and port %s", r.link.FromPort, r.link.ToPort)
		return u
	}
	return s.crowded(u, best, outcomes, left)
}

// explainKept says why a run is not served by its kept cables, beside which there is nothing to pick.
func (r *run) explainKept(u Unserved) Unserved {
	if over := rounded(&r.fixed) - r.limit; r.fixed.Graded && over > 0 {
		u.Why, u.OverDB = Over, float64(over)/1000
		return u
	}
	u.Why, u.detail = NoFit, "its kept cables do not carry "+r.fixed.TransportName
	return u
}

// carrying lists the lines of the whole stock that may be picked for a run, the longest first.
func (r *run) carrying() (lines []int) {
	losses := r.survey.lossesFor(r)
	for i, l := range r.survey.lines {
		if losses[i] >= 0 && r.allows(r.survey.kinds[l.kind]) {
			lines = append(lines, i)
		}
	}
	slices.SortStableFunc(lines, func(a, b int) int {
		return cmp.Compare(r.survey.lines[b].length, r.survey.lines[a].length)
	})
	return lines
}

// mostLoose is how many loose cables a run may have.
func (r *run) mostLoose() int { return min(r.most, MostJoins+1) }

// furthest is how far the longest cables of these lines reach, as many as the run may have.
func (r *run) furthest(lines []int) (reached int) {
	left := r.mostLoose()
	for _, at := range lines {
		n := min(left, r.survey.lines[at].all)
		reached += n * millimetres(r.survey.lines[at].length)
		left -= n
	}
	return reached
}

// quest looks through the multisets of the whole stock that reach, for the one that loses least, or for the one that is
// shortest of cables that nobody else has. What cannot be better than the best so far is not laid.
type quest struct {
	run    *run
	lines  []int // longest first
	chosen []int
	limit  int // of loss, in thousandths of a dB
	found  bool
	loss   int
	short  int // cables that others have
	best   []int
}

// leastLoss finds the least loss with which any cables reach.
func (q *quest) leastLoss() {
	losses := q.run.survey.lossesFor(q.run)
	q.extend(0, 0, func() (done bool) {
		sum := 0
		for _, at := range q.chosen {
			sum += losses[at]
		}
		if q.found && sum >= q.loss {
			return true
		}
		l, fits := q.run.least(q.chosen)
		if fits && (!q.found || l < q.loss) {
			q.found, q.loss, q.best = true, l, slices.Clone(q.chosen)
		}
		return fits
	})
}

// leastShortage finds cables that reach inside the limit and lack as few as can be of what is left.
func (q *quest) leastShortage(left []int) {
	q.extend(0, 0, func() (done bool) {
		short, have := 0, map[int]int{}
		for _, at := range q.chosen {
			if have[at]++; have[at] > left[at] {
				short++
			}
		}
		if q.found && short >= q.short {
			return true
		}
		l, fits := q.run.least(q.chosen)
		if fits && l <= q.limit {
			q.found, q.short, q.loss, q.best = true, short, l, slices.Clone(q.chosen)
		}
		return fits
	})
}

// extend visits the multisets that reach; visit tells that more cables make nothing better. Where ends do not fit yet it goes
// on, since a short tail may be what is missing.
func (q *quest) extend(from, length int, visit func() (done bool)) {
	r := q.run
	if length >= r.need && (len(q.chosen) > 0 || len(r.kept) > 0) {
		if visit() {
			return
		}
	}
	left := r.mostLoose() - len(q.chosen)
	for i := from; i < len(q.lines) && left > 0; i++ {
		l := &r.survey.lines[q.lines[i]]
		reach := millimetres(l.length)
		if length+left*reach < r.need {
			return
		}
		if count(q.chosen, q.lines[i]) >= l.all {
			continue
		}
		q.chosen = append(q.chosen, q.lines[i])
		q.extend(i, length+reach, visit)
		q.chosen = q.chosen[:len(q.chosen)-1]
	}
}

func count(list []int, value int) (n int) {
	for _, v := range list {
		if v == value {
			n++
		}
	}
	return n
}

// least is the least loss of a run with these lines in any order that fits, in thousandths of a dB.
func (r *run) least(lines []int) (loss int, fits bool) {
	r.orders(nil, r.survey.pieces(r.kept), r.piecesOf(lines), func(chain []piece) {
		l := laying{chain: chain}
		b := r.survey.reckoner.Cabled(r.link, l.segments())
		if sum := rounded(&b); !fits || sum < loss {
			loss, fits = sum, true
		}
	})
	return loss, fits
}

// crowded names those that hold what a run would take.
func (s *survey) crowded(u Unserved, q *quest, outcomes []outcome, left []int) Unserved {
	u.Why = Crowded
	lacks := map[int]bool{}
	for _, at := range q.best {
		if count(q.best, at) > left[at] {
			lacks[at] = true
		}
	}
	var holders []plan.Link
	for _, link := range s.after(outcomes) {
		if link.link.ID != u.Link && slices.ContainsFunc(link.chain, func(segment plan.Segment) bool { return s.isOf(segment, lacks) }) {
			holders = append(holders, link.link)
			u.Held = u.Held || !link.picked
		}
	}
	slices.SortStableFunc(holders, func(a, b plan.Link) int {
		return cmp.Or(cmp.Compare(a.Priority, b.Priority), checks.Natural(a.Name, b.Name))
	})
	for _, link := range holders {
		u.By = append(u.By, link.ID)
	}
	u.by = holdersInWords(holders)
	return u
}

// isOf tells whether a segment is a reel of one of these lines, whether it may be picked or not.
func (s *survey) isOf(segment plan.Segment, lines map[int]bool) bool {
	reel, is := s.plan.Reels.Get(plan.Key(segment.Reel))
	if !is {
		return false
	}
	at, known := s.lineOf[keyOf(reel)]
	return known && reel.Condition != plan.Faulty && lines[at]
}

// linkAfter is a link with the cables it has after the pick; picked tells that it was picked for.
type linkAfter struct {
	link   plan.Link
	chain  []plan.Segment
	picked bool
}

// after lists all links of the plan with their cables after the pick.
func (s *survey) after(outcomes []outcome) []linkAfter {
	picked := map[plan.LinkID]int{}
	for i := range outcomes {
		picked[outcomes[i].run.link.ID] = i
	}
	var all []linkAfter
	for link := range s.plan.Links.All() {
		if i, is := picked[link.ID]; is {
			all = append(all, linkAfter{link, outcomes[i].laid.segments(), true})
		} else {
			all = append(all, linkAfter{link, s.plan.SegmentsOf(link.ID), false})
		}
	}
	return all
}

// holdersInWords names links with their priorities: "L02 and L05 (priority 1)".
func holdersInWords(links []plan.Link) string {
	var parts []string
	for i := 0; i < len(links); {
		var names []string
		from := i
		for ; i < len(links) && links[i].Priority == links[from].Priority; i++ {
			names = append(names, links[i].Name)
		}
		words := listed(names)
		if p := links[from].Priority; p > 0 {
			words += fmt.Sprintf(" (priority %d)", p)
		}
		parts = append(parts, words)
	}
	return strings.Join(parts, ", ")
}
