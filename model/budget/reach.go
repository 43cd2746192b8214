package budget

import (
	"stageloom/model/medium"
	"stageloom/model/plan"
)

// MostReachJoins is up to how many joins KindReaches looks.
const MostReachJoins = 2

// KindReach is how far one kind of cable carries on a link, by the number of joins.
type KindReach struct {
	Kind plan.CableKindID
	// Joins has the reach with no join, with one, and so on.
	Joins [MostReachJoins + 1]Reach
}

// KindReaches says how far each kind of the plan that suits a link, tails left out, would carry from end to end of it at
// its temperature, between its panels, with no join, with one and with two. It is empty where the transport carries no
// grade.
func (r *Reckoner) KindReaches(link plan.Link) (reaches []KindReach) {
	t := r.transportOf(link.Transport)
	if t.medium == nil {
		return nil
	}
	link.FillKind = ""
	for kind := range r.plan.CableKinds.All() {
		c := r.kindOf(kind.ID)
		if !c.knownIn(t.medium) || kind.Form == "tail" || !Fits(kind, t.row.Media) {
			continue
		}
		reach := KindReach{Kind: kind.ID}
		for joins := range reach.Joins {
			segments := make([]plan.Segment, joins+1)
			for i := range segments {
				segments[i] = plan.Segment{Link: link.ID, Order: i + 1, Kind: kind.ID, Length: 1}
			}
			b := r.Cabled(link, segments)
			metreDB := t.scale.dB(c.at(1, b.TemperatureC))
			reach.Joins[joins] = reachOf(kind.ID, &b, b.LossDB-float64(joins+1)*metreDB, metreDB)
		}
		reaches = append(reaches, reach)
	}
	return reaches
}

// reachOf says how far a kind carries under the limit of a link beside what its line loses anyway.
func reachOf(kind plan.CableKindID, b *Budget, fixedDB, metreDB float64) Reach {
	return Reach{kind, medium.Reach(b.LimitDB, fixedDB, metreDB), medium.Reach(b.LimitDB-b.WantedDB, fixedDB, metreDB)}
}
