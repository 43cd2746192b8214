package budget

import (
	"cmp"
	"slices"

	"stageloom/model/plan"
)

// Cure is one change to a link and how it would stand then.
type Cure struct {
	// Order is the segment to change; 0 is the kind wanted for the missing metres.
	Order int
	// Kind replaces the segment's cable by one of equal length; blank where the coupler before it is changed.
	Kind plan.CableKindID
	// Length is that of the cable in metres, or how much is missing; 0 where the coupler is changed.
	Length float64
	// Coupler replaces the coupler before the segment; blank where the cable is changed.
	Coupler plan.HardwareID
	// Another replaces a reel or house line measured far worse than its kind by a sound cable of that kind; Share is the
	// measured loss over the kind's.
	Another  bool
	Share    float64
	MarginDB float64
	Grade    Grade
}

// WornShare is from which share of its kind's loss on a measured cable is on its way to faulty. Judgement.
const WornShare = 1.3

// Cures returns the single changes that would leave the link with the wanted margin in hand, or where none does, those
// that would leave it inside its limit. A sound cable in the place of a worn one goes before changing a coupler, that
// before changing a cable, then more margin before less.
// It looks at the kinds that the plan holds. A link that has its wanted margin needs none.
func (r *Reckoner) Cures(link plan.Link) []Cure {
	now := r.Of(link)
	if !now.HasMargin() || now.MarginDB >= now.WantedDB {
		return nil
	}
	t := r.trialOf(link)
	tries := append(append(t.worn(&now), t.couplers()...), t.cables(&now)...)
	for _, least := range []float64{now.WantedDB, 0} {
		if good := slices.DeleteFunc(slices.Clone(tries), func(c Cure) bool { return c.MarginDB < least }); len(good) > 0 {
			slices.SortStableFunc(good, func(a, b Cure) int {
				return cmp.Or(compareTrue(a.Another, b.Another), compareTrue(a.Coupler != "", b.Coupler != ""), cmp.Compare(b.MarginDB, a.MarginDB))
			})
			return good
		}
	}
	return nil
}

// compareTrue puts what is true first.
func compareTrue(a, b bool) int {
	switch {
	case a && !b:
		return -1
	case b && !a:
		return 1
	}
	return 0
}

// trial reckons one link over and over, with one thing changed.
type trial struct {
	reckoner *Reckoner
	link     plan.Link
	from, to end
	segments []plan.Segment
	points   []plan.LinkPoint
	chain    chain
	changed  []plan.Segment
	others   ownBudgets
}

func (r *Reckoner) trialOf(link plan.Link) *trial {
	return &trial{
		reckoner: r, link: link, from: r.end(link.From), to: r.end(link.To), chain: chain{reckoner: r},
		segments: r.plan.SegmentsOf(link.ID), points: r.plan.PointsOf(link.ID), others: r.once(),
	}
}

// with reckons a cure with one segment changed.
func (t *trial) with(c Cure, at int, segment plan.Segment) Cure {
	t.changed = append(t.changed[:0], t.segments...)
	t.changed[at] = segment
	return t.reckon(c, &t.link, t.changed)
}

func (t *trial) reckon(c Cure, link *plan.Link, segments []plan.Segment) Cure {
	t.chain.parts = t.chain.parts[:0]
	b := t.reckoner.reckon(link, t.from, t.to, segments, t.points, &t.chain)
	t.reckoner.complete(&b, link, t.others)
	c.MarginDB, c.Grade = b.MarginDB, b.Grade
	return c
}

// worn tries a sound cable of the same kind in the place of each that was measured far worse.
func (t *trial) worn(now *Budget) (cures []Cure) {
	for i := range now.Parts {
		part := &now.Parts[i]
		if part.What != Cable || part.Reel == "" && part.HouseLine == "" {
			continue
		}
		reel, _ := t.reckoner.plan.Reels.Get(plan.Key(part.Reel))
		line, _ := t.reckoner.plan.HouseLines.Get(plan.Key(part.HouseLine))
		share := t.reckoner.Share(part.Kind, part.Length, max(reel.Measured.Value, line.Measured.Value))
		if share <= WornShare {
			continue
		}
		segment := t.segments[part.Order-1]
		segment.Reel, segment.HouseLine, segment.Kind, segment.Length = "", "", part.Kind, part.Length
		cures = append(cures, t.with(Cure{Order: part.Order, Kind: part.Kind, Length: part.Length, Another: true, Share: share}, part.Order-1, segment))
	}
	return cures
}

// couplers tries the best hardware for each coupler that is poorer.
func (t *trial) couplers() (cures []Cure) {
	m := t.reckoner.transportOf(t.link.Transport).medium
	best := &m.hardware[len(m.hardware)-1]
	for i := 1; i < len(t.segments); i++ {
		segment := t.segments[i]
		now := m.coupler
		if segment.Coupler != "" {
			now = m.hardwareOf(segment.Coupler)
		}
		if now.DB > best.DB {
			segment.Coupler = best.ID
			cures = append(cures, t.with(Cure{Order: segment.Order, Coupler: best.ID}, i, segment))
		}
	}
	return cures
}

// cables tries each kind that could replace a cable that loses more, and the wanted kind.
func (t *trial) cables(now *Budget) (cures []Cure) {
	for i := range now.Parts {
		part := &now.Parts[i]
		if part.What != Cable {
			continue
		}
		was, _ := t.reckoner.plan.CableKinds.Get(plan.Key(part.Kind))
		for kind := range t.reckoner.plan.CableKinds.All() {
			if !t.reckoner.betters(&kind, &was) {
				continue
			}
			if part.Assumed {
				other := t.link
				other.FillKind = kind.ID
				cures = append(cures, t.reckon(Cure{Kind: kind.ID, Length: part.Length}, &other, t.segments))
				continue
			}
			segment := plan.Segment{Link: t.link.ID, Order: part.Order, Kind: kind.ID, Length: part.Length, Coupler: t.segments[part.Order-1].Coupler}
			cures = append(cures, t.with(Cure{Order: part.Order, Kind: kind.ID, Length: part.Length}, part.Order-1, segment))
		}
	}
	return cures
}

// betters reports whether one kind loses less than another and can take its place: portable, as well screened, with the
// same plugs at both ends.
func (r *Reckoner) betters(kind, was *plan.CableKind) bool {
	better, worse := r.kindOf(kind.ID), r.kindOf(was.ID)
	return better.Known && better.medium == worse.medium && better.db() < worse.db() && kind.Form != "tail" && !kind.Solid &&
		(kind.Screened || !was.Screened) && (kind.Pairs >= was.Pairs || kind.Pairs == 0) &&
		kind.Connector == was.Connector && kind.Lockable == was.Lockable && kind.NearEnd == was.NearEnd && kind.FarEnd == was.FarEnd
}
