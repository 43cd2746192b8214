package picking

import "math"

// repair goes on from an optimal basis after columns were banned, by the dual simplex: what must not be there any more, or
// has fallen below nought, leaves, and the column that costs least by it enters. It returns false where no choice is left,
// which is proved in whole numbers.
func (s *simplex) repair(steps int, called func() bool) (possible bool) {
	for n := range steps {
		if n%64 == 63 && called() {
			return true
		}
		out, falls, broken := s.broken()
		if !broken {
			return true
		}
		s.price()
		column, slack, found := s.cheapest(out, falls)
		if !found {
			return !s.hopeless(out, falls)
		}
		s.lead(column, slack)
		if !s.enter(column, slack, out) {
			return true // the duals give a bound all the same
		}
	}
	return true
}

// broken finds what is furthest from where it may be, and whether it has to fall or to rise.
func (s *simplex) broken() (out leaving, falls, broken bool) {
	worst := tolValue
	try := func(value float64, banned bool, at leaving) {
		switch {
		case banned && value > worst:
			out, falls, worst = at, true, value
		case -value > worst:
			out, falls, worst = at, false, -value
		}
	}
	for place, column := range s.basic {
		try(s.value[place], column >= 0 && s.banned[column], leaving{place: place, group: -1})
	}
	for group, column := range s.key {
		try(s.keyOf[group], s.banned[column], leaving{place: -1, group: group})
	}
	return out, falls, worst > tolValue
}

// cheapest finds the column, or the slack of a row, that moves what leaves the right way at the least cost.
func (s *simplex) cheapest(out leaving, falls bool) (column int, slack, found bool) {
	row := s.rowOf(out)
	sign := map[bool]float64{true: 1, false: -1}[falls]
	least, size := math.Inf(1), 0.0
	try := func(i int, isSlack bool, cost, rate float64) {
		if rate *= sign; rate <= tolPivot*100 {
			return
		}
		if ratio := max(0, cost) / rate; ratio < least-1e-11 || ratio < least+1e-11 && rate > size {
			column, slack, found, least, size = i, isSlack, true, ratio, rate
		}
	}
	for r, loose := range s.looseRows() {
		if !loose {
			try(r, true, -s.duals[r], row[r])
		}
	}
	for group := range s.m.groups {
		base, cost := s.along(s.key[group], row), s.priced(s.key[group])
		if out.place < 0 && group == out.group {
			base-- // the key itself falls as well
		}
		for _, i := range s.m.groups[group] {
			if !s.banned[i] && s.placeOf[i] < 0 && i != s.key[group] {
				try(i, false, s.priced(i)-cost, s.along(i, row)-base)
			}
		}
	}
	return column, slack, found
}

// rowOf is the row of the inverse that belongs to what leaves; a key's is minus the sum of those of its group.
func (s *simplex) rowOf(out leaving) []float64 {
	row := make([]float64, s.rows)
	for place, column := range s.basic {
		factor := 0.0
		switch {
		case place == out.place:
			factor = 1
		case out.place < 0 && column >= 0 && s.m.columns[column].group == out.group:
			factor = -1
		default:
			continue
		}
		for r := range s.rows {
			row[r] += factor * s.inverse[r*s.rows+place]
		}
	}
	return row
}

// looseRows tells of each row whether its slack is in the basis.
func (s *simplex) looseRows() []bool {
	loose := make([]bool, s.rows)
	for _, column := range s.basic {
		if column < 0 {
			loose[-1-column] = true
		}
	}
	return loose
}

// along is a column in terms of a row of the inverse.
func (s *simplex) along(column int, row []float64) (sum float64) {
	c := &s.m.columns[column]
	for _, e := range c.entries {
		sum += row[e.row] * float64(e.value)
	}
	for i, o := range s.proved {
		if cost := c.cost[o]; cost != 0 {
			at := len(s.m.capacity) + 2*i
			sum += (row[at] - row[at+1]) * float64(cost) / s.scale[o]
		}
	}
	return sum
}

// mostRepairs bounds the steps of one repair.
func mostRepairs(s *simplex) int { return 40*s.rows + 400 }
