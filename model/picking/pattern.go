package picking

import (
	"cmp"
	"slices"
)

// pattern is one way to serve a link: reels in the order in which they fit.
type pattern struct {
	lines []int
	loss  []int // at each frequency
	cost  [objectives]int
}

// mostPatterns bounds the patterns of one link; beyond it the answer is not proved.
const mostPatterns = 40000

// enumerator lists the patterns of one link.
type enumerator struct {
	problem *Problem
	link    *Link
	usable  []Usable // longest first
	lengths []int
	plain   bool // all usable lines have the same ends, so that any order fits alike
	most    int  // reels
	piece   bool // of a whole: to lose less is worth something even within its own limit
	before  []int
	chosen  []int // places in usable, not falling
	loss    []int // of the chosen reels alone
	found   []pattern
	seen    map[[MaxReels]int]bool // multisets found, where they may come twice
	cut     bool                   // there were more than mostPatterns
}

// patternsOf lists every pattern of a link, fewest joins and least length first, and reports whether the list is whole.
func patternsOf(p *Problem, number int) (list []pattern, whole bool) {
	e := newEnumerator(p, number)
	if e.link.Need <= 0 {
		return []pattern{e.costed(nil, nil, 0)}, true
	}
	e.extend(0, 0)
	if p.Order == OnTheDay || e.link.Lies {
		e.keepBefore()
	}
	slices.SortStableFunc(e.found, func(a, b pattern) int {
		return cmp.Or(cmp.Compare(a.cost[Joins], b.cost[Joins]), cmp.Compare(a.cost[Excess], b.cost[Excess]))
	})
	return e.found, !e.cut
}

func newEnumerator(p *Problem, number int) *enumerator {
	link := &p.Links[number]
	e := &enumerator{problem: p, link: link, piece: p.wholeOf(number) != nil, seen: map[[MaxReels]int]bool{}, plain: true, loss: make([]int, len(link.Limit))}
	for _, u := range link.Usable {
		if p.Lines[u.Line].Count > 0 && p.Lines[u.Line].Length > 0 {
			e.usable = append(e.usable, u)
		}
	}
	slices.SortStableFunc(e.usable, func(a, b Usable) int {
		return cmp.Or(cmp.Compare(p.Lines[b.Line].Length, p.Lines[a.Line].Length), cmp.Compare(a.Line, b.Line))
	})
	for i := range e.usable {
		u, first := &e.usable[i], &e.usable[0]
		e.lengths = append(e.lengths, p.Lines[u.Line].Length)
		if u.Class != first.Class || !slices.Equal(u.First, first.First) || !slices.Equal(u.Last, first.Last) ||
			u.First == nil || u.Last == nil {
			e.plain = false
		}
	}
	e.most = min(MaxReels, link.MaxJoins+1)
	if link.Attached {
		e.most--
	}
	e.before = make([]int, len(p.Lines))
	for _, use := range link.Before {
		e.before[use.Line] += use.Count
	}
	return e
}

// extend adds reels no longer than the last one until they reach; where they reach and do not fit, it goes on, since a
// short tail may be what is missing.
func (e *enumerator) extend(from, length int) {
	if e.cut {
		return
	}
	if length >= e.link.Need && e.offer() {
		return
	}
	left := e.most - len(e.chosen)
	for i := from; i < len(e.usable) && left > 0; i++ {
		if length+left*e.lengths[i] < e.link.Need {
			return // those behind are no longer
		}
		if e.has(e.usable[i].Line) >= e.problem.Lines[e.usable[i].Line].Count {
			continue
		}
		if e.push(i) {
			e.extend(i, length+e.lengths[i])
		}
		e.pop(i)
	}
}

// has counts the chosen reels of a line.
func (e *enumerator) has(line int) (n int) {
	for _, place := range e.chosen {
		if e.usable[place].Line == line {
			n++
		}
	}
	return n
}

// push chooses a reel and reports whether the losses of the reels alone are within the limits.
func (e *enumerator) push(place int) bool {
	e.chosen = append(e.chosen, place)
	within := true
	for f, limit := range e.link.Limit {
		e.loss[f] += e.usable[place].Loss[f]
		within = within && (limit == 0 || e.loss[f] <= limit)
	}
	return within
}

func (e *enumerator) pop(place int) {
	e.chosen = e.chosen[:len(e.chosen)-1]
	for f := range e.link.Limit {
		e.loss[f] -= e.usable[place].Loss[f]
	}
}

// offer takes the chosen reels as a pattern when they stand; it returns whether going on is of no use. Where ends differ
// another reel may even lose less, by what it meets at the end.
func (e *enumerator) offer() (done bool) {
	order, loss, fits := e.arrange(e.chosen)
	switch {
	case !fits:
		return false
	case !e.within(loss):
		return e.plain
	case e.plain || !e.needless(loss):
		e.keep(order, loss)
	}
	return e.plain || !e.piece && !e.under(loss)
}

// needless reports whether fewer of the chosen reels would do as well, which length alone doesn't tell where ends differ.
func (e *enumerator) needless(whole []int) bool {
	n := len(e.chosen)
	for set := 1; set < 1<<n-1; set++ {
		var some []int
		length := 0
		for i, place := range e.chosen {
			if set>>i&1 == 1 {
				some, length = append(some, place), length+e.lengths[place]
			}
		}
		if length < e.link.Need {
			continue
		}
		_, loss, fits := e.arrange(some)
		if fits && e.within(loss) && (e.under(whole) || !e.under(loss)) && !(e.piece && loss[0] > whole[0]) {
			return true
		}
	}
	return false
}

// keep notes a pattern, once.
func (e *enumerator) keep(order, loss []int) {
	if len(e.found) >= mostPatterns {
		e.cut = true
		return
	}
	key := [MaxReels]int{}
	for i, place := range order {
		key[i] = place + 1
	}
	slices.Sort(key[:])
	if e.seen[key] {
		return
	}
	e.seen[key] = true
	length := 0
	lines := make([]int, len(order))
	for i, place := range order {
		lines[i], length = e.usable[place].Line, length+e.lengths[place]
	}
	e.found = append(e.found, e.costed(lines, loss, length))
}

// costed reckons what a pattern adds to each objective.
func (e *enumerator) costed(lines, loss []int, length int) pattern {
	p := pattern{lines: lines, loss: loss}
	if len(lines) > 0 {
		p.cost[Joins] = len(lines) - 1
		if e.link.Attached {
			p.cost[Joins]++
		}
		p.cost[Excess] = length - e.link.Need
	}
	if len(lines) > 0 && e.under(loss) {
		p.cost[UnderMargin] = 1
	}
	p.cost[Changes] = e.changes(lines)
	if e.link.Lies && p.cost[Changes] > 0 {
		p.cost[TakenApart] = 1
	}
	return p
}

// changes counts the reels by which a pattern differs from what the link had. Where no link had anything, nothing changes.
func (e *enumerator) changes(lines []int) (n int) {
	if e.problem.bare() {
		return 0
	}
	count := map[int]int{}
	for _, line := range lines {
		count[line]++
	}
	for line, had := range e.before {
		n += max(had-count[line], count[line]-had)
	}
	return n
}

// keepBefore adds to every pattern what the link had beyond it, as far as that stands: with changes before joins a reel
// that lies is left lying.
func (e *enumerator) keepBefore() {
	place := map[int]int{}
	for i, u := range e.usable {
		place[u.Line] = i
	}
	for _, p := range slices.Clone(e.found) {
		e.chosen = e.chosen[:0]
		left := slices.Clone(e.before)
		for _, line := range p.lines {
			e.chosen = append(e.chosen, place[line])
			left[line]--
		}
		e.addFrom(left, 0)
	}
	e.chosen = nil
}

// addFrom keeps the chosen reels with every choice of those left from a line on.
func (e *enumerator) addFrom(left []int, from int) {
	for i := from; i < len(e.usable) && len(e.chosen) < e.most; i++ {
		line := e.usable[i].Line
		if left[line] <= 0 || e.has(line) >= e.problem.Lines[line].Count {
			continue
		}
		left[line]--
		e.chosen = append(e.chosen, i)
		if order, loss, fits := e.arrange(e.chosen); fits && e.within(loss) {
			e.keep(order, loss)
		}
		e.addFrom(left, i)
		e.chosen = e.chosen[:len(e.chosen)-1]
		left[line]++
	}
}
