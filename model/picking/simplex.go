package picking

import "math"

// Tolerances of the linear program, whose figures are scaled to about 1.
const (
	tolCost  = 1e-7 // a reduced cost above -tolCost does not improve
	tolPivot = 1e-8 // a pivot smaller than this is nought
	tolValue = 1e-6 // a value this far from whole, or from its bound, is off
)

// simplex is a linear program over the columns of a master: one objective, the rows, and those of the objectives proved
// before. Of each group one column is its key and is eliminated by Σ x = 1, so that the basis holds no more than a column
// a row (generalised upper bounding, Dantzig and Van Slyke 1967).
type simplex struct {
	m         *master
	objective Objective
	scale     [objectives]float64 // of each objective's coefficients
	proved    []Objective         // each has two rows behind those of the master: ≤ and ≥ its sum
	rows      int
	sums      [objectives]int // of the proved objectives
	limit     []float64       // right-hand sides, widened a little so that no two corners fall together
	banned    []bool          // columns that must be nought

	key     []int     // the key column of each group
	keyOf   []float64 // its value
	basic   []int     // the column in each place of the basis; -1-r is the slack of row r
	value   []float64 // of the basic columns
	placeOf []int     // of each column, -1 outside the basis
	inverse []float64 // of the basis, the column of row r at [r*rows : (r+1)*rows]
	duals   []float64
	steps   int
	cursor  int // where pricing goes on
	// of the moment
	entering []float64 // the entering column in terms of the basis
	rates    []float64 // how fast each key falls
	touched  []int     // groups whose rate is not nought
}

// newSimplex starts at a choice, which must satisfy every row: no first phase is needed.
func newSimplex(m *master, objective Objective, proved []Objective, sums [objectives]int, choice []int) *simplex {
	s := &simplex{m: m, objective: objective, proved: proved, sums: sums, rows: len(m.capacity) + 2*len(proved)}
	s.rescale()
	s.limit = make([]float64, s.rows)
	for r, capacity := range m.capacity {
		s.limit[r] = float64(capacity)
	}
	for i, o := range proved {
		sum := float64(sums[o]) / s.scale[o]
		s.limit[len(m.capacity)+2*i], s.limit[len(m.capacity)+2*i+1] = sum, -sum
	}
	noise := uint64(88172645463325252)
	for r := range s.limit {
		noise ^= noise << 13
		noise ^= noise >> 7
		noise ^= noise << 17
		s.limit[r] += 1e-5 * (1 + float64(noise%1000)/1000)
	}
	s.banned = make([]bool, len(m.columns))
	copy(s.banned, m.dead)
	s.key, s.keyOf = append([]int(nil), choice...), make([]float64, len(choice))
	s.basic, s.value = make([]int, s.rows), make([]float64, s.rows)
	s.inverse = make([]float64, s.rows*s.rows)
	s.placeOf = make([]int, len(m.columns))
	for i := range s.placeOf {
		s.placeOf[i] = -1
	}
	for r := range s.basic {
		s.basic[r] = -1 - r
		s.inverse[r*s.rows+r] = 1
	}
	s.duals, s.entering, s.rates = make([]float64, s.rows), make([]float64, s.rows), make([]float64, len(choice))
	s.settle()
	return s
}

// rescale brings the coefficients of each objective to about 1.
func (s *simplex) rescale() {
	var sum, n [objectives]float64
	for i := range s.m.columns {
		for o, cost := range s.m.columns[i].cost {
			if cost != 0 {
				sum[o], n[o] = sum[o]+math.Abs(float64(cost)), n[o]+1
			}
		}
	}
	for o := range s.scale {
		s.scale[o] = 1
		if n[o] > 0 {
			s.scale[o] = max(1, sum[o]/n[o])
		}
	}
}

// coefficients calls back with the rows of a column, the master's and those of proved objectives, times a factor.
func (s *simplex) coefficients(column int, factor float64, add func(row int, value float64)) {
	c := &s.m.columns[column]
	for _, e := range c.entries {
		add(e.row, factor*float64(e.value))
	}
	for i, o := range s.proved {
		if cost := c.cost[o]; cost != 0 {
			at := len(s.m.capacity) + 2*i
			value := factor * float64(cost) / s.scale[o]
			add(at, value)
			add(at+1, -value)
		}
	}
}

// cost is a column's share of the objective.
func (s *simplex) cost(column int) float64 {
	return float64(s.m.columns[column].cost[s.objective]) / s.scale[s.objective]
}

// settle reckons the values of the basis anew from the right-hand sides.
func (s *simplex) settle() {
	rest := append([]float64(nil), s.limit...)
	for _, column := range s.key {
		s.coefficients(column, 1, func(row int, value float64) { rest[row] -= value })
	}
	clear(s.value)
	for r, amount := range rest {
		if amount == 0 {
			continue
		}
		for place, share := range s.inverse[r*s.rows : (r+1)*s.rows] {
			s.value[place] += amount * share
		}
	}
	for group := range s.keyOf {
		s.keyOf[group] = 1
	}
	for place, column := range s.basic {
		if column >= 0 {
			s.keyOf[s.m.columns[column].group] -= s.value[place]
		}
	}
}

// price reckons the duals of the basis.
func (s *simplex) price() {
	costs := make([]float64, s.rows)
	for place, column := range s.basic {
		if column >= 0 {
			costs[place] = s.cost(column) - s.cost(s.key[s.m.columns[column].group])
		}
	}
	for r := range s.duals {
		sum := 0.0
		for place, share := range s.inverse[r*s.rows : (r+1)*s.rows] {
			sum += costs[place] * share
		}
		s.duals[r] = sum
	}
}

// priced is a column's cost less what the duals charge for its rows.
func (s *simplex) priced(column int) float64 {
	c := &s.m.columns[column]
	sum := float64(c.cost[s.objective]) / s.scale[s.objective]
	for _, e := range c.entries {
		sum -= s.duals[e.row] * float64(e.value)
	}
	for i, o := range s.proved {
		if cost := c.cost[o]; cost != 0 {
			at := len(s.m.capacity) + 2*i
			sum -= (s.duals[at] - s.duals[at+1]) * float64(cost) / s.scale[o]
		}
	}
	return sum
}

// choose looks for a column that improves: the best of some groups, from where the last search ended.
func (s *simplex) choose() (column int, slack bool) {
	best, worst := -1, -tolCost
	for r, dual := range s.duals {
		if dual > tolCost && -dual < worst { // a slack whose row should be loose
			best, worst, slack = r, -dual, true
		}
	}
	groups := len(s.m.groups)
	for n := range groups {
		group := (s.cursor + n) % groups
		base := s.priced(s.key[group])
		for _, i := range s.m.groups[group] {
			if s.banned[i] || s.placeOf[i] >= 0 || i == s.key[group] {
				continue
			}
			if gain := s.priced(i) - base; gain < worst {
				best, worst, slack = i, gain, false
			}
		}
		if best >= 0 && n > groups/4 {
			s.cursor = (group + 1) % groups
			break
		}
	}
	return best, slack
}

// lead reckons the entering column in terms of the basis, and how fast each key falls with it.
func (s *simplex) lead(column int, slack bool) {
	clear(s.entering)
	add := func(row int, value float64) {
		for place, share := range s.inverse[row*s.rows : (row+1)*s.rows] {
			s.entering[place] += value * share
		}
	}
	for _, group := range s.touched {
		s.rates[group] = 0
	}
	s.touched = s.touched[:0]
	own := -1
	if slack {
		add(column, 1)
	} else {
		own = s.m.columns[column].group
		s.coefficients(column, 1, add)
		s.coefficients(s.key[own], -1, add)
		s.rates[own] = 1
		s.touched = append(s.touched, own)
	}
	for place, share := range s.entering {
		if s.basic[place] < 0 || share == 0 {
			continue
		}
		group := s.m.columns[s.basic[place]].group
		if s.rates[group] == 0 {
			s.touched = append(s.touched, group)
		}
		s.rates[group] -= share
		if s.rates[group] == 0 {
			s.rates[group] = 1e-300 // it stays among the touched
		}
	}
}

// leaving is what gives way to the entering column: a place of the basis, or the key of a group.
type leaving struct {
	place, group int // -1 where it is the other
	step         float64
}

// ratio finds what reaches nought first.
func (s *simplex) ratio() leaving {
	out := leaving{-1, -1, math.Inf(1)}
	size := 0.0
	for place, share := range s.entering {
		if share <= tolPivot {
			continue
		}
		if step := max(0, s.value[place]) / share; step < out.step-1e-12 || step < out.step+1e-12 && share > size {
			out, size = leaving{place, -1, step}, share
		}
	}
	for _, group := range s.touched {
		if rate := s.rates[group]; rate > tolPivot {
			if step := max(0, s.keyOf[group]) / rate; step < out.step-1e-12 || step < out.step+1e-12 && rate > size {
				out, size = leaving{-1, group, step}, rate
			}
		}
	}
	return out
}
