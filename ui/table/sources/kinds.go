package sources

import (
	"stageloom/model/budget"
	"stageloom/model/catalogue"
	"stageloom/model/plan"
	"stageloom/model/standards"
	"stageloom/ui/table"
)

// fillKinds are all cable kinds of plan and catalogue by name.
func fillKinds(p *plan.Plan) *catalogued {
	kinds := &catalogued{}
	for _, kind := range catalogue.CableKindsFor(p) {
		kinds.add(kind.Name, string(kind.ID))
	}
	return kinds
}

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

// fitting are the names of the kinds that carry a link's transport; the blank one stands for none.
func fitting(p *plan.Plan, link plan.Link) []string {
	names := []string{""}
	transport, err := standards.TransportBySlug(standards.TransportSlug(link.Transport))
	if err != nil {
		return nil
	}
	for _, kind := range catalogue.CableKindsFor(p) {
		if budget.Fits(kind, transport.Media) {
			names = append(names, kind.Name)
		}
	}
	return names
}

// kindTyped finds a cable kind by what was typed and takes it into the plan.
func kindTyped(e *plan.Edit, kinds *catalogued, typed string, blank bool) (plan.CableKindID, error) {
	if typed == "" && blank {
		return "", nil
	}
	id, err := kinds.id(typed)
	if err != nil {
		return "", err
	}
	return plan.CableKindID(id), catalogue.UseCable(e, plan.CableKindID(id))
}

// isOfKind makes a row of another kind of cable; blank tells that it may be of none.
func isOfKind[R plan.Row](kinds *catalogued, blank bool, at func(*R) *plan.CableKindID) table.Setter {
	return func(e *plan.Edit, ref plan.Ref, typed string) error {
		id, err := kindTyped(e, kinds, typed, blank)
		if err != nil {
			return err
		}
		return plan.Update(e, ref.Key, func(row *R) { *at(row) = id })
	}
}
