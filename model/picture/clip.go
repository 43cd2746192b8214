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
