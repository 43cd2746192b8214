package table

import "math"

// Texts that are at least giving wide take what is left of the room; those at least long wide give way where there is too
// little, down to a share of their usual width.
const (
	giving     = 100
	long       = 200
	leastShare = 0.45
)

// Widths are those of the shown columns in so much room, with a gap between each two. Texts share by their usual widths; a
// column that somebody made wider or narrower keeps its width.
func (s *Sheet) Widths(room, gap float32) []float32 {
	widths := make([]float32, len(s.shown))
	spare := room - gap*float32(len(s.shown)-1)
	for i := range widths {
		widths[i] = s.Width(i)
		spare -= widths[i]
	}
	if room <= 0 {
		return widths
	}
	least, all := float32(giving), float32(0)
	if spare < 0 {
		least = long
	}
	for i := range widths {
		all += s.weight(i, least)
	}
	for i := range widths {
		if weight := s.weight(i, least); weight > 0 {
			widths[i] = float32(math.Floor(float64(max(leastShare*weight, widths[i]+spare*weight/all))))
		}
	}
	return widths
}

// weight is by how much a shown column takes part, 0 where it keeps its width.
func (s *Sheet) weight(column int, least float32) float32 {
	at := s.shown[column]
	c := s.columns[at]
	if c.Kind != Text || c.Names || c.Draggable || c.Width < least || s.widths[at] != c.Width {
		return 0
	}
	return c.Width
}
