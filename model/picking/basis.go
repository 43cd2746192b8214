package picking

import "math"

// saved is a basis to return to.
type saved struct {
	key, basic []int
	inverse    []float64
}

func (s *simplex) save() saved {
	return saved{append([]int(nil), s.key...), append([]int(nil), s.basic...), append([]float64(nil), s.inverse...)}
}

func (s *simplex) restore(b saved) {
	copy(s.key, b.key)
	copy(s.basic, b.basic)
	copy(s.inverse, b.inverse)
	s.locate()
	s.settle()
	s.price()
}

// locate notes where in the basis each column is.
func (s *simplex) locate() {
	for i := range s.placeOf {
		s.placeOf[i] = -1
	}
	for place, column := range s.basic {
		if column >= 0 {
			s.placeOf[column] = place
		}
	}
}

// grown is the program with the rows that the master has got since, at the same basis and with their slacks in it, or
// where that is no basis any more, at a choice.
func (s *simplex) grown(choice []int) *simplex {
	g := newSimplex(s.m, s.objective, s.proved, s.sums, choice)
	old := s.rows - 2*len(s.proved)
	more := len(s.m.capacity) - old
	copy(g.key, s.key)
	for place, column := range s.basic {
		if column <= -1-old {
			column -= more // rows of proved objectives stand behind all others
		}
		g.basic[place] = column
	}
	for n := range more {
		g.basic[s.rows+n] = -1 - (old + n)
	}
	g.locate()
	if !g.invert() {
		return newSimplex(s.m, s.objective, s.proved, s.sums, choice)
	}
	g.settle()
	g.price()
	return g
}

// invert reckons the inverse of the basis anew, by elimination. It returns false where the basis is none.
func (s *simplex) invert() bool {
	n := s.rows
	left, right := make([]float64, n*n), make([]float64, n*n) // row by row; right becomes the inverse of left
	for place, column := range s.basic {
		right[place*n+place] = 1
		if column < 0 {
			left[(-1-column)*n+place] = 1
			continue
		}
		add := func(row int, value float64) { left[row*n+place] += value }
		s.coefficients(column, 1, add)
		s.coefficients(s.key[s.m.columns[column].group], -1, add)
	}
	for at := range n {
		if !eliminate(left, right, n, at) {
			return false
		}
	}
	for place := range n {
		for r := range n {
			s.inverse[r*n+place] = right[place*n+r]
		}
	}
	return true
}

// eliminate leaves nothing but a 1 in a column of left, and does to right what it does to left.
func eliminate(left, right []float64, n, at int) bool {
	pivot := at
	for r := at + 1; r < n; r++ {
		if math.Abs(left[r*n+at]) > math.Abs(left[pivot*n+at]) {
			pivot = r
		}
	}
	if math.Abs(left[pivot*n+at]) < tolPivot {
		return false
	}
	by := 1 / left[pivot*n+at]
	for _, a := range [][]float64{left, right} {
		upper, row := a[at*n:(at+1)*n], a[pivot*n:(pivot+1)*n]
		for k := range n {
			upper[k], row[k] = row[k], upper[k]
		}
		for k := range n {
			upper[k] *= by
		}
	}
	for r := range n {
		factor := left[r*n+at]
		if r == at || factor == 0 {
			continue
		}
		for k := range n {
			left[r*n+k] -= factor * left[at*n+k]
			right[r*n+k] -= factor * right[at*n+k]
		}
	}
	return true
}
