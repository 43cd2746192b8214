package plan

import (
	"cmp"
	"slices"
)

// The roles of a link. A spare is a run that is laid and tested and plugged in nowhere: it names the ports that it stands
// ready for, occupies none and carries nothing until it takes over.
const (
	Main   = "main"
	Backup = "backup"
	Spare  = "spare"
)

// IsSpare reports whether a link is a laid spare.
func (r Link) IsSpare() bool { return r.Role == Spare }

// AddSpare adds a laid spare beside a link: between its devices, ready for its ports, with its transport and its way, and
// without cable yet.
func (e *Edit) AddSpare(beside LinkID) (LinkID, error) {
	link, found := e.next.Link(beside)
	if !found {
		return "", refuse("there is no such link any more")
	}
	points := slices.Clone(e.next.PointsOf(beside))
	link.Name, link.Partner, link.Role, link.Note, link.Loom, link.PowerW = "", "", Spare, "", "", 0
	id := e.AddLink(link)
	e.SetPoints(id, points)
	return id, nil
}

// MakeSpare makes a link a laid spare, whose ports are free for others; its partner is set free, and what was patched
// through it goes.
func (e *Edit) MakeSpare(id LinkID) error {
	e.Unpair(id)
	dropWhere(e, func(r SlotPatch) bool { return r.Link == id })
	return Update(e, Key(id), func(r *Link) { r.Role = Spare })
}

// SparesFor lists the laid spares with cable that could take over a link: of a spare each end lies at the device of an end of
// the link, or at another of the same position. Those that name the link stand first.
func (p *Plan) SparesFor(id LinkID) (spares []Link) {
	link, found := p.Link(id)
	if !found || link.IsSpare() {
		return nil
	}
	for spare := range p.Links.All() {
		if spare.IsSpare() && len(p.SegmentsOf(spare.ID)) > 0 && p.CanTakeOver(link, spare) {
			spares = append(spares, spare)
		}
	}
	slices.SortStableFunc(spares, func(a, b Link) int { return cmp.Compare(a.meant(id), b.meant(id)) })
	return spares
}

// meant is 0 for a spare that names this link, 1 for one that names none, 2 for one that names another.
func (r Link) meant(id LinkID) int {
	switch r.StandsFor {
	case id:
		return 0
	case "":
		return 1
	}
	return 2
}

// endsAlike reports whether two links lie between the same places.
func (p *Plan) endsAlike(a, b Link) bool { return p.beside(a.From, b.From) && p.beside(a.To, b.To) }

// beside reports whether two devices are one, or members of one position.
func (p *Plan) beside(a, b DeviceID) bool {
	one, _ := p.Device(a)
	other, _ := p.Device(b)
	return a == b || one.Position != "" && one.Position == other.Position
}

// StandsInFor lists the links that a laid spare stands in for: the one it names, else those of its transport between its
// ends, or between their positions.
func (p *Plan) StandsInFor(spare Link) (links []Link) {
	if link, named := p.Link(spare.StandsFor); named {
		return []Link{link}
	}
	for link := range p.Links.All() {
		if !link.IsSpare() && link.Transport == spare.Transport && p.CanTakeOver(link, spare) {
			links = append(links, link)
		}
	}
	return links
}

// CanTakeOver reports whether a laid spare lies between the ends of a link, either way round, or between their positions.
func (p *Plan) CanTakeOver(link, spare Link) bool {
	return p.endsAlike(link, spare) || p.endsAlike(link, spare.turned())
}

// StandIn names the link that a laid spare stands in for; none is any of its transport between its ends.
func (e *Edit) StandIn(spare, link LinkID) error {
	row, found := e.next.Link(spare)
	target, there := e.next.Link(link)
	switch {
	case !found || link != "" && !there:
		return refuse("there is no such link any more")
	case link != "" && !row.IsSpare():
		return refuse("%s is no laid spare: it stands in for nothing", row.Name)
	case link != "" && target.IsSpare():
		return refuse("%s is a laid spare itself: name the link that carries the show", target.Name)
	}
	return Update(e, row.Key(), func(r *Link) { r.StandsFor = link })
}

// TakenOver is a link as it would lie once a laid spare took it over, with the spare's cables and way points from the link's
// near end on; false where the spare lies elsewhere.
func (p *Plan) TakenOver(link, spare Link) (Link, []Segment, []LinkPoint, bool) {
	segments, points := slices.Clone(p.SegmentsOf(spare.ID)), slices.Clone(p.PointsOf(spare.ID))
	if !p.endsAlike(link, spare) {
		spare, segments = spare.turned(), reversedSegments(segments)
		slices.Reverse(points)
	}
	for i := range segments {
		segments[i].Link, segments[i].Order = link.ID, i+1
	}
	for i := range points {
		points[i].Link, points[i].Order = link.ID, i+1
	}
	return link.lyingAs(spare), segments, points, p.endsAlike(link, spare)
}

// TakeOver lets a laid spare take the place of a dead link in one step: the link, with its name, ports, pair and patch, goes
// on over the spare's cables, along its way; the dead cables become the spare, marked by what was found: the one cable
// faulty, of several each suspect unless one is known to be bad. What was laid of the spare is laid: it is to be plugged in
// and tested.
func (e *Edit) TakeOver(dead, spare LinkID, found Mark) error {
	a, b, err := e.sideBySide(dead, spare)
	if err != nil {
		return err
	}
	if err := e.markDead(dead, found); err != nil {
		return err
	}
	e.swapCables(a, b)
	return nil
}

// TurnBack undoes a take-over after other work in one step: the link goes on over the cables that lie as the spare, and those
// that it lies on become the spare again. Marks stay on the cables that bear them; both are to be plugged and tested anew.
func (e *Edit) TurnBack(link, spare LinkID) error {
	a, b, err := e.sideBySide(link, spare)
	if err == nil {
		e.swapCables(a, b)
	}
	return err
}

// sideBySide are a link and a laid spare that could change places, the spare laid round the same way as the link.
func (e *Edit) sideBySide(link, spare LinkID) (a, b Link, err error) {
	a, there := e.next.Link(link)
	b, ready := e.next.Link(spare)
	switch {
	case !there || !ready:
		return a, b, refuse("there is no such link any more")
	case !b.IsSpare() || a.IsSpare():
		return a, b, refuse("%s is no laid spare that could take over %s", b.Name, a.Name)
	case len(e.next.SegmentsOf(spare)) == 0:
		return a, b, refuse("%s has no cable in the plan: nothing could take over", b.Name)
	case e.next.endsAlike(a, b):
		return a, b, nil
	case !e.next.CanTakeOver(a, b):
		return a, b, refuse("%s does not lie between the ends of %s", b.Name, a.Name)
	}
	if err := e.Reverse(spare); err != nil {
		return a, b, err
	}
	b, _ = e.next.Link(spare)
	return a, b, nil
}

// markDead marks the cables of a link that carries nothing any more.
func (e *Edit) markDead(dead LinkID, found Mark) error {
	chain := e.next.SegmentsOf(dead)
	for _, segment := range chain {
		if condition := e.next.ConditionOf(segment); condition == Faulty || condition == Suspect {
			return nil
		}
	}
	found.Condition = Suspect
	if len(chain) == 1 {
		found.Condition = Faulty
	}
	for i := range chain {
		if chain[i].Kind != "" {
			continue
		}
		if _, err := e.MarkSegment(dead, i+1, found); err != nil {
			return err
		}
	}
	return nil
}

// swapCables gives each of two links what lies of the other: cables, way, and how it was laid.
func (e *Edit) swapCables(a, b Link) {
	cables := [2][]Segment{slices.Clone(e.next.SegmentsOf(a.ID)), slices.Clone(e.next.SegmentsOf(b.ID))}
	points := [2][]LinkPoint{slices.Clone(e.next.PointsOf(a.ID)), slices.Clone(e.next.PointsOf(b.ID))}
	e.SetSegments(a.ID, cables[1])
	e.SetSegments(b.ID, cables[0])
	e.SetPoints(a.ID, points[1])
	e.SetPoints(b.ID, points[0])
	if e.said == nil {
		e.said = map[LinkID]bool{}
	}
	e.said[a.ID], e.said[b.ID] = true, true
	Put(e, a.lyingAs(b))
	Put(e, b.lyingAs(a))
}

// lyingAs is a link that lies as another does, unplugged.
func (r Link) lyingAs(other Link) Link {
	r.Way, r.RiseFrom, r.RiseTo, r.SlackPercent, r.SlackEnd = other.Way, other.RiseFrom, other.RiseTo, other.SlackPercent, other.SlackEnd
	r.TypedWay, r.TypedBy, r.Doubtful = other.TypedWay, other.TypedBy, other.Doubtful
	r.Temperature, r.FillKind, r.Loom, r.Colour, r.LayPhase, r.DrumEnd = other.Temperature, other.FillKind, other.Loom, other.Colour, other.LayPhase, other.DrumEnd
	r.Done, r.Moved = upTo(min(rank(other.Done), rank(Laid))), other.Moved && other.Done != ""
	return r
}
