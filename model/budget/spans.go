package budget

import (
	"cmp"
	"slices"

	"stageloom/model/geom"
	"stageloom/model/plan"
)

// Span is a stretch of a way that lies within an area, in metres along the way from its near end.
type Span struct {
	Area     plan.Area
	From, To float64
}

// Spans returns where a way lies within areas, in the order along the way; areas that it only touches give a span without
// length.
func (g Ground) Spans(way geom.Polyline) []Span {
	var spans []Span
	for i, ring := range g.rings {
		if !touches(way, ring) {
			continue
		}
		for _, s := range within(way, ring) {
			s.Area = g.areas[i]
			spans = append(spans, s)
		}
	}
	slices.SortStableFunc(spans, func(a, b Span) int { return cmp.Compare(a.From, b.From) })
	return spans
}

// within cuts a way at the edges of a ring and joins the pieces that lie inside.
func within(way, ring geom.Polyline) []Span {
	cuts := []float64{0}
	along := 0.0
	for _, stretch := range way.Lines() {
		for _, edge := range ring.Lines() {
			if at, cross := stretch.Crossing(edge); cross {
				cuts = append(cuts, along+stretch.A.Distance(at))
			}
		}
		along += stretch.Length()
	}
	cuts = append(cuts, along)
	slices.Sort(cuts)
	var spans []Span
	for i := 1; i < len(cuts); i++ {
		middle, _ := way.At((cuts[i-1] + cuts[i]) / 2)
		switch {
		case !inside(middle, ring):
		case len(spans) > 0 && spans[len(spans)-1].To == cuts[i-1]:
			spans[len(spans)-1].To = cuts[i]
		default:
			spans = append(spans, Span{From: cuts[i-1], To: cuts[i]})
		}
	}
	if len(spans) == 0 && len(cuts) > 2 {
		spans = append(spans, Span{From: cuts[1], To: cuts[1]})
	}
	return spans
}
