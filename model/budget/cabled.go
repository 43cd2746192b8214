package budget

import "stageloom/model/plan"

// Cabled reckons a link as it would stand with these cables in the place of its own, from its near end on. The link need
// not be in the plan yet; the reels, house lines and kinds that the segments name must be.
func (r *Reckoner) Cabled(link plan.Link, segments []plan.Segment) Budget {
	return r.CabledTogether([]plan.Link{link}, [][]plan.Segment{segments})[0]
}

// TakenOver reckons a link as it would stand once a laid spare took it over; false where the spare lies elsewhere.
func (r *Reckoner) TakenOver(link, spare plan.Link) (Budget, bool) {
	lying, segments, points, fits := r.plan.TakenOver(link, spare)
	if !fits {
		return Budget{}, false
	}
	b := r.reckon(&lying, r.end(link.From), r.end(link.To), segments, points, &chain{reckoner: r})
	r.complete(&b, &lying, r.once())
	return b, true
}

// CabledTogether is Cabled for several links at once: pieces of one electrical line are reckoned with each other's cables.
func (r *Reckoner) CabledTogether(links []plan.Link, segments [][]plan.Segment) []Budget {
	p := &pieces{budgets: make([]Budget, len(links)), link: func(i int) *plan.Link { return &links[i] }}
	for i := range links {
		link := &links[i]
		p.budgets[i] = r.reckon(link, r.end(link.From), r.end(link.To), segments[i], r.plan.PointsOf(link.ID), &chain{reckoner: r})
	}
	if r.passages.through != nil {
		p.others, p.place = r.once(), make(map[plan.LinkID]int, len(links))
		for i := range links {
			p.place[links[i].ID] = i
		}
		r.wholes(p)
	}
	return p.budgets
}
