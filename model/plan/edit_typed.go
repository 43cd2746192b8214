package plan

import "stageloom/model/geom"

// Who gave a typed length.
const (
	Paced = "paced"
	Taped = "taped"
	Venue = "venue"
)

// TypeWay says how long the way of a link is and who says so, blank for nobody in particular; it stands for way and factor
// and is beyond doubt until an end moves. 0 takes it back.
func (e *Edit) TypeWay(id LinkID, metres float64, by string) error {
	return Update(e, Key(id), func(r *Link) { r.SetTyped(metres, by) })
}

// SetTyped is TypeWay on a row.
func (r *Link) SetTyped(metres float64, by string) {
	r.TypedWay, r.TypedBy, r.Doubtful = metres, by, false
	if geom.RoundMM(metres) == 0 {
		r.TypedWay, r.TypedBy = 0, ""
	}
}

// settleTyped doubts the typed length of links of which this edit moved an end, unless it was typed or confirmed in this
// very edit; and forgets who gave a length that is gone.
func (e *Edit) settleTyped() {
	if e.next.Links == e.base.Links && e.next.Devices == e.base.Devices && e.next.Positions == e.base.Positions {
		return
	}
	var settled []Link
	for link := range e.next.Links.All() {
		if link.TypedWay == 0 && e.next.Links == e.base.Links {
			continue
		}
		if now := e.typedNow(link); now != link {
			settled = append(settled, now)
		}
	}
	for _, link := range settled {
		Put(e, link)
	}
}

// typedNow is a link with what holds of its typed length after this edit.
func (e *Edit) typedNow(link Link) Link {
	old, stood := e.base.Link(link.ID)
	untouched := old.TypedWay == link.TypedWay && old.TypedBy == link.TypedBy && old.Doubtful == link.Doubtful
	switch {
	case link.TypedWay == 0 && stood && old.TypedWay != 0:
		link.SetTyped(0, "")
	case link.TypedWay > 0 && stood && untouched:
		link.Doubtful = link.Doubtful || e.endMoved(old, link)
	}
	return link
}

// endMoved reports whether an end of a link stands otherwise against the other than before, or is another device. One that had
// no place gets its first, and one that is taken off the plan hasn't moved on the ground.
func (e *Edit) endMoved(old, link Link) bool {
	if old.From == link.To && old.To == link.From {
		old.From, old.To = old.To, old.From
	}
	if old.From != link.From || old.To != link.To {
		return true
	}
	wasFrom, wasTo := e.base.stands(old.From), e.base.stands(old.To)
	from, to := e.next.stands(link.From), e.next.stands(link.To)
	if wasFrom.unplaced || wasTo.unplaced || from.unplaced || to.unplaced {
		return false
	}
	return wasFrom.level != from.level || wasTo.level != to.level || wasTo.at.Sub(wasFrom.at).Distance(to.at.Sub(from.at)) > unmoved
}

// standing is where a device stands; its level is its position's where it has none.
type standing struct {
	at       geom.Point
	level    LevelID
	unplaced bool
}

func (p *Plan) stands(id DeviceID) standing {
	device, _ := p.Device(id)
	s := standing{device.At(), device.Level, device.Unplaced}
	if s.level == "" && device.Position != "" {
		position, _ := p.Positions.Get(Key(device.Position))
		s.level = position.Level
	}
	return s
}
