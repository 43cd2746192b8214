package picture

import "stageloom/model/geom"

// stretch is a part of a path, from one distance along it to another.
type stretch struct{ from, to float64 }

// stretches returns the parts of a path that lie in a box, in order.
func stretches(points []geom.Point, box geom.Box) []stretch {
	var inside []stretch
	passed := 0.0
	for i := 1; i < len(points); i++ {
		length := points[i-1].Distance(points[i])
		if from, to, meets := clipped(points[i-1], points[i], box); meets {
			part := stretch{passed + from*length, passed + to*length}
			if last := len(inside) - 1; last >= 0 && inside[last].to >= part.from-1e-9 {
				inside[last].to = part.to
			} else {
				inside = append(inside, part)
			}
		}
		passed += length
	}
	return inside
}

// clipped returns the shares 0…1 of the line from a to b between which it lies in a box (Liang and Barsky's way).
func clipped(a, b geom.Point, box geom.Box) (from, to float64, meets bool) {
	from, to = 0, 1
	step := b.Sub(a)
	for _, edge := range [4][2]float64{
		{-step.X, a.X - box.Min.X},
		{step.X, box.Max.X - a.X},
		{-step.Y, a.Y - box.Min.Y},
		{step.Y, box.Max.Y - a.Y},
	} {
		switch towards, room := edge[0], edge[1]; {
		case towards == 0 && room < 0:
			return 0, 0, false
		case towards < 0:
			from = max(from, room/towards)
		case towards > 0:
			to = min(to, room/towards)
		}
	}
	return from, to, from <= to
}

// mostPlaces bounds how many places besides the usual ones a label tries along a path.
const mostPlaces = 24

// placesAlong returns the distances along a path at which a label of this width tries for a place in a frame: at the
// usual shares of the path and, when thorough, closer together along what of it lies in the frame.
func (p *Picture) placesAlong(points []geom.Point, frame geom.Box, width float64) []float64 {
	length := geom.Polyline(points).Length()
	places := make([]float64, len(shares), len(shares)+mostPlaces)
	for i, share := range shares {
		places[i] = length * share
	}
	if !p.options.Thorough {
		return places
	}
	seen := 0.0
	inside := stretches(points, frame)
	for _, part := range inside {
		seen += part.to - part.from
	}
	step := max(width/2, seen/mostPlaces)
	for _, part := range inside {
		n := int((part.to - part.from) / step)
		middle := (part.from + part.to) / 2
		for i := range n {
			away := float64((i+1)/2) * step
			if i%2 == 1 {
				away = -away
			}
			places = append(places, middle+away)
		}
	}
	return places
}

// crossed reports whether a line of the picture runs through a box: a link, or the edge of an area or a position.
func (p *Picture) crossed(box geom.Box) bool {
	for _, m := range p.Marks {
		switch {
		case m.Role == RoleLinkCasing || m.Role == RoleAreaEdge:
			if len(stretches(m.Points, box)) > 0 {
				return true
			}
		case m.Edge == RolePositionEdge:
			outline := geom.BoxOf(m.Points...)
			if outline.Overlaps(box) && !outline.ContainsBox(box) {
				return true
			}
		}
	}
	return false
}
