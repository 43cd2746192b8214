package picking

// search closes the gap between bound and best of one objective by branch and bound.
type search struct {
	s      *simplex
	best   []int
	sum    int // of the best
	lower  int // no choice costs less
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
	s.solve(200*(len(m.groups)+s.rows), called)
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
	for i := range m.columns {
		if !m.dead[i] && !keep[i] && root.atLeast(root.over(m, i)) > f.sum {
			m.dead[i] = true
		}
	}
}

// firstRound is how many nodes the first round has; each further round has half as many again. Linear programs with many
// halves make some branches endless: beginning anew with other branches leaves them behind.
const firstRound = 150

func (f *search) restarts(root *bound) {
	start := f.s.save()
	size := firstRound
	for f.lower < f.sum && f.nodes < f.most && !f.called() {
		f.until = min(f.most, f.nodes+size)
		f.s.restore(start)
		copy(f.s.banned, f.s.m.dead)
		if f.node(0) {
			f.lower = f.sum
		}
		f.drop(root)
		size += size / 2
		f.round++
	}
	f.tell(f.sum, f.lower)
}

// deepest bounds how deep the search goes; each level keeps a basis.
const deepest = 400

// node searches what is left with the columns banned so far. It returns true when nothing better than the best is left
// there.
func (f *search) node(depth int) (done bool) {
	f.nodes++
	if f.nodes > f.until || depth > deepest || f.called() {
		return false
	}
	s := f.s
	if !s.repair(40*s.rows+400, f.called) {
		return true
	}
	s.price()
	b := s.bounded()
	if b.atLeast(0) >= f.sum {
		return true
	}
	if depth == 0 {
		f.raise(b.atLeast(0))
	}
	f.take(s.round(f.sum))
	if b.atLeast(0) >= f.sum {
		return true
	}
	barred := f.bar(b)
	defer f.free(&barred)
	column, found := f.branch()
	if !found {
		// Whole already, and yet not taken: its rows hold within the widened limits only. Its own column is barred next.
		if column = f.doubtful(); column < 0 {
			return true
		}
	}
	basis := s.save()
	group := s.m.columns[column].group
	var others []int
	for _, i := range s.m.groups[group] {
		if i != column && !s.banned[i] {
			s.banned[i] = true
			others = append(others, i)
		}
	}
	with := f.node(depth + 1)
	f.free(&others)
	s.restore(basis)
	s.banned[column] = true
	without := f.node(depth + 1)
	s.banned[column] = false
	return with && without
}

// bar bans at a node what can't be in a better choice there.
func (f *search) bar(b *bound) (barred []int) {
	m := f.s.m
	for i := range m.columns {
		if !f.s.banned[i] && b.atLeast(b.over(m, i)) >= f.sum {
			f.s.banned[i] = true
			barred = append(barred, i)
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
		if score > best {
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
	return column, found
}

// doubtful is a column of a whole choice that is not the best's, or -1.
func (f *search) doubtful() int {
	for group, i := range f.s.decided() {
		if i >= 0 && i != f.best[group] && !f.s.banned[i] && len(f.s.m.groups[group]) > 1 {
			return i
		}
	}
	return -1
}
