package picking

import (
	"cmp"
	"slices"
)

// room is what a choice leaves of the rows and of the proved objectives.
type room struct {
	m      *master
	proved []Objective
	rows   []int
	sums   []int
}

func newRoom(m *master, proved []Objective, sums [objectives]int) *room {
	r := &room{m: m, proved: proved, rows: slices.Clone(m.capacity)}
	for _, o := range proved {
		r.sums = append(r.sums, sums[o])
	}
	return r
}

// take uses up what a column needs, times 1, or gives it back, times -1.
func (r *room) take(column, times int) {
	c := &r.m.columns[column]
	for _, e := range c.entries {
		r.rows[e.row] -= times * e.value
	}
	for i, o := range r.proved {
		r.sums[i] -= times * c.cost[o]
	}
}

// holds reports whether nothing is overdrawn.
func (r *room) holds() bool {
	return !slices.ContainsFunc(r.rows, negative) && !slices.ContainsFunc(r.sums, negative)
}

func negative(n int) bool { return n < 0 }

// fits reports whether a column has room.
func (r *room) fits(column int) bool {
	c := &r.m.columns[column]
	for _, e := range c.entries {
		if e.value > r.rows[e.row] && e.value > 0 {
			return false
		}
	}
	for i, o := range r.proved {
		if c.cost[o] > r.sums[i] {
			return false
		}
	}
	return true
}

// rounding completes what a linear program leaves undecided, by a small exact search.
type rounding struct {
	s      *simplex
	room   *room
	groups []int
	tried  [][]int // the columns of each undecided group, the most promising first
	least  []int   // what the groups from one on cost at least
	choice []int
	below  int // a choice must cost less
	found  []int
	nodes  int
}

// mostRounding bounds the search of one rounding.
const mostRounding = 3000

// round looks for a choice that costs less than the best so far: groups that the program has decided stay so.
func (s *simplex) round(below int) (choice []int, found bool) {
	r := &rounding{s: s, room: newRoom(s.m, s.proved, s.sums), choice: make([]int, len(s.m.groups)), below: below}
	cost := 0
	for group, column := range s.decided() {
		r.choice[group] = column
		if column < 0 {
			r.groups = append(r.groups, group)
			continue
		}
		r.room.take(column, 1)
		cost += s.m.columns[column].cost[s.objective]
	}
	r.prepare()
	r.search(0, cost)
	return r.found, r.found != nil
}

// decided gives the column of each group that is chosen whole, -1 where the program mixes several.
func (s *simplex) decided() []int {
	choice := make([]int, len(s.m.groups))
	for group, column := range s.key {
		choice[group] = -1
		if s.keyOf[group] > 1-tolValue*100 {
			choice[group] = column
		}
	}
	for place, column := range s.basic {
		if column >= 0 && s.value[place] > 1-tolValue*100 {
			choice[s.m.columns[column].group] = column
		}
	}
	return choice
}

// prepare sorts the columns of the undecided groups by their reduced cost, and the groups with fewer choices first.
func (r *rounding) prepare() {
	m := r.s.m
	count := map[int]int{}
	for _, group := range r.groups {
		for _, i := range m.groups[group] {
			if !r.s.banned[i] {
				count[group]++
			}
		}
	}
	slices.SortStableFunc(r.groups, func(a, b int) int { return cmp.Compare(count[a], count[b]) })
	for _, group := range r.groups {
		var list []int
		price := map[int]float64{}
		for _, i := range m.groups[group] {
			if !r.s.banned[i] {
				list, price[i] = append(list, i), r.s.priced(i)
			}
		}
		slices.SortStableFunc(list, func(a, b int) int { return cmp.Compare(price[a], price[b]) })
		r.tried = append(r.tried, list)
	}
	r.least = make([]int, len(r.groups)+1)
	for n := len(r.groups) - 1; n >= 0; n-- {
		least := 0
		for k, i := range r.tried[n] {
			if cost := m.columns[i].cost[r.s.objective]; k == 0 || cost < least {
				least = cost
			}
		}
		r.least[n] = r.least[n+1] + least
	}
}

func (r *rounding) search(n, cost int) {
	if cost+r.least[n] >= r.below || r.nodes > mostRounding {
		return
	}
	r.nodes++
	if n == len(r.groups) {
		if r.room.holds() {
			r.found, r.below = slices.Clone(r.choice), cost
		}
		return
	}
	for _, i := range r.tried[n] {
		if !r.room.fits(i) {
			continue
		}
		r.room.take(i, 1)
		r.choice[r.groups[n]] = i
		r.search(n+1, cost+r.s.m.columns[i].cost[r.s.objective])
		r.room.take(i, -1)
	}
}

// greedy is a first choice: links one by one, those of the highest priority and the greatest need first, each by the best
// pattern that still has room.
func (m *master) greedy(order []Objective) []int {
	r := newRoom(m, nil, [objectives]int{})
	choice := make([]int, len(m.groups))
	for group := len(m.problem.Links); group < len(m.groups); group++ {
		choice[group] = m.groups[group][0] // cases open, nothing held back, nothing hired
		r.take(choice[group], 1)
	}
	for _, group := range m.byWeight() {
		best := -1
		for _, i := range m.groups[group] {
			if r.fits(i) && (best < 0 || m.better(i, best, order)) {
				best = i
			}
		}
		choice[group] = best
		r.take(best, 1)
	}
	return choice
}

// better compares two columns by the objectives in their order.
func (m *master) better(a, b int, order []Objective) bool {
	for _, o := range order {
		if p, q := m.columns[a].cost[o], m.columns[b].cost[o]; p != q {
			return p < q
		}
	}
	return false
}
