package cabling

import (
	"cmp"
	"slices"

	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// survey is a plan read once for picking: the links to be picked for, and the stock they may have.
type survey struct {
	plan     *plan.Plan
	reckoner *budget.Reckoner
	request  Request
	kinds    map[plan.CableKindID]plan.CableKind
	runs     []*run
	lines    []line
	lineOf   map[lineKey]int
	ground   *ground
	joints   map[jointKey]int
	losses   map[lossKey][]int
	cases    map[plan.CaseID]int
	// lies are links on site whose cables stay as they lie.
	lies map[plan.LinkID]bool
	// wanting are links whose metres nobody gave: what somebody laid there stays.
	wanting map[plan.LinkID]bool
	// hiring takes measured reels for no better than their kind: what is hired more of them was not measured.
	hiring bool
	// tie are the looms and trunk pieces that are laid whole.
	tie tie
}

// lineKey tells equal reels: what is alike for the picker is one line of stock.
type lineKey struct {
	kind     plan.CableKindID
	length   float64
	measured plan.Optional
	suspect  bool
}

// line is equal reels with those of them that may be picked, a row's id as often as it has cables to give.
type line struct {
	lineKey
	free []plan.ReelID
	// all counts these cables wherever they lie, shelf those that are named before any is hired; sample is a segment made of one.
	all    int
	shelf  int
	sample plan.Segment
}

func keyOf(reel plan.Reel) lineKey {
	return lineKey{reel.Kind, reel.Length, reel.Measured, reel.Condition == plan.Suspect}
}

// newSurvey reads a plan for a request, whose links must be there, with looms and trunk pieces laid.
func newSurvey(p *plan.Plan, request Request, laid tie) *survey {
	s := &survey{
		tie:  laid,
		plan: p, reckoner: budget.NewReckoner(p), request: request, kinds: map[plan.CableKindID]plan.CableKind{},
		lineOf: map[lineKey]int{}, joints: map[jointKey]int{}, losses: map[lossKey][]int{}, cases: map[plan.CaseID]int{},
		lies: map[plan.LinkID]bool{}, wanting: map[plan.LinkID]bool{},
	}
	for kind := range p.CableKinds.All() {
		s.kinds[kind.ID] = kind
	}
	for _, link := range chosen(p, request.Links) {
		s.wanting[link.ID] = s.reckoner.Of(link).Measured.Wanting()
		s.runs = append(s.runs, s.newRun(link))
	}
	s.rests()
	if request.DifferentKinds {
		s.keepApart()
	}
	s.stock()
	s.leaveWhatLies()
	return s
}

// keepApart notes for each run the kinds of its partner that stay: they are not for this one.
func (s *survey) keepApart() {
	picked := map[plan.LinkID]bool{}
	for _, r := range s.runs {
		picked[r.link.ID] = true
	}
	for _, r := range s.runs {
		if reel, is := s.plan.Reels.Get(plan.Key(s.tie.reels[r.link.Partner])); is {
			r.apart = append(r.apart, reel.Kind)
		}
		for _, segment := range s.plan.SegmentsOf(r.link.Partner) {
			if !picked[r.link.Partner] || s.stays(segment) {
				r.apart = append(r.apart, s.kindOf(segment).ID)
			}
		}
	}
}

// chosen returns the links asked for, or all but spares that lie already, in the natural order of their names.
func chosen(p *plan.Plan, ids []plan.LinkID) []plan.Link {
	var links []plan.Link
	if ids == nil {
		links = slices.DeleteFunc(slices.Collect(p.Links.All()), func(link plan.Link) bool { return link.IsSpare() && link.Lies() })
	}
	for _, id := range ids {
		if link, found := p.Link(id); found && !slices.Contains(links, link) {
			links = append(links, link)
		}
	}
	slices.SortStableFunc(links, func(a, b plan.Link) int {
		return cmp.Or(words.Natural(a.Name, b.Name), cmp.Compare(a.ID, b.ID))
	})
	return links
}

// stock gathers the reels that may be picked: none that is faulty or not there, suspect ones when asked, and none that lies in
// a link outside the request or is kept where it is. Reels of a row that a link has come last, so that it can keep them.
func (s *survey) stock() {
	held := s.plan.UsedReels()
	for _, r := range s.runs {
		for _, segment := range r.loose {
			held[segment.Reel]--
		}
	}
	var reels []plan.Reel
	for reel := range s.plan.Reels.All() {
		if s.pickable(reel) {
			reels = append(reels, reel)
		}
	}
	slices.SortStableFunc(reels, func(a, b plan.Reel) int {
		return cmp.Or(cmp.Compare(btoi(s.request.Offered[a.ID]), btoi(s.request.Offered[b.ID])), byTag(a, b))
	})
	for _, reel := range reels {
		key := keyOf(reel)
		if _, found := s.lineOf[key]; !found {
			s.lineOf[key] = len(s.lines)
			s.lines = append(s.lines, line{lineKey: key, sample: plan.Segment{Reel: reel.ID}})
		}
		at := s.lineOf[key]
		if s.request.ForHire && s.request.Offered[reel.ID] {
			s.lines[at].shelf += reel.There()
			continue
		}
		s.lines[at].all += reel.There()
		for range reel.There() - held[reel.ID] {
			s.lines[at].free = append(s.lines[at].free, reel.ID)
		}
	}
	s.sortLines()
}

// byTag orders reels as a reader sorts their tags, those without one last.
func byTag(a, b plan.Reel) int {
	if untagged := cmp.Compare(btoi(a.Tag == ""), btoi(b.Tag == "")); untagged != 0 {
		return untagged
	}
	return cmp.Or(words.Natural(a.Tag, b.Tag), cmp.Compare(a.ID, b.ID))
}

func btoi(is bool) int {
	if is {
		return 1
	}
	return 0
}

// sortLines puts the lines in an order that the ids of reels do not decide, so that the same stock gives the same picks.
func (s *survey) sortLines() {
	slices.SortStableFunc(s.lines, func(a, b line) int {
		return cmp.Or(cmp.Compare(a.kind, b.kind), cmp.Compare(b.length, a.length), cmp.Compare(btoi(a.suspect), btoi(b.suspect)),
			cmp.Compare(btoi(a.measured.Set), btoi(b.measured.Set)), cmp.Compare(a.measured.Value, b.measured.Value))
	})
	for i := range s.lines {
		s.lineOf[s.lines[i].lineKey] = i
	}
}

// pickable reports whether the request lets reels of a row be picked singly.
func (s *survey) pickable(reel plan.Reel) bool { return reel.TiedInto == "" && s.allowed(reel) }

// allowed reports whether the request lets reels of a row be picked at all.
func (s *survey) allowed(reel plan.Reel) bool {
	return reel.There() > 0 && reel.Condition != plan.Faulty && (reel.Condition != plan.Suspect || s.request.Suspect) && !s.barred(reel.Kind) &&
		(!s.request.OfTheHouse || reel.Taking != "" || s.request.Offered[reel.ID])
}

// barred reports whether the request keeps a kind out for all links.
func (s *survey) barred(kind plan.CableKindID) bool {
	return slices.Contains(s.request.Barred, kind) || len(s.request.Wanted) > 0 && !slices.Contains(s.request.Wanted, kind)
}
