package picking

import (
	"cmp"
	"math"
	"slices"
)

// cut is an inequality that every choice keeps and the program's mixture does not: rows are added up in parts, and since
// all counts are whole, both sides may be rounded down (Gomory 1958, Chvátal 1973). It is reckoned in whole numbers, so that
// it holds whatever the float arithmetic did.
type cut struct {
	uses   []use
	limit  int
	breach float64 // by how much the mixture is over the limit
}

// use is a column's coefficient in a cut.
type use struct{ column, value int }

const (
	mostCuts  = 12   // of one round
	mostParts = 8    // in which rows are added up
	minBreach = 0.02 // that is worth a row
	cutRounds = 6
)

// tighten adds cuts to the program at the root, a few rounds of them, and returns the bound it has then.
func (f *search) tighten(root *bound) *bound {
	for range cutRounds {
		cuts := f.s.cuts()
		if len(cuts) == 0 || f.called() {
			return root
		}
		f.s.m.addCuts(cuts)
		s := f.s.grown(f.best)
		f.s = s
		s.repair(mostRepairs(s), f.called)
		s.solve(mostSteps(s), f.called)
		root = s.bounded()
		f.raise(root.atLeast(0))
		f.take(s.round(f.sum))
		f.drop(root)
		if f.lower >= f.sum {
			return root
		}
	}
	return root
}

// cuts finds those that are broken most, from the rows of the inverse whose values are not whole.
func (s *simplex) cuts() (found []cut) {
	mixed := s.mixture()
	for place, column := range s.basic {
		if column < 0 && -1-column >= len(s.m.capacity) || math.Abs(s.value[place]-math.Round(s.value[place])) < 1e-3 {
			continue
		}
		for parts := 2; parts <= mostParts; parts++ {
			w, whole := s.weightsOf(place, parts)
			if !whole {
				continue
			}
			if c := s.combine(w, mixed); c.breach > minBreach {
				found = append(found, c)
			}
			break
		}
	}
	slices.SortStableFunc(found, func(a, b cut) int {
		return cmp.Or(cmp.Compare(b.breach, a.breach), cmp.Compare(len(a.uses), len(b.uses)))
	})
	return found[:min(len(found), mostCuts)]
}

// mixture lists the columns of each group that have a share in the program's answer.
func (s *simplex) mixture() [][]int {
	mixed := make([][]int, len(s.key))
	for group, column := range s.key {
		mixed[group] = append(mixed[group], column)
	}
	for place, column := range s.basic {
		if column >= 0 && s.value[place] > tolValue {
			group := s.m.columns[column].group
			mixed[group] = append(mixed[group], column)
		}
	}
	return mixed
}

// share is a column's share in the program's answer.
func (s *simplex) share(column int) float64 {
	if place := s.placeOf[column]; place >= 0 {
		return s.value[place]
	}
	if group := s.m.columns[column].group; s.key[group] == column {
		return s.keyOf[group]
	}
	return 0
}

// weights say how many parts of each row, and of each proved objective, a cut is made of.
type weights struct {
	parts        int
	rows, proved []int
}

// weightsOf are the fractions in a row of the inverse, where they are whole parts.
func (s *simplex) weightsOf(place, parts int) (w weights, whole bool) {
	whole = true
	part := func(share float64) int {
		scaled := share * float64(parts)
		n := math.Round(scaled)
		if !(math.Abs(scaled-n) < 1e-4 && math.Abs(n) < 1e6) { // nor where it is no number
			whole = false
			return 0
		}
		return ((int(n) % parts) + parts) % parts
	}
	w = weights{parts, make([]int, len(s.m.capacity)), make([]int, len(s.proved))}
	for r := range w.rows {
		w.rows[r] = part(s.inverse[r*s.rows+place])
	}
	for i, o := range s.proved {
		at := len(s.m.capacity) + 2*i
		w.proved[i] = part((s.inverse[at*s.rows+place] - s.inverse[(at+1)*s.rows+place]) / s.scale[o])
	}
	return w, whole
}

// weigh is a column's coefficient in the sum of the rows, in parts.
func (s *simplex) weigh(w *weights, column int) (total int) {
	c := &s.m.columns[column]
	for _, e := range c.entries {
		total += w.rows[e.row] * e.value
	}
	for i, o := range s.proved {
		total += w.proved[i] * c.cost[o]
	}
	return total
}

// combine adds up rows and proved objectives and rounds down. To each group's columns as many parts are added as break the
// cut most, on both sides: one of them is chosen. Their least coefficient is taken off again, so that few are left.
func (s *simplex) combine(w weights, mixed [][]int) cut {
	var c cut
	limit := 0
	for r, n := range w.rows {
		limit += n * s.m.capacity[r]
	}
	for i, o := range s.proved {
		limit += w.proved[i] * s.sums[o]
	}
	for group, columns := range s.m.groups {
		given := s.giving(&w, mixed[group])
		values := make([]int, len(columns))
		for k, i := range columns {
			values[k] = floorDiv(s.weigh(&w, i)+given, w.parts)
		}
		least := slices.Min(values)
		limit += given - least*w.parts
		for k, i := range columns {
			if v := values[k] - least; v > 0 {
				c.uses = append(c.uses, use{i, v})
				c.breach += float64(v) * s.share(i)
			}
		}
	}
	c.limit = floorDiv(limit, w.parts)
	c.breach -= float64(c.limit)
	return c
}

// giving is how many parts to add to a group, by what the mixture gains.
func (s *simplex) giving(w *weights, mixed []int) (given int) {
	best := math.Inf(-1)
	for parts := range w.parts {
		gain := -float64(parts) / float64(w.parts)
		for _, i := range mixed {
			gain += s.share(i) * float64(floorDiv(s.weigh(w, i)+parts, w.parts))
		}
		if gain > best+1e-9 {
			given, best = parts, gain
		}
	}
	return given
}

func floorDiv(a, b int) int {
	if a%b < 0 {
		return a/b - 1
	}
	return a / b
}

// addCuts makes a row of each cut.
func (m *master) addCuts(cuts []cut) {
	for _, c := range cuts {
		row := m.addRow(c.limit)
		for _, u := range c.uses {
			column := &m.columns[u.column]
			column.entries = append(slices.Clip(column.entries), entry{row, u.value})
		}
	}
}
