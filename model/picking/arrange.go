package picking

import "slices"

// within reports whether a loss is inside every limit of the link.
func (e *enumerator) within(loss []int) bool {
	for f, limit := range e.link.Limit {
		if limit > 0 && loss[f] > limit {
			return false
		}
	}
	return true
}

// arrange finds the order of reels, by their places, that fits end to end: one within the limits, then one with
// the wanted margin, then that of the least loss at the first frequency before the next.
func (e *enumerator) arrange(places []int) (order, loss []int, fits bool) {
	if e.plain {
		if loss, fits = e.chain(places); !fits {
			return nil, nil, false
		}
		return slices.Clone(places), loss, true
	}
	sorted := slices.Clone(places)
	slices.Sort(sorted)
	e.permute(sorted, 0, func(tried []int) {
		l, f := e.chain(tried)
		if !f {
			return
		}
		if !fits || e.better(l, loss) {
			order, loss, fits = slices.Clone(tried), l, true
		}
	})
	return order, loss, fits
}

// better reports whether one loss is better than another: inside the limits, then with the wanted margin, then less.
func (e *enumerator) better(a, b []int) bool {
	if e.within(a) != e.within(b) {
		return e.within(a)
	}
	if e.under(a) != e.under(b) {
		return e.under(b)
	}
	return slices.Compare(a, b) < 0
}

// under reports whether a loss leaves less than the wanted margin somewhere.
func (e *enumerator) under(loss []int) bool {
	for f, limit := range e.link.Limit {
		if limit > 0 && limit-loss[f] < e.link.Wanted {
			return true
		}
	}
	return false
}

// permute tries every order of what stands from a place on; equal reels are not exchanged.
func (e *enumerator) permute(places []int, from int, try func([]int)) {
	if from == len(places) {
		try(places)
		return
	}
	for i := from; i < len(places); i++ {
		if slices.Contains(places[from:i], places[i]) {
			continue
		}
		places[from], places[i] = places[i], places[from]
		e.permute(places, from+1, try)
		places[from], places[i] = places[i], places[from]
	}
}

// chain adds up the loss of reels in an order, joints and both ends included, and reports whether they fit.
func (e *enumerator) chain(places []int) (loss []int, fits bool) {
	loss = make([]int, len(e.link.Limit))
	add := func(some []int) {
		for f := range loss {
			if f < len(some) {
				loss[f] += some[f]
			}
		}
	}
	for i, place := range places {
		u := &e.usable[place]
		add(u.Loss)
		switch {
		case i == 0 && u.First == nil:
			return nil, false
		case i == 0:
			add(u.First)
		default:
			joint := &e.problem.Joints[e.usable[places[i-1]].Class][u.Class]
			if !joint.Fits {
				return nil, false
			}
			add(joint.Loss)
		}
		if i == len(places)-1 {
			if u.Last == nil {
				return nil, false
			}
			add(u.Last)
		}
	}
	return loss, true
}
