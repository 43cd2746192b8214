package plan

import "slices"

// What is done of a link on site, each step with those before it: its cables lie, they are joined and plugged in at both
// ends, the link was tested.
const (
	Laid   = "laid"
	Joined = "joined"
	Tested = "tested"
)

// Steps lists the steps on site in their order.
func Steps() []string { return []string{Laid, Joined, Tested} }

// rank counts the steps up to one; 0 is nothing done.
func rank(step string) int { return slices.Index(Steps(), step) + 1 }

// upTo is the last of so many steps, blank for none.
func upTo(n int) string { return append([]string{""}, Steps()...)[n] }

// Is reports whether a step on site is done.
func (r Link) Is(step string) bool { return rank(step) > 0 && rank(r.Done) >= rank(step) }

// MarkDone says that a step of a link is done on site, and with it those before it; or that it is not, and with it those
// after it. The link is then as it lies now, wherever it was moved before. One without cable has nothing that could be laid.
func (e *Edit) MarkDone(id LinkID, step string, done bool) error {
	link, _ := e.next.Link(id)
	if rank(step) == 0 {
		return refuse("a link is laid, joined or tested, not %q", step)
	}
	if done {
		return e.SetDone(id, upTo(max(rank(link.Done), rank(step))))
	}
	return e.SetDone(id, upTo(min(rank(link.Done), rank(step)-1)))
}

// SetDone says which step of a link is the last that is done on site, blank for none.
func (e *Edit) SetDone(id LinkID, last string) error {
	link, found := e.next.Link(id)
	switch {
	case !found:
		return refuse("there is no such link any more")
	case last != "" && rank(last) == 0:
		return refuse("a link is laid, joined or tested, not %q", last)
	case last != "" && len(e.next.SegmentsOf(id)) == 0:
		return refuse("%s has no cable in the plan yet: lay its cable there first, then say that it is %s", link.Name, last)
	}
	link.Done, link.Moved = last, false
	Put(e, link)
	return nil
}

// settleDone takes back what this edit makes untrue of work on site, unless the edit itself says what is done:
//   - another cable, cables in another order, another device at an end: nothing is done, for that cable does not lie yet;
//   - a cable taken off, another coupler, panel or port, another kind of device: the link is laid;
//   - another transport, a cable found suspect or faulty: it is joined;
//   - a way or an end that lies otherwise: all stays done, and the link is marked as moved since.
func (e *Edit) settleDone() {
	var settled []Link
	for link := range e.next.Links.All() {
		if link.Done == "" && !link.Moved {
			continue
		}
		old, stood := e.base.Link(link.ID)
		if !stood {
			continue
		}
		now := link
		if link.Done == old.Done && !e.said[link.ID] && e.touches(link.ID, old, link) {
			now.Done = upTo(min(rank(link.Done), e.stillDone(old, link)))
			now.Moved = link.Moved || e.liesOtherwise(old, link)
		}
		now.Moved = now.Moved && now.Done != ""
		if now != link {
			settled = append(settled, now)
		}
	}
	for _, link := range settled {
		Put(e, link)
	}
}

// touches reports whether an edit may have changed anything that a link's work on site hangs on.
func (e *Edit) touches(id LinkID, old, link Link) bool {
	base, next := e.base, &e.next
	return old != link || next.Devices != base.Devices || next.Reels != base.Reels || next.HouseLines != base.HouseLines ||
		!slices.Equal(base.SegmentsOf(id), next.SegmentsOf(id)) || !slices.Equal(base.PointsOf(id), next.PointsOf(id))
}

// stillDone counts the steps that stay true of a link.
func (e *Edit) stillDone(old, link Link) int {
	was, now := e.base.hookupOf(old), e.next.hookupOf(link)
	kept := max(e.keeps(was, now), e.keeps(was, now.turned()))
	if kept > rank(Joined) && (old.Transport != link.Transport || e.foundBad(now.cables)) {
		return rank(Joined)
	}
	return kept
}

// foundBad reports whether one of the cables was good before this edit, or less bad.
func (e *Edit) foundBad(cables []Segment) bool {
	for _, cable := range cables {
		is, was := e.next.ConditionOf(cable), e.base.ConditionOf(cable)
		if is == Faulty && was != Faulty || is == Suspect && was != Suspect && was != Faulty {
			return true
		}
	}
	return false
}

// hookup is how a link is cabled, from its near end on.
type hookup struct {
	ends     [2]plug
	cables   []Segment    // only what names the cable
	couplers []HardwareID // before each cable but the first
}

// plug is one end of a link.
type plug struct {
	device DeviceID
	kind   KindID
	port   string
	panel  HardwareID
	lead   CableKindID
	length float64
}

func (p *Plan) hookupOf(link Link) hookup {
	from, _ := p.Device(link.From)
	to, _ := p.Device(link.To)
	h := hookup{ends: [2]plug{
		{link.From, from.Kind, link.FromPort, link.FromPanel, link.FromLeadKind, link.FromLead},
		{link.To, to.Kind, link.ToPort, link.ToPanel, link.ToLeadKind, link.ToLead},
	}}
	for i, segment := range p.SegmentsOf(link.ID) {
		h.cables = append(h.cables, Segment{Reel: segment.Reel, HouseLine: segment.HouseLine, Kind: segment.Kind, Length: segment.Length})
		if i > 0 {
			h.couplers = append(h.couplers, segment.Coupler)
		}
	}
	return h
}

// turned is the same cabling seen from the other end.
func (h hookup) turned() hookup {
	t := hookup{ends: [2]plug{h.ends[1], h.ends[0]}, cables: slices.Clone(h.cables), couplers: slices.Clone(h.couplers)}
	slices.Reverse(t.cables)
	slices.Reverse(t.couplers)
	return t
}

// keeps counts the steps that stay true when one cabling becomes another.
func (e *Edit) keeps(was, now hookup) int {
	switch {
	case was.ends[0].device != now.ends[0].device || was.ends[1].device != now.ends[1].device:
		return 0
	case !slices.EqualFunc(was.cables, now.cables, e.sameCable):
		if len(now.cables) > 0 && e.leftOf(was.cables, now.cables) {
			return rank(Laid)
		}
		return 0
	case was.ends != now.ends || !slices.Equal(was.couplers, now.couplers):
		return rank(Laid)
	}
	return rank(Tested)
}

// leftOf reports whether all these cables lay there before, in this order.
func (e *Edit) leftOf(was, now []Segment) bool {
	i := 0
	for _, cable := range was {
		if i < len(now) && e.sameCable(cable, now[i]) {
			i++
		}
	}
	return i == len(now)
}

// sameCable reports whether two segments are made of one cable; one of several equal ones that gets a row of its own in this
// edit stays what it is.
func (e *Edit) sameCable(was, now Segment) bool {
	if was == now || was.Reel == "" || now.Reel == "" {
		return was == now
	}
	heap, _ := e.base.Reels.Get(Key(was.Reel))
	own, _ := e.next.Reels.Get(Key(now.Reel))
	return heap.Count() > 1 && !e.base.Reels.Has(Key(now.Reel)) && own.Kind == heap.Kind && own.Length == heap.Length
}
