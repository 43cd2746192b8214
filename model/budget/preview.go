package budget

import (
	"stageloom/model/geom"
	"stageloom/model/plan"
)

// Preview reckons, at every move of the pointer, the links that a drag stretches. It gathers them once; a move touches
// no plan and keeps no memory. Use it from one goroutine.
type Preview struct {
	reckoner *Reckoner
	moving   plan.Moving
	touched  []touched
	chain    chain
	budgets  []Budget
	pieces   *pieces // where lines go through passive devices
}

// touched is one link of a preview, as it stood when the drag began.
type touched struct {
	link               plan.Link
	segments           []plan.Segment
	points             []plan.LinkPoint
	from, to           end
	movesFrom, movesTo bool
	doubtful           bool
}

// Preview gathers the links with one end among what moves. Links that move as a whole keep their length.
func (r *Reckoner) Preview(m plan.Moving) *Preview {
	v := &Preview{reckoner: r, moving: m, chain: chain{reckoner: r}}
	for link := range r.plan.Links.All() {
		if m.Stretched[link.ID] {
			v.touched = append(v.touched, touched{
				link: link, segments: r.plan.SegmentsOf(link.ID), points: r.plan.PointsOf(link.ID),
				from: r.end(link.From), to: r.end(link.To), movesFrom: m.Devices[link.From], movesTo: m.Devices[link.To],
				doubtful: link.Doubtful,
			})
		}
	}
	v.budgets = make([]Budget, len(v.touched))
	if r.passages.through != nil {
		v.pieces = &pieces{
			budgets: v.budgets, link: func(i int) *plan.Link { return &v.touched[i].link }, place: map[plan.LinkID]int{}, others: r.once(),
		}
		for i := range v.touched {
			v.pieces.place[v.touched[i].link.ID] = i
		}
	}
	return v
}

// At reckons the touched links as they would stand if all that moves were dropped here, by this vector in metres from
// where it began. The budgets hold until the next call; copy what is to be kept.
func (v *Preview) At(by geom.Point) []Budget {
	v.chain.parts = v.chain.parts[:0]
	for i := range v.touched {
		t := &v.touched[i]
		from, to := t.from, t.to
		if t.movesFrom {
			from = v.moved(t.link.From, by)
		}
		if t.movesTo {
			to = v.moved(t.link.To, by)
		}
		t.link.Doubtful = t.doubtful || t.link.TypedWay > 0 && by != (geom.Point{}) && !from.unplaced && !to.unplaced
		v.budgets[i] = v.reckoner.reckon(&t.link, from, to, t.segments, t.points, &v.chain)
	}
	if v.pieces != nil {
		v.reckoner.wholes(v.pieces)
	}
	return v.budgets
}

// moved is an end of a link once its device is dropped, perhaps in another position.
func (v *Preview) moved(id plan.DeviceID, by geom.Point) end {
	device, _ := v.reckoner.plan.Device(id)
	device.Position = v.moving.PositionAfter(v.reckoner.plan, device, by)
	moved := v.reckoner.endOf(device)
	moved.at, moved.unplaced = moved.at.Add(by).RoundMM(), device.Unplaced && by == (geom.Point{})
	return moved
}

// Sketch is a link while it is drawn: its way, or an end that follows the pointer.
type Sketch struct {
	// Link is the link; it need not be in the plan yet.
	Link plan.Link
	// Points are its way points, where Link.Way is not straight.
	Points []plan.LinkPoint
	// LooseTo puts the far end here instead of at Link.To, which may be blank then.
	LooseTo *geom.Point
}

// Sketch reckons a link while it is drawn, with the segments that the plan holds for it.
func (r *Reckoner) Sketch(s Sketch) Budget {
	from, to := r.end(s.Link.From), r.end(s.Link.To)
	if s.LooseTo != nil {
		to.at = *s.LooseTo
	}
	b := r.reckon(&s.Link, from, to, r.plan.SegmentsOf(s.Link.ID), s.Points, &chain{reckoner: r})
	r.complete(&b, &s.Link, r.once())
	return b
}
