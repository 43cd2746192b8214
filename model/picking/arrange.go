package picking

import "slices"

// within tells whether a loss is inside every limit of the link.
func (e *enumerator) within(loss []int) bool {
	for f, limit := range e.link.Limit {
		if limit > 0 && loss[f] > limit {
			return false
		}
	}
	return true
}

// arrange finds the order of reels, by their places, that fits end to end: one within the limits before any other, then
// that of the least loss at the first frequency before the next.
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
		inside := e.within(l)
		if !fits || inside && !e.within(loss) || inside == e.within(loss) && slices.Compare(l, loss) < 0 {
			order, loss, fits = slices.Clone(tried), l, true
		}
	})
	return order, loss, fits
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

// chain adds up the loss of reels in an order, joints and both ends included, and tells whether they fit.
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
