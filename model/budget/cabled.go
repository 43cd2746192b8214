package budget

import "stageloom/model/plan"

// Cabled reckons a link as it would stand with these cables in the place of its own, from its near end on. The link need
// not be in the plan yet; the reels, house lines and kinds that the segments name must be.
func (r *Reckoner) Cabled(link plan.Link, segments []plan.Segment) Budget {
	b := r.reckon(&link, r.end(link.From), r.end(link.To), segments, r.plan.PointsOf(link.ID), &chain{reckoner: r})
	r.complete(&b, &link, r.once())
	return b
}
