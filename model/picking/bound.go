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
// all sums. Metres picked move in steps of the lengths' common divisor.
func (b *bound) residue(s *simplex) {
	for _, columns := range s.m.groups {
		first, known := 0, false
		for _, i := range columns {
			if s.banned[i] {
				continue
			}
			cost := s.m.columns[i].cost[s.objective]
			if !known {
				first, known = cost, true
				b.rest += cost
			}
			b.step = divisor(b.step, cost-first)
		}
	}
	b.step = max(1, b.step)
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
	if off := ((b.rest-low)%b.step + b.step) % b.step; off > 0 {
		low += off
	}
	return low
}

// over is by how much choosing a column raises the bound.
func (b *bound) over(m *master, column int) int64 {
	return b.priced[column] - b.least[m.columns[column].group]
}
