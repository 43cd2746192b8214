package cabling

import (
	"slices"

	"stageloom/model/budget"
	"stageloom/model/plan"
)

// run is one link that cables are picked for.
type run struct {
	survey *survey
	link   plan.Link
	chain  []plan.Segment // as the plan has it
	kept   []plan.Segment // what stays, in its order: kept choices, house lines, what lies on site
	loose  []plan.Segment // what may change
	turned bool           // the drum ends of its cables lie near
	ports  [2]plan.KindPort
	// now is the link as it stands, fixed with its kept cables alone.
	now, fixed budget.Budget
	// need is what loose cables have to reach, in millimetres; 0 and less where the kept ones do.
	need int
	// limit and wanted are in thousandths of a dB; both 0 where the transport carries no grade.
	limit, wanted int
	// rest is what its line loses beside the links of the request, in thousandths of a dB.
	rest int
	most int // loose cables, by the joins allowed
	// sound tells that its kept cables carry what the run carries, with known loss.
	sound bool
	// apart are the kinds of its partner's cables, where they must differ.
	apart []plan.CableKindID
	// dearer is what plugs of each kind lose more in the passive devices at its two ends.
	dearer map[plan.CableKindID][2]int
}

// DefaultJoins is how many joins a link may have that says nothing itself: four cables.
const DefaultJoins = 3

func (s *survey) newRun(link plan.Link) *run {
	r := &run{survey: s, link: link, chain: s.plan.SegmentsOf(link.ID), turned: link.DrumEnd == "from"}
	for _, segment := range r.chain {
		if s.stays(segment) {
			r.kept = append(r.kept, segment)
		} else {
			r.loose = append(r.loose, segment)
		}
	}
	if reel, is := s.tie.reels[link.ID]; is {
		r.kept, r.loose = []plan.Segment{{Reel: reel}}, r.chain
	}
	r.ports = [2]plan.KindPort{s.port(link.From, link.FromPort), s.port(link.To, link.ToPort)}
	r.now = s.reckoner.Of(link)
	r.fixed = s.reckoner.Cabled(link, renumbered(r.kept))
	r.need = millimetres(r.fixed.Run) - unnoticed - millimetres(r.fixed.Laid)
	if len(r.kept) == 0 {
		r.need = max(1, r.need)
	}
	if r.fixed.Graded {
		r.limit, r.wanted = down(r.fixed.LimitDB), up(r.fixed.WantedDB)
	}
	r.sound = !slices.ContainsFunc(r.kept, func(kept plan.Segment) bool { return !r.carries(s.kindOf(kept)) }) &&
		!slices.ContainsFunc(r.fixed.Parts, func(part budget.Part) bool { return part.Unknown && !part.Assumed })
	joins := link.MaxJoins
	if joins == 0 {
		joins = s.request.MaxJoins
	}
	if joins == 0 {
		joins = DefaultJoins
	}
	r.most = max(0, joins+1-len(r.kept))
	return r
}

// stays reports whether a segment is no matter of picking: it is kept by choice, a house line, lies on site, or in a link
// whose metres nobody gave, and is neither faulty nor away.
func (s *survey) stays(segment plan.Segment) bool {
	if s.unfit(segment) {
		return false
	}
	return segment.HouseLine != "" || segment.Kept || s.lies[segment.Link] || s.wanting[segment.Link]
}

// unfit reports whether a cable must not lie where it does: it is faulty, or it is not there.
func (s *survey) unfit(segment plan.Segment) bool {
	return s.plan.ConditionOf(segment) == plan.Faulty || s.plan.Away(segment)
}

func (s *survey) port(id plan.DeviceID, name string) plan.KindPort {
	device, _ := s.plan.Device(id)
	port, _ := s.plan.KindPorts.Get(plan.PortKey(device.Kind, name))
	return port
}

// renumbered is a chain with its orders filled in and no coupler before its first cable.
func renumbered(chain []plan.Segment) []plan.Segment {
	numbered := make([]plan.Segment, len(chain))
	for i, segment := range chain {
		segment.Order = i + 1
		if i == 0 {
			segment.Coupler = ""
		}
		numbered[i] = segment
	}
	return numbered
}

// kindOf is the kind of a segment's cable.
func (s *survey) kindOf(segment plan.Segment) plan.CableKind {
	id := segment.Kind
	switch {
	case segment.Reel != "":
		reel, _ := s.plan.Reels.Get(plan.Key(segment.Reel))
		id = reel.Kind
	case segment.HouseLine != "":
		line, _ := s.plan.HouseLines.Get(plan.Key(segment.HouseLine))
		id = line.Kind
	}
	return s.kinds[id]
}

// lengthOf is the length of a segment's cable in metres.
func (s *survey) lengthOf(segment plan.Segment) float64 {
	switch {
	case segment.Reel != "":
		reel, _ := s.plan.Reels.Get(plan.Key(segment.Reel))
		return reel.Length
	case segment.HouseLine != "":
		line, _ := s.plan.HouseLines.Get(plan.Key(segment.HouseLine))
		return line.Length
	}
	return segment.Length
}
