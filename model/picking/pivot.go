package picking

import "math"

// enter brings a column, or the slack of a row, into the basis in the place of what leaves. It returns false where the
// pivot is too small to be trusted.
func (s *simplex) enter(column int, slack bool, out leaving) bool {
	s.steps++
	if out.place < 0 {
		own := !slack && s.m.columns[column].group == out.group
		place, found := s.substitute(out.group)
		if !found {
			if !own {
				return false
			}
			s.key[out.group] = column
			s.settle()
			return true
		}
		s.exchangeKey(out.group, place)
		s.lead(column, slack)
		out.place = place
	}
	pivot := s.entering[out.place]
	if math.Abs(pivot) <= tolPivot || math.IsNaN(pivot) {
		return false
	}
	s.replace(out.place, pivot)
	if old := s.basic[out.place]; old >= 0 {
		s.placeOf[old] = -1
	}
	s.basic[out.place] = column
	if slack {
		s.basic[out.place] = -1 - column
	} else {
		s.placeOf[column] = out.place
	}
	s.settle()
	return true
}

// substitute finds a basic column of a group that can become its key: the one of the greatest value.
func (s *simplex) substitute(group int) (place int, found bool) {
	best := math.Inf(-1)
	for at, column := range s.basic {
		if column >= 0 && s.m.columns[column].group == group && s.value[at] > best {
			place, found, best = at, true, s.value[at]
		}
	}
	return place, found
}

// exchangeKey makes the basic column in a place the key of its group, and the old key basic in its stead. The columns of
// the group are all told against the key, so the row of the place becomes minus the sum of the group's rows.
func (s *simplex) exchangeKey(group, place int) {
	var others []int
	for at, column := range s.basic {
		if at != place && column >= 0 && s.m.columns[column].group == group {
			others = append(others, at)
		}
	}
	for r := range s.rows {
		column := s.inverse[r*s.rows : (r+1)*s.rows]
		sum := column[place]
		for _, at := range others {
			sum += column[at]
		}
		column[place] = -sum
	}
	old := s.key[group]
	s.key[group] = s.basic[place]
	s.placeOf[s.key[group]] = -1
	s.basic[place] = old
	s.placeOf[old] = place
}

// replace updates the inverse for the entering column in a place.
func (s *simplex) replace(place int, pivot float64) {
	for r := range s.rows {
		column := s.inverse[r*s.rows : (r+1)*s.rows]
		if column[place] == 0 {
			continue
		}
		factor := column[place] / pivot
		for at, share := range s.entering {
			if share != 0 {
				column[at] -= share * factor
			}
		}
		column[place] = factor
	}
}

// solve goes on while a column improves, at most so many steps; called is asked now and then whether to go on.
func (s *simplex) solve(steps int, called func() bool) {
	for n := range steps {
		if n%64 == 63 && called() {
			break
		}
		s.price()
		column, slack := s.choose()
		if column < 0 {
			return
		}
		s.lead(column, slack)
		out := s.ratio()
		if math.IsInf(out.step, 1) || !s.enter(column, slack, out) {
			s.price()
			return
		}
	}
	s.price()
}

// mostSteps bounds the steps of one solution.
func mostSteps(s *simplex) int { return 200 * (len(s.m.groups) + s.rows) }
