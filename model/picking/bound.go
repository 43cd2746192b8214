package picking

import "math"

// grid is the fineness of duals in whole numbers: a bound made of them holds exactly, whatever the float arithmetic did.
const grid = 1 << 20

// bound is a Lagrangian bound in whole numbers: for any charges on the rows that are not above nought,
//
//	Σ over groups of the least of (cost − charges · rows) + charges · capacities ≤ objective
type bound struct {
	base   int64   // times grid
	least  []int64 // of each group
	priced []int64 // of each column; those banned keep what they had
	step   int     // the objective can only be base + a multiple of step; 1 where nothing is known
	rest   int     // the objective modulo step
}

// charges are what a bound charges for rows and proved objectives, times grid.
type charges struct{ rows, proved []int64 }

// charged rounds charges to whole numbers; those of rows are not above nought, whatever the float arithmetic said.
func (s *simplex) charged(duals []float64, factor float64) charges {
	whole := func(dual float64) int64 {
		if math.IsNaN(dual) || math.Abs(dual) > 1e9 {
			return 0
		}
		return int64(math.Round(dual * grid))
	}
	c := charges{make([]int64, len(s.m.capacity)), make([]int64, len(s.proved))}
	for r := range c.rows {
		c.rows[r] = min(0, whole(duals[r]*factor))
	}
	for i, o := range s.proved {
		at := len(s.m.capacity) + 2*i
		c.proved[i] = whole((duals[at] - duals[at+1]) * factor / s.scale[o])
	}
	return c
}

// bounded reckons the bound that the duals of the basis give over the columns that are not banned.
func (s *simplex) bounded() *bound {
	b := s.boundOf(s.charged(s.duals, s.scale[s.objective]), 1)
	b.residue(s)
	return b
}

// boundOf reckons the bound of charges, with the objective's costs once, or not at all.
func (s *simplex) boundOf(c charges, times int64) *bound {
	m := s.m
	b := &bound{least: make([]int64, len(m.groups)), priced: make([]int64, len(m.columns))}
	for r, capacity := range m.capacity {
		b.base += c.rows[r] * int64(capacity)
	}
	for i, o := range s.proved {
		b.base += c.proved[i] * int64(s.sums[o])
	}
	for group, columns := range m.groups {
		least := impossible
		for _, i := range columns {
			if s.banned[i] {
				continue
			}
			column := &m.columns[i]
			price := times * int64(column.cost[s.objective]) * grid
			for _, e := range column.entries {
				price -= c.rows[e.row] * int64(e.value)
			}
			for n, o := range s.proved {
				price -= c.proved[n] * int64(column.cost[o])
			}
			b.priced[i] = price
			least = min(least, price)
		}
		b.least[group] = least
		b.base += least
	}
	return b
}

// hopeless proves in whole numbers that no choice is left: charges along a row of the inverse without any cost come out
// above nought.
func (s *simplex) hopeless(out leaving, falls bool) bool {
	row := s.rowOf(out)
	largest := 0.0
	for _, share := range row {
		largest = max(largest, math.Abs(share))
	}
	if largest == 0 || math.IsNaN(largest) {
		return false
	}
	if !falls {
		largest = -largest
	}
	return s.boundOf(s.charged(row, 1/largest), 0).base > 0
}

// impossible is the price of a group none of whose columns is left, above any that one has.
const impossible = int64(1) << 52

// residue finds what the objective's sums have in common: where in each group all costs are alike modulo a step, so are
// all sums. Metres picked move in steps of the lengths' common divisor; a reel more or less makes a join and a change more
// or less, so that changes are even or odd with the joins once it is settled what is served. Proved objectives are
// therefore added in, one way and another, and the widest step counts.
func (b *bound) residue(s *simplex) {
	b.step = 1
	for _, mix := range s.mixes() {
		step, rest := s.residueOf(mix)
		if step > b.step {
			b.step, b.rest = step, rest
		}
	}
}

// mixes are the sets of proved objectives that may be added to the objective: none, and those with joins or changes.
func (s *simplex) mixes() [][]Objective {
	if s.objective != Joins && s.objective != Changes {
		return [][]Objective{nil}
	}
	mixes := [][]Objective{nil}
	for _, o := range s.proved {
		if o == Unserved || o == Joins || o == Changes {
			for _, mix := range mixes {
				mixes = append(mixes, append([]Objective{o}, mix...))
			}
		}
	}
	return mixes
}

// residueOf is the widest step in which the objective with a mix of proved ones moves, and the objective modulo it.
func (s *simplex) residueOf(mix []Objective) (step, rest int) {
	for _, columns := range s.m.groups {
		first, known := 0, false
		for _, i := range columns {
			if s.banned[i] {
				continue
			}
			c := &s.m.columns[i]
			cost := c.cost[s.objective]
			for _, o := range mix {
				cost += c.cost[o]
			}
			if !known {
				first, known = cost, true
				rest += cost
			}
			if step = divisor(step, cost-first); step == 1 {
				return 1, 0
			}
		}
	}
	for _, o := range mix {
		rest -= s.sums[o]
	}
	return max(1, step), rest
}

func divisor(a, b int) int {
	if a < 0 {
		a = -a
	}
	if b < 0 {
		b = -b
	}
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// atLeast is the least whole sum that the bound allows when it is raised by an amount.
func (b *bound) atLeast(more int64) int {
	total := b.base + more
	low := int(math.Floor(float64(total) / grid))
	for int64(low)*grid < total {
		low++
	}
	return b.snap(low)
}

// snap is the least sum from a number on that the residue allows.
func (b *bound) snap(low int) int { return low + ((b.rest-low)%b.step+b.step)%b.step }

// over is by how much choosing a column raises the bound.
func (b *bound) over(m *master, column int) int64 {
	return b.priced[column] - b.least[m.columns[column].group]
}
