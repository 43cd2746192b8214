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

// bounded reckons the bound that the duals of the basis give over the columns that are not banned.
func (s *simplex) bounded() *bound {
	m := s.m
	charges := make([]int64, len(m.capacity))
	scale := s.scale[s.objective]
	b := &bound{least: make([]int64, len(m.groups)), priced: make([]int64, len(m.columns))}
	whole := func(dual float64) int64 {
		if math.IsNaN(dual) || math.Abs(dual) > 1e9 {
			return 0
		}
		return int64(math.Round(dual * grid))
	}
	for r, capacity := range m.capacity {
		charges[r] = min(0, whole(s.duals[r]*scale))
		b.base += charges[r] * int64(capacity)
	}
	on := make([]int64, len(s.proved))
	for i, o := range s.proved {
		at := len(m.capacity) + 2*i
		on[i] = whole((s.duals[at] - s.duals[at+1]) * scale / s.scale[o])
		b.base += on[i] * int64(s.sums[o])
	}
	for group, columns := range m.groups {
		b.least[group] = math.MaxInt64
		for _, i := range columns {
			if s.banned[i] {
				continue
			}
			c := &m.columns[i]
			price := int64(c.cost[s.objective]) * grid
			for _, e := range c.entries {
				price -= charges[e.row] * int64(e.value)
			}
			for n, o := range s.proved {
				price -= on[n] * int64(c.cost[o])
			}
			b.priced[i] = price
			b.least[group] = min(b.least[group], price)
		}
		if b.least[group] == math.MaxInt64 {
			b.least[group] = impossible
		}
		b.base += b.least[group]
	}
	b.residue(s)
	return b
}

// impossible is the price of a group none of whose columns is left.
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
