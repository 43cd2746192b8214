package raster

// reach is the box in which anything is drawn at all.
var reach = Box{-farthest, -farthest, farthest, farthest}

// within returns the part of the line from a to b that may lie in the box, as shares of its length, and whether there
// is one. The coordinates must be finite.
func within(a, b Point, box Box) (from, to float64, some bool) {
	from, to = 0, 1
	for _, side := range [4][2]float64{
		{a.X - b.X, a.X - box.Left},
		{b.X - a.X, box.Right - a.X},
		{a.Y - b.Y, a.Y - box.Top},
		{b.Y - a.Y, box.Bottom - a.Y},
	} {
		step, room := side[0], side[1]
		switch {
		case step > 0:
			to = min(to, room/step)
		case step < 0:
			from = max(from, room/step)
		case room < 0:
			return 0, 0, false
		}
	}
	return from, to, from <= to
}
