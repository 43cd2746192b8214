package catalogue

import (
	"cmp"

	"stageloom/model/plan"
)

// InsertCable lays a cable in a place of a link's chain, counted from 0. A kind of the catalogue comes into the plan
// with it, and a link without a wanted kind wants this one from then on, so that what is still missing is graded.
func InsertCable(e *plan.Edit, link plan.LinkID, place int, cable plan.Segment) error {
	if err := ready(e, link, cable); err != nil {
		return err
	}
	return e.InsertSegment(link, place, cable)
}

// ReplaceCable puts another cable where that of an order lies, with the coupler before it; else it is InsertCable.
func ReplaceCable(e *plan.Edit, link plan.LinkID, order int, cable plan.Segment) error {
	if err := ready(e, link, cable); err != nil {
		return err
	}
	return e.ReplaceSegment(link, order, cable)
}

// ready brings the cable's kind into the plan and makes it the wanted one of a link that wants none.
func ready(e *plan.Edit, link plan.LinkID, cable plan.Segment) error {
	if cable.Kind != "" {
		if err := UseCable(e, cable.Kind); err != nil && !e.Now().CableKinds.Has(plan.Key(cable.Kind)) {
			return err
		}
	}
	kind := cable.Kind
	if reel, found := e.Now().Reels.Get(plan.Key(cable.Reel)); found {
		kind = reel.Kind
	}
	if line, found := e.Now().HouseLines.Get(plan.Key(cable.HouseLine)); found {
		kind = line.Kind
	}
	return plan.Update(e, plan.Key(link), func(r *plan.Link) { r.FillKind = cmp.Or(r.FillKind, kind) })
}
