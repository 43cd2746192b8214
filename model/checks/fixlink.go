package checks

import (
	"fmt"
	"math"
	"slices"

	"stageloom/model/budget"
	"stageloom/model/plan"
)

// mostFixes is how many fixes of one sort are proposed.
const mostFixes = 2

// betterParts proposes the changes of one coupler, of the wanted kind, or of a cable given by kind and length, that leave
// the wanted margin. A reel or a house line is a thing that lies there: picking finds another, no fix does.
func betterParts(s *Subject, f Finding) (fixes []Fix) {
	link, found := s.linkOf(f)
	if !found {
		return nil
	}
	segments := s.Plan.SegmentsOf(link.ID)
	for _, cure := range s.Reckoner.Cures(link) {
		if cure.Grade != budget.Enough && cure.Grade != budget.Ample || len(fixes) == mostFixes {
			continue
		}
		kind, _ := s.Plan.CableKinds.Get(plan.Key(cure.Kind))
		switch {
		case cure.Coupler != "":
			fixes = append(fixes, Fix{
				Label: fmt.Sprintf("Use a coupler of %s before cable %d", s.Reckoner.HardwareName(cure.Coupler), cure.Order),
				Edit:  func(e *plan.Edit) error { return e.SetCoupler(link.ID, cure.Order, cure.Coupler) },
			})
		case cure.Order == 0:
			fixes = append(fixes, s.wantKind(link, kind))
		case byLength(segments[cure.Order-1]):
			segment := segments[cure.Order-1]
			fixes = append(fixes, Fix{
				Label: fmt.Sprintf("Plan cable %d as %s of %s", cure.Order, cableLength(cure.Length), kind.Name),
				Edit: func(e *plan.Edit) error {
					return plan.Update(e, segment.Key(), func(r *plan.Segment) { r.Kind = cure.Kind })
				},
			})
		}
	}
	return fixes
}

// byLength reports whether a segment is planned by kind and length and may be changed.
func byLength(segment plan.Segment) bool {
	return segment.Reel == "" && segment.HouseLine == "" && !segment.Kept
}

// wantKind proposes a kind for what a link still lacks.
func (s *Subject) wantKind(link plan.Link, kind plan.CableKind) Fix {
	missing := "metres"
	if b := s.Reckoner.Of(link); b.Missing > 0 {
		missing = cableLength(b.Printed(1).Missing)
	}
	fix := linkFix(link, fmt.Sprintf("Want %s for the missing %s", kind.Name, missing), func(r *plan.Link) { r.FillKind = kind.ID })
	fix.all = fmt.Sprintf("Want %s for the missing metres", kind.Name)
	return fix
}

// longer proposes one more cable of the wanted kind, in whole metres, or to plan the last cable longer.
func longer(s *Subject, f Finding) (fixes []Fix) {
	link, found := s.linkOf(f)
	segments := s.Plan.SegmentsOf(link.ID)
	if !found || len(segments) == 0 {
		return nil
	}
	b := s.Reckoner.Of(link)
	missing := math.Ceil(b.Missing - 0.0005)
	last := segments[len(segments)-1]
	if byLength(last) {
		length := math.Ceil(last.Length + b.Missing - 0.0005)
		fixes = append(fixes, Fix{
			Label: fmt.Sprintf("Plan cable %d as %.0f m", last.Order, length),
			Edit: func(e *plan.Edit) error {
				return plan.Update(e, last.Key(), func(r *plan.Segment) { r.Length = length })
			},
		})
	}
	if kind, found := s.Plan.CableKinds.Get(plan.Key(b.Fill)); found {
		fixes = append(fixes, Fix{
			Label: fmt.Sprintf("Lay %.0f m of %s more", missing, kind.Name),
			Edit: func(e *plan.Edit) error {
				return e.InsertSegment(link.ID, len(segments), plan.Segment{Kind: kind.ID, Length: missing})
			},
		})
	}
	return fixes
}

// portsTransport proposes the transport that both ports are for.
func portsTransport(s *Subject, f Finding) []Fix {
	link, found := s.linkOf(f)
	from, to := s.end(link.From, link.FromPort).port, s.end(link.To, link.ToPort).port
	if !found || from.Transport == "" || from.Transport != to.Transport {
		return nil
	}
	return []Fix{linkFix(link, fmt.Sprintf("Make it %s, as both ports are", s.Reckoner.Transport(from.Transport).Name),
		func(r *plan.Link) { r.Transport = from.Transport })}
}

// otherWantedKind proposes another kind for the missing metres where it is the wanted kind that does not suit: those that
// suit the transport and go into both ports, the likest first.
func otherWantedKind(s *Subject, f Finding) (fixes []Fix) {
	link, found := s.linkOf(f)
	was, wants := s.Plan.CableKinds.Get(plan.Key(link.FillKind))
	if !found || !wants {
		return nil
	}
	transport := s.Reckoner.Transport(link.Transport)
	near, far := s.end(link.From, link.FromPort).port, s.end(link.To, link.ToPort).port
	var kinds []plan.CableKind
	for kind := range s.Plan.CableKinds.All() {
		if kind.ID != was.ID && budget.Suits(kind, *transport, near, far) {
			kinds = append(kinds, kind)
		}
	}
	slices.SortStableFunc(kinds, func(a, b plan.CableKind) int { return unlike(a, was) - unlike(b, was) })
	for _, kind := range kinds[:min(mostFixes, len(kinds))] {
		fixes = append(fixes, s.wantKind(link, kind))
	}
	return fixes
}

// unlike counts in what two kinds differ.
func unlike(a, b plan.CableKind) (points int) {
	for _, differs := range []bool{
		a.Category != b.Category, a.Media != b.Media, a.Form != b.Form, a.NearEnd != b.NearEnd || a.FarEnd != b.FarEnd, a.Connector != b.Connector,
	} {
		if differs {
			points++
		}
	}
	return points
}

// tailLength is how long a tail is laid, in metres. Common practice, no source.
const tailLength = 2.0

// turnOrTail proposes to turn the cables round, and a tail between the socket and the device.
func turnOrTail(s *Subject, f Finding) []Fix {
	link, found := s.linkOf(f)
	segments := s.Plan.SegmentsOf(link.ID)
	if !found || len(segments) == 0 || len(f.Where) < 2 {
		return nil
	}
	label := "Turn the cable round"
	if len(segments) > 1 {
		label = "Turn the cables round"
	}
	fixes := []Fix{linkFix(link, label, func(r *plan.Link) {
		r.DrumEnd = map[string]string{"": "from", "to": "from"}[r.DrumEnd]
	})}
	fixes[0].all = "Turn the cables round"
	place, port := len(segments), s.end(link.To, link.ToPort).port
	if f.Where[1].Key == plan.Key(link.From) {
		place, port = 0, s.end(link.From, link.FromPort).port
	}
	device, _ := s.Plan.Devices.Get(f.Where[1].Key)
	tails := s.tails(link, port)
	for _, kind := range tails[:min(mostFixes, len(tails))] {
		fixes = append(fixes, Fix{
			Label: fmt.Sprintf("Add %.0f m of %s at %s", tailLength, kind.Name, device.Name),
			Edit: func(e *plan.Edit) error {
				return e.InsertSegment(link.ID, place, plan.Segment{Kind: kind.ID, Length: tailLength})
			},
		})
	}
	return fixes
}

// tails lists the tails with plugs at both ends that go into a port, those with a screen first.
func (s *Subject) tails(link plan.Link, port plan.KindPort) (tails []plan.CableKind) {
	media := s.Reckoner.Transport(link.Transport).Media
	for kind := range s.Plan.CableKinds.All() {
		plugs := kind.Form == "tail" && kind.NearEnd != "socket" && kind.FarEnd != "socket"
		switch {
		case !plugs || !budget.Fits(kind, media) || kind.Connector != port.Connector && port.Connector != "":
		case kind.Screened:
			tails = slices.Insert(tails, 0, kind)
		default:
			tails = append(tails, kind)
		}
	}
	return tails
}

// noPower proposes to carry no power where the transport never does.
func noPower(s *Subject, f Finding) []Fix {
	link, found := s.linkOf(f)
	if !found || s.Reckoner.Transport(link.Transport).PowerOverLink {
		return nil
	}
	return []Fix{linkFix(link, "Carry no power over it", func(r *plan.Link) { r.PowerW = 0 })}
}

// outOfLoom proposes to take the backup out of the loom that its main lies in.
func outOfLoom(s *Subject, f Finding) []Fix {
	link, found := s.linkOf(f)
	backup, paired := s.Plan.Link(link.Partner)
	if !found || !paired || backup.Loom == "" || backup.Loom != link.Loom {
		return nil
	}
	return []Fix{linkFix(backup, fmt.Sprintf("Take %s out of the loom", backup.Name), func(r *plan.Link) { r.Loom = "" })}
}
