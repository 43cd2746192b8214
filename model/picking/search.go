package picking

import "slices"

// search closes the gap between bound and best of one objective by branch and bound.
type search struct {
	s      *simplex
	best   []int
	sum    int // of the best
	lower  int // no choice costs less
	aim    int // this round looks for choices that cost less than this
	nodes  int // searched
	most   int // nodes that may be searched
	round  int // counts restarts
	until  int // nodes after which this round gives up
	called func() bool
	tell   func(sum, bound int)
}

// improve makes one objective as small as it can be from a choice on, those proved before held to their sums. It returns
// the best choice, and a bound that equals its sum where that is proved.
func (m *master) improve(objective Objective, proved []Objective, choice []int, most int, called func() bool, tell func(sum, bound int)) (*search, int) {
	sums := m.sums(choice)
	f := &search{best: choice, sum: sums[objective], most: most, called: called, tell: tell}
	f.lower = m.trivial(objective)
	if f.lower >= f.sum {
		f.lower = f.sum
		return f, f.lower
	}
	s := newSimplex(m, objective, proved, sums, choice)
	f.s = s
	s.solve(mostSteps(s), called)
	root := s.bounded()
	f.raise(root.atLeast(0))
	f.take(s.round(f.sum))
	f.drop(root)
	if f.lower < f.sum && !called() {
		f.restarts(root)
	}
	return f, f.lower
}

// trivial is the sum of the least costs of all groups.
func (m *master) trivial(objective Objective) (sum int) {
	for _, columns := range m.groups {
		least, known := 0, false
		for _, i := range columns {
			if cost := m.columns[i].cost[objective]; !m.dead[i] && (!known || cost < least) {
				least, known = cost, true
			}
		}
		sum += least
	}
	return sum
}

// raise takes a bound, which is never more than what is in hand.
func (f *search) raise(bound int) {
	f.lower = max(f.lower, min(bound, f.sum))
	f.tell(f.sum, f.lower)
}

// take takes a better choice.
func (f *search) take(choice []int, found bool) bool {
	if !found {
		return false
	}
	if sum := f.s.m.sums(choice)[f.s.objective]; sum < f.sum {
		f.best, f.sum = choice, sum
		f.lower = min(f.lower, sum)
		f.tell(f.sum, f.lower)
		return true
	}
	return false
}

// drop leaves out for good the columns that no choice as good as the best can have.
func (f *search) drop(root *bound) {
	m := f.s.m
	keep := make([]bool, len(m.columns))
	for _, i := range f.best {
		keep[i] = true
	}
	for group, columns := range m.groups {
		m.groups[group] = slices.DeleteFunc(columns, func(i int) bool {
			m.dead[i] = m.dead[i] || !keep[i] && root.atLeast(root.over(m, i)) > f.sum
			return m.dead[i]
		})
	}
}

// firstRound is how many nodes the first round has; each further round has half as many again. Linear programs with many
// halves make some branches endless: beginning anew with other branches leaves them behind.
const firstRound = 50

// Before these rounds cuts are added, which close most of the gaps between the program and the optimum. Most objectives
// are done before.
const firstCuts, lastCuts = 2, 10

// restarts searches in rounds. The first looks for anything better than the best. The bound is mostly the optimum, so most
// of the others look for what costs no more than the bound, which bars nearly all there is; when there is nothing, the
// bound rises.
func (f *search) restarts(root *bound) {
	start := f.s.save()
	size := firstRound
	for f.lower < f.sum && f.nodes < f.most && !f.called() {
		if f.round >= firstCuts && f.round <= lastCuts {
			f.s.restore(start)
			copy(f.s.banned, f.s.m.dead)
			root = f.tighten(root)
			start = f.s.save()
			if f.lower >= f.sum {
				break
			}
		}
		f.until = min(f.most, f.nodes+size)
		f.aim = f.sum
		if f.round%4 > 0 {
			f.aim = f.lower + 1
		}
		f.s.restore(start)
		copy(f.s.banned, f.s.m.dead)
		if f.node(0) {
			f.raise(root.snap(f.goal()))
		}
		f.drop(root)
		size += size / 2
		f.round++
	}
	f.tell(f.sum, f.lower)
}

// goal is what a choice must cost less than to be looked for.
func (f *search) goal() int { return min(f.aim, f.sum) }

// deepest bounds how deep the search goes; each level keeps a basis.
const deepest = 400

// node searches what is left with the columns banned so far. It returns true when nothing below the goal is left there.
func (f *search) node(depth int) (done bool) {
	f.nodes++
	if f.nodes > f.until || depth > deepest || f.called() {
		return false
	}
	s := f.s
	if !s.repair(mostRepairs(s), f.called) {
		return true
	}
	s.price()
	b := s.bounded()
	if depth == 0 {
		f.raise(b.atLeast(0))
	}
	if b.atLeast(0) >= f.goal() {
		return true
	}
	f.take(s.round(f.goal()))
	if b.atLeast(0) >= f.goal() {
		return true
	}
	barred := f.bar(b)
	defer f.free(&barred)
	column, found := f.branch()
	if !found {
		return f.leaf()
	}
	basis := s.save()
	others := f.only(column)
	with := f.node(depth + 1)
	f.free(&others)
	s.restore(basis)
	s.banned[column] = true
	without := f.node(depth + 1)
	s.banned[column] = false
	return with && without
}

// only bans all columns of a group but one.
func (f *search) only(column int) (others []int) {
	s := f.s
	for _, i := range s.m.groups[s.m.columns[column].group] {
		if i != column && !s.banned[i] {
			s.banned[i] = true
			others = append(others, i)
		}
	}
	return others
}

// leaf takes what is decided in every group, if it holds.
func (f *search) leaf() (done bool) {
	choice := make([]int, len(f.s.m.groups))
	r := newRoom(f.s.m, f.s.proved, f.s.sums)
	for group, columns := range f.s.m.groups {
		for _, i := range columns {
			if !f.s.banned[i] {
				choice[group] = i
				r.take(i, 1)
				break
			}
			// A group without any column holds nothing.
			if i == columns[len(columns)-1] {
				return true
			}
		}
	}
	f.take(choice, r.holds())
	return true
}

// bar bans at a node what can't be in a choice below the goal there.
func (f *search) bar(b *bound) (barred []int) {
	m, goal := f.s.m, f.goal()
	for _, columns := range m.groups {
		for _, i := range columns {
			if !f.s.banned[i] && b.atLeast(b.over(m, i)) >= goal {
				f.s.banned[i] = true
				barred = append(barred, i)
			}
		}
	}
	return barred
}

// free lifts bans.
func (f *search) free(columns *[]int) {
	for _, i := range *columns {
		f.s.banned[i] = false
	}
	*columns = nil
}

// branch chooses the column to decide on: among groups that the program mixes, that of the greatest share, the rounds
// after the first with a little chance in it.
func (f *search) branch() (column int, found bool) {
	s, best := f.s, -1.0
	try := func(i int, value float64) {
		if value <= tolValue*100 || value >= 1-tolValue*100 {
			return
		}
		score := value
		if f.round > 0 {
			mixed := uint64(i+1)*0x9E3779B97F4A7C15 ^ uint64(f.round)*0xBF58476D1CE4E5B9
			mixed ^= mixed >> 29
			mixed *= 0x94D049BB133111EB
			score += float64(mixed>>40) / (1 << 24) * 0.5
		}
		if score > best && f.open(i) {
			column, found, best = i, true, score
		}
	}
	for place, i := range s.basic {
		if i >= 0 {
			try(i, s.value[place])
		}
	}
	for group, i := range s.key {
		try(i, s.keyOf[group])
	}
	if found {
		return column, true
	}
	return f.undecided()
}

// open reports whether to decide on a column changes anything: it is free, and not the last one of its group. A banned column
// may keep a share where the widened limits leave it one.
func (f *search) open(column int) bool {
	s := f.s
	return !s.banned[column] && slices.ContainsFunc(s.m.groups[s.m.columns[column].group], func(i int) bool { return i != column && !s.banned[i] })
}

// undecided is a column of a group in which there is a choice yet, that of the program where it has one: the program is
// whole already, but its rows hold within the widened limits only.
func (f *search) undecided() (column int, found bool) {
	decided := f.s.decided()
	for group, columns := range f.s.m.groups {
		free := 0
		for _, i := range columns {
			if !f.s.banned[i] {
				column = i
				free++
			}
		}
		if free > 1 {
			if i := decided[group]; i >= 0 && !f.s.banned[i] {
				column = i
			}
			return column, true
		}
	}
	return -1, false
}
