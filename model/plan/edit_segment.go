package plan

import "slices"

// MoveSegment puts the segment of an order in another place of its link's chain, counted from 0 among the others.
// Each cable keeps the coupler before it; the first needs none.
func (e *Edit) MoveSegment(link LinkID, order, place int) error {
	return e.changeChain(link, order, func(chain []Segment, i int) ([]Segment, error) {
		moved := chain[i]
		rest := slices.Delete(chain, i, i+1)
		return slices.Insert(rest, max(0, min(place, len(rest))), moved), nil
	})
}

// InsertSegment lays a cable in a place of its link's chain, counted from 0; the others keep the coupler before them.
func (e *Edit) InsertSegment(link LinkID, place int, laid Segment) error {
	if !e.next.Links.Has(Key(link)) {
		return refuse("there is no such link any more")
	}
	chain := slices.Clone(e.next.SegmentsOf(link))
	chain = slices.Insert(chain, max(0, min(place, len(chain))), laid)
	chain[0].Coupler = ""
	e.SetSegments(link, chain)
	return nil
}

// ReplaceSegment puts another cable where that of an order lies: its reel is free again, the coupler before it stays.
func (e *Edit) ReplaceSegment(link LinkID, order int, with Segment) error {
	return e.changeChain(link, order, func(chain []Segment, i int) ([]Segment, error) {
		with.Coupler = chain[i].Coupler
		chain[i] = with
		return chain, nil
	})
}

// RemoveSegment takes the segment of an order off its link; its reel is free again.
func (e *Edit) RemoveSegment(link LinkID, order int) error {
	return e.changeChain(link, order, func(chain []Segment, i int) ([]Segment, error) { return slices.Delete(chain, i, i+1), nil })
}

// SplitSegment cuts a cable that is given by kind and length in two at metres from its near end.
func (e *Edit) SplitSegment(link LinkID, order int, metres float64) error {
	return e.changeChain(link, order, func(chain []Segment, i int) ([]Segment, error) {
		if chain[i].Kind == "" {
			return nil, refuse("a reel or a house line is not cut; give the cable by kind and length first")
		}
		if metres <= 0 || metres >= chain[i].Length {
			return nil, refuse("a cable of %g m cannot be cut at %g m", chain[i].Length, metres)
		}
		second := chain[i]
		chain[i].Length, second.Length, second.Coupler = metres, second.Length-metres, ""
		return slices.Insert(chain, i+1, second), nil
	})
}

// JoinSegments makes one cable of two neighbours of one kind that are given by kind and length.
func (e *Edit) JoinSegments(link LinkID, order int) error {
	return e.changeChain(link, order, func(chain []Segment, i int) ([]Segment, error) {
		if i+1 >= len(chain) || chain[i].Kind == "" || chain[i].Kind != chain[i+1].Kind {
			return nil, refuse("only two neighbours of one kind, given by length, become one cable")
		}
		chain[i].Length += chain[i+1].Length
		return slices.Delete(chain, i+1, i+2), nil
	})
}

// SetCoupler names the coupler that joins the segment of an order to the one before it; blank is the plan's own.
func (e *Edit) SetCoupler(link LinkID, order int, hardware HardwareID) error {
	return e.changeChain(link, order, func(chain []Segment, i int) ([]Segment, error) {
		if i == 0 {
			return nil, refuse("before the first cable there is no coupler")
		}
		chain[i].Coupler = hardware
		return chain, nil
	})
}

// changeChain changes a copy of a link's segments; i is the index of the order.
func (e *Edit) changeChain(link LinkID, order int, change func(chain []Segment, i int) ([]Segment, error)) error {
	chain := slices.Clone(e.next.SegmentsOf(link))
	if order < 1 || order > len(chain) {
		return refuse("there is no cable %d in this link any more", order)
	}
	chain, err := change(chain, order-1)
	if err != nil {
		return err
	}
	if len(chain) > 0 {
		chain[0].Coupler = ""
	}
	e.SetSegments(link, chain)
	return nil
}
