package sources

import (
	"stageloom/model/catalogue"
	"stageloom/model/plan"
)

// usualKind is the kind that most cables of a plan are, else the first of the catalogue.
func usualKind(p *plan.Plan) plan.CableKindID {
	counts := map[plan.CableKindID]int{}
	for reel := range p.Reels.All() {
		counts[reel.Kind] += reel.Count()
	}
	for segment := range p.Segments.All() {
		if segment.Kind != "" {
			counts[segment.Kind]++
		}
	}
	usual := catalogue.CableKinds()[0].ID
	most := 0
	for kind := range p.CableKinds.All() {
		if counts[kind.ID] > most {
			usual, most = kind.ID, counts[kind.ID]
		}
	}
	return usual
}
