package plan

import (
	"slices"

	"stageloom/model/geom"
)

// AddLink adds a link under a new id and returns it. A blank name becomes the next free number, a blank way
// straight; nothing of it is done on site.
func (e *Edit) AddLink(l Link) LinkID {
	l.ID = LinkID(newID[Link](e))
	l.Done, l.Moved = "", false
	if l.Name == "" {
		l.Name = e.next.FreeLinkName()
	}
	if l.Way == "" {
		l.Way = "straight"
	}
	Put(e, l)
	return l.ID
}

// AddLinkLike adds a link that has the way and the cables of another, these by kind and length: a reel lies in one link, and
// so does a house line, which is left out.
func (e *Edit) AddLinkLike(l Link, other LinkID) LinkID {
	points := slices.Clone(e.next.PointsOf(other))
	var segments []Segment
	for _, segment := range e.next.SegmentsOf(other) {
		if reel, found := e.next.Reels.Get(Key(segment.Reel)); found {
			segment.Reel, segment.Kind, segment.Length = "", reel.Kind, reel.Length
		}
		if segment.HouseLine == "" {
			segments = append(segments, segment)
		}
	}
	id := e.AddLink(l)
	e.SetPoints(id, points)
	e.SetSegments(id, segments)
	return id
}

// RemoveLinks removes links with their way points, segments and slots; a partner left behind stands alone, and
// a spare that one of them was named to stands ready for any.
func (e *Edit) RemoveLinks(ids ...LinkID) {
	for _, id := range ids {
		changeWhere(e, func(r Link) bool { return r.Partner == id }, func(r *Link) { r.Partner, r.Role = "", "" })
		changeWhere(e, func(r Link) bool { return r.StandsFor == id }, func(r *Link) { r.StandsFor = "" })
		replacePart(e, id, e.next.LinkPoints, nil, func(r *LinkPoint, _ int) {})
		replacePart(e, id, e.next.Segments, nil, func(r *Segment, _ int) {})
		dropWhere(e, func(r SlotPatch) bool { return r.Link == id })
		Drop[Link](e, Key(id))
	}
}

// Reverse swaps the ends of a link: way, segments, rises, panels and slots turn with it.
func (e *Edit) Reverse(id LinkID) error {
	points := slices.Clone(e.next.PointsOf(id))
	segments := slices.Clone(e.next.SegmentsOf(id))
	slices.Reverse(points)
	e.SetPoints(id, points)
	e.SetSegments(id, reversedSegments(segments))
	e.turnSlots(id)
	return Update(e, Key(id), func(r *Link) { *r = r.turned() })
}

// turned is a link with its ends swapped, and all that belongs to one of them.
func (r Link) turned() Link {
	r.From, r.To = r.To, r.From
	r.FromPort, r.ToPort = r.ToPort, r.FromPort
	r.RiseFrom, r.RiseTo = r.RiseTo, r.RiseFrom
	r.FromPanel, r.ToPanel = r.ToPanel, r.FromPanel
	r.FromLeadKind, r.ToLeadKind = r.ToLeadKind, r.FromLeadKind
	r.FromLead, r.ToLead = r.ToLead, r.FromLead
	r.DrumEnd = map[string]string{"from": "to", "to": "from"}[r.DrumEnd]
	return r
}

// turnSlots makes the slots of a link run as before after its ends are swapped: forward is return now.
func (e *Edit) turnSlots(id LinkID) {
	var rows []SlotPatch
	for row := range e.next.SlotPatches.All() {
		if row.Link == id {
			rows = append(rows, row)
		}
	}
	for _, row := range rows {
		Drop[SlotPatch](e, row.Key())
	}
	for _, row := range rows {
		row.Direction = map[string]string{"forward": "return", "return": "forward"}[row.Direction]
		Put(e, row)
	}
}

// reversedSegments turns a chain round: the coupler before a segment becomes the one behind it.
func reversedSegments(segments []Segment) []Segment {
	turned := slices.Clone(segments)
	slices.Reverse(turned)
	for i := range turned {
		turned[i].Coupler = ""
		if i > 0 {
			turned[i].Coupler = segments[len(segments)-i].Coupler
		}
	}
	return turned
}

// Pair makes two links main and backup of each other; partners they had are set free.
func (e *Edit) Pair(main, backup LinkID) error {
	if main == backup {
		return refuse("a link cannot be its own backup")
	}
	e.Unpair(main)
	e.Unpair(backup)
	if err := Update(e, Key(main), func(r *Link) { r.Partner, r.Role, r.StandsFor = backup, "main", "" }); err != nil {
		return err
	}
	return Update(e, Key(backup), func(r *Link) { r.Partner, r.Role, r.StandsFor = main, "backup", "" })
}

// Unpair sets a link and its partner free of each other.
func (e *Edit) Unpair(id LinkID) {
	changeWhere(e, func(r Link) bool { return r.Partner == id || (r.ID == id && r.Partner != "") },
		func(r *Link) { r.Partner, r.Role = "", "" })
}

// SetPoints replaces the way points of a link; orders and the link are filled in.
func (e *Edit) SetPoints(id LinkID, points []LinkPoint) {
	replacePart(e, id, e.next.LinkPoints, points, func(r *LinkPoint, order int) { r.Link, r.Order = id, order })
}

// Draw sets the way of a link through these points; no points make it straight again.
func (e *Edit) Draw(id LinkID, way []geom.Point) error {
	points := make([]LinkPoint, len(way))
	for i, at := range way {
		points[i] = LinkPoint{X: at.X, Y: at.Y}
	}
	e.SetPoints(id, points)
	return Update(e, Key(id), func(r *Link) {
		r.Way = "drawn"
		if len(way) == 0 {
			r.Way = "straight"
		}
	})
}

// SetSegments replaces the segments of a link; orders and the link are filled in.
func (e *Edit) SetSegments(id LinkID, segments []Segment) {
	replacePart(e, id, e.next.Segments, segments, func(r *Segment, order int) { r.Link, r.Order = id, order })
}

// replacePart replaces the parts of one parent by the given ones, numbered from 1.
func replacePart[R Row](e *Edit, parent LinkID, table *Table[R], parts []R, number func(*R, int)) {
	for _, old := range slices.Clone(table.Under(Key(parent))) {
		Drop[R](e, old.Key())
	}
	for i, row := range parts {
		number(&row, i+1)
		Put(e, row)
	}
}

// RemoveReel takes a reel out of the plan; segments made of it keep their kind and length.
func (e *Edit) RemoveReel(id ReelID) error {
	reel, found := e.next.Reels.Get(Key(id))
	if !found {
		return refuse("there is no such reel any more")
	}
	changeWhere(e, func(r Segment) bool { return r.Reel == id },
		func(r *Segment) { r.Reel, r.Kind, r.Length = "", reel.Kind, reel.Length })
	for line := range e.next.Services.All() {
		if line.Reel == id {
			Drop[Service](e, line.Key())
		}
	}
	Drop[Reel](e, Key(id))
	return nil
}
