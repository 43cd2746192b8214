package budget

import (
	"maps"
	"slices"

	"stageloom/model/geom"
	"stageloom/model/plan"
)

// Preview reckons, at every move of the pointer, the links whose figures a drag changes. It gathers them once; a move
// touches no plan and keeps no memory but that of lines through passive devices. Use it from one goroutine.
type Preview struct {
	reckoner *Reckoner
	moving   plan.Moving
	by       geom.Point
	touched  []touched
	chain    chain
	budgets  []Budget
	pieces   *pieces // where lines go through passive devices
}

// touched is one link of a preview, as it stood when the drag began.
type touched struct {
	link               plan.Link
	segments           []plan.Segment
	points, shifted    []plan.LinkPoint
	from, to           end
	movesFrom, movesTo bool
	carried, doubtful  bool
	still              *Budget // by itself, of a link that stays as it is
}

// Preview gathers the links that a drag touches: those that Touched says stretch, and those carried whole that come to lie
// warmer, higher or in a line that changes.
func (r *Reckoner) Preview(m plan.Moving) *Preview {
	own := *r
	v := &Preview{reckoner: &own, moving: m}
	own.standsAt = v.standsAt
	v.chain = chain{reckoner: &own}
	picked := r.touchedBy(m)
	for link := range r.plan.Links.All() {
		if picked[link.ID] {
			v.touched = append(v.touched, r.touchedLink(link, m))
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

func (r *Reckoner) touchedLink(link plan.Link, m plan.Moving) touched {
	t := touched{
		link: link, segments: r.plan.SegmentsOf(link.ID), points: r.plan.PointsOf(link.ID),
		from: r.end(link.From), to: r.end(link.To), movesFrom: m.Devices[link.From], movesTo: m.Devices[link.To],
		carried: m.MovedWhole[link.ID], doubtful: link.Doubtful,
	}
	switch {
	case t.carried:
		t.shifted = slices.Clone(t.points)
	case !t.movesFrom && !t.movesTo:
		b := r.own(&link, &chain{reckoner: r})
		t.still = &b
	}
	return t
}

// Touched is what moves, with the links stretched that are another piece of a line through passive devices which the move
// changes: their own run stays, and their grade is the line's.
func (r *Reckoner) Touched(m plan.Moving) plan.Moving {
	m.Stretched = r.touchedBy(m)
	for id := range m.MovedWhole {
		delete(m.Stretched, id)
	}
	return m
}

// touchedBy are the links whose figures a move may change: stretched ones, carried ones that may come to belong to another
// position, and every piece of the lines of both and of the guests that move.
func (r *Reckoner) touchedBy(m plan.Moving) map[plan.LinkID]bool {
	picked := maps.Clone(m.Stretched)
	if picked == nil {
		picked = map[plan.LinkID]bool{}
	}
	if r.plan.Positions.Len() > 0 {
		for id := range m.MovedWhole {
			link, _ := r.plan.Link(id)
			if r.mayJoin(link.From, m) || r.mayJoin(link.To, m) {
				picked[id] = true
			}
		}
	}
	if r.passages.through == nil {
		return picked
	}
	for _, id := range slices.Sorted(maps.Keys(picked)) {
		r.pickLine(id, picked)
	}
	for at, guests := range r.passages.guests {
		if slices.ContainsFunc(guests, func(guest plan.ActConsole) bool { return r.mayJoin(guest.Console, m) }) {
			r.pickGuest(at, picked)
		}
	}
	return picked
}

// mayJoin reports whether a device moves and may come to belong to another position: one that moves with its position stays in it.
func (r *Reckoner) mayJoin(id plan.DeviceID, m plan.Moving) bool {
	device, _ := r.plan.Device(id)
	return m.Devices[id] && (device.Position == "" || !m.Positions[device.Position])
}

// pickLine picks the pieces of the line that a link is part of.
func (r *Reckoner) pickLine(id plan.LinkID, picked map[plan.LinkID]bool) {
	link, _ := r.plan.Link(id)
	if link.IsSpare() || r.transportOf(link.Transport).medium == nil {
		return
	}
	passed := map[plan.LinkID]bool{id: true}
	r.behind(link.Transport, portAt{link.From, link.FromPort}, passed)
	r.behind(link.Transport, portAt{link.To, link.ToPort}, passed)
	maps.Copy(picked, passed)
}

// pickGuest picks the line that a guest plugs into at a port of a passive device.
func (r *Reckoner) pickGuest(at portAt, picked map[plan.LinkID]bool) {
	if other, passes := r.onward(at); passes {
		if id, held := r.passages.links[other]; held {
			picked[id] = true
			r.pickLine(id, picked)
		}
	}
}

// unmoved is by how many metres ends that moved together may differ from rounding.
const unmoved = 0.003

// At reckons the touched links as they would stand if all that moves were dropped here, by this vector in metres from
// where it began. The budgets hold until the next call; copy what is to be kept.
func (v *Preview) At(by geom.Point) []Budget {
	v.chain.parts, v.by = v.chain.parts[:0], by
	for i := range v.touched {
		t := &v.touched[i]
		if t.still != nil {
			v.budgets[i] = *t.still
			continue
		}
		from, to, points := t.from, t.to, t.points
		if t.movesFrom {
			from = v.moved(t.link.From)
		}
		if t.movesTo {
			to = v.moved(t.link.To)
		}
		if t.carried {
			points = t.along(by)
		}
		t.link.Doubtful = t.doubtful || t.link.TypedWay > 0 && t.parted(from, to)
		v.budgets[i] = v.reckoner.reckon(&t.link, from, to, t.segments, points, &v.chain)
	}
	if v.pieces != nil {
		v.reckoner.wholes(v.pieces)
	}
	return v.budgets
}

// along are the way points of a carried link, which move with it.
func (t *touched) along(by geom.Point) []plan.LinkPoint {
	for i, point := range t.points {
		at := point.At().Add(by).RoundMM()
		t.shifted[i].X, t.shifted[i].Y = at.X, at.Y
	}
	return t.shifted
}

// parted reports whether the ends of a link come to lie otherwise against each other; one that had no place gets its first.
func (t *touched) parted(from, to end) bool {
	if t.from.unplaced || t.to.unplaced {
		return false
	}
	return from.height != t.from.height || to.height != t.to.height ||
		to.at.Sub(from.at).Distance(t.to.at.Sub(t.from.at)) > unmoved
}

// standsAt is where a device stands at this move of the pointer.
func (v *Preview) standsAt(id plan.DeviceID) end {
	if v.moving.Devices[id] {
		return v.moved(id)
	}
	return v.reckoner.end(id)
}

// moved is an end of a link once its device is dropped, perhaps in another position.
func (v *Preview) moved(id plan.DeviceID) end {
	by := v.by
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
