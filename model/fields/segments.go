package fields

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/catalogue"
	"stageloom/model/plan"
	"stageloom/model/standards"
	"stageloom/model/words"
)

func segmentFields() []*Field {
	d := definer{plan.SegmentsTable}
	return []*Field{
		d.field("reel", "reel", "Reel or house line", "tag of the reel; another free one's tag takes its place, blank leaves kind and length alone.").
			among(of(cablesInPlace)).saying(of(sayCable)).
			valued(of(func(_ State, r plan.Segment) string { return string(r.Reel) + string(r.HouseLine) })).by(putCable).alone().explaining(liesElsewhere),
		d.field("kind", "kind", "Kind", "what cable it is; that of a reel or a house line is theirs.").among(of(segmentKinds)).saying(of(saySegmentKind)).when(of(isByLength)).by(putSegmentKind),
		d.field("length", "length_m", "Length", "for instance 45 m or 148 ft; that of a reel or a house line is theirs.").
			saying(of(saySegmentLength)).sortedBy(of(segmentLength)).when(of(isByLength)).by(putSegmentLength),
		d.field("coupler", "coupler", "Coupler before it", "what joins it to the cable before; blank is the plan's.").among(of(couplers)).by(putCoupler),
		d.field("kept", "kept", "Stays when picking", "yes: a pick leaves it where it is."),
	}
}

// made returns what a cable of a link is made of: its kind and its length.
func made(p *plan.Plan, segment plan.Segment) (kind plan.CableKindID, length float64) {
	if reel, found := p.Reels.Get(plan.Key(segment.Reel)); found {
		return reel.Kind, reel.Length
	}
	if line, found := p.HouseLines.Get(plan.Key(segment.HouseLine)); found {
		return line.Kind, line.Length
	}
	return segment.Kind, segment.Length
}

func sayCable(s State, segment plan.Segment) string {
	switch {
	case segment.Reel != "":
		return words.Row(s.Plan, plan.Ref{Table: plan.ReelsTable, Key: plan.Key(segment.Reel)}, s.Units)
	case segment.HouseLine != "":
		return words.Row(s.Plan, plan.Ref{Table: plan.HouseLinesTable, Key: plan.Key(segment.HouseLine)}, s.Units)
	}
	return ""
}

// liesElsewhere says of a reel that is not offered why not.
func liesElsewhere(s State, _ any, typed string) error {
	for reel := range s.Plan.Reels.All() {
		name := words.Row(s.Plan, plan.RefOf(reel), s.Units)
		switch {
		case !strings.EqualFold(name, typed):
		case reel.Condition == plan.Faulty:
			return fmt.Errorf("%s is faulty", name)
		case reel.There() == 0:
			return fmt.Errorf("%s %s", name, reel.AwayWords())
		case s.Plan.UsedReels()[reel.ID] >= reel.There():
			return fmt.Errorf("%s lies in another link already", name)
		}
	}
	return nil
}

// cablesInPlace are the reels and house lines that can lie in a cable's place: its own, and those that are free and carry
// what the link carries.
func cablesInPlace(s State, segment plan.Segment) []Option {
	link, _ := s.Plan.Link(segment.Link)
	transport, _ := standards.TransportBySlug(standards.TransportSlug(link.Transport))
	fits := func(id plan.CableKindID) bool {
		kind, _ := s.Plan.CableKinds.Get(plan.Key(id))
		return budget.Fits(kind, transport.Media)
	}
	said := func(ref plan.Ref, kind plan.CableKindID, length float64) Option {
		name := words.Row(s.Plan, ref, s.Units)
		return Option{string(ref.Key), name + aside + s.Units.Piece(length) + " of " + words.Row(s.Plan, plan.Ref{Table: plan.CableKindsTable, Key: plan.Key(kind)}, s.Units)}
	}
	var options []Option
	used, lines := s.Plan.UsedReels(), s.Plan.UsedHouseLines()
	for reel := range s.Plan.Reels.All() {
		if reel.ID == segment.Reel || used[reel.ID] < reel.There() && fits(reel.Kind) && reel.Condition != plan.Faulty {
			options = append(options, said(plan.RefOf(reel), reel.Kind, reel.Length))
		}
	}
	for line := range s.Plan.HouseLines.All() {
		if line.ID == segment.HouseLine || !lines[line.ID] && fits(line.Kind) && line.Condition != plan.Faulty {
			options = append(options, said(plan.RefOf(line), line.Kind, line.Length))
		}
	}
	slices.SortStableFunc(options, func(a, b Option) int { return words.Natural(a.Words, b.Words) })
	apart(options)
	return slices.Insert(options, 0, Option{"", "none: kind and length alone"})
}

// putCable lays another reel in a cable's place, or leaves its kind and length alone.
func putCable(s State, e *plan.Edit, key plan.Key, value string) error {
	segment, _ := e.Now().Segments.Get(key)
	if value == "" {
		kind, length := made(e.Now(), segment)
		return e.ReplaceSegment(segment.Link, segment.Order, plan.Segment{Kind: kind, Length: length})
	}
	if line, found := e.Now().HouseLines.Get(plan.Key(value)); found {
		if e.Now().UsedHouseLines()[line.ID] {
			return fmt.Errorf("%s lies in another link already", line.Name)
		}
		return e.ReplaceSegment(segment.Link, segment.Order, plan.Segment{HouseLine: line.ID})
	}
	reel, found := e.Now().Reels.Get(plan.Key(value))
	if !found {
		return errors.New("this reel is not in the stock any more")
	}
	if segment.Reel != reel.ID && reel.There() == 0 {
		return fmt.Errorf("%s %s", words.Row(e.Now(), plan.RefOf(reel), s.Units), reel.AwayWords())
	}
	if used := e.Now().UsedReels()[reel.ID]; segment.Reel != reel.ID && used >= reel.There() {
		return fmt.Errorf("%s lies in another link already", words.Row(e.Now(), plan.RefOf(reel), s.Units))
	}
	return e.ReplaceSegment(segment.Link, segment.Order, plan.Segment{Reel: reel.ID})
}

func saySegmentKind(s State, segment plan.Segment) string {
	id, _ := made(s.Plan, segment)
	return words.Row(s.Plan, plan.Ref{Table: plan.CableKindsTable, Key: plan.Key(id)}, s.Units)
}

func segmentKinds(s State, segment plan.Segment) []Option {
	link, _ := s.Plan.Link(segment.Link)
	link.FillKind, _ = made(s.Plan, segment)
	return fittingKinds("")(s, link)[1:]
}

func saySegmentLength(s State, segment plan.Segment) string {
	_, length := made(s.Plan, segment)
	return s.Units.Piece(length)
}

func segmentLength(s State, segment plan.Segment) float64 {
	_, length := made(s.Plan, segment)
	return length
}

func isByLength(_ State, segment plan.Segment) bool {
	return segment.Reel == "" && segment.HouseLine == ""
}

// byLength finds a cable that is given by kind and length alone; what a reel or a house line is changes there.
func byLength(e *plan.Edit, key plan.Key) (plan.Segment, error) {
	segment, _ := e.Now().Segments.Get(key)
	switch {
	case segment.Reel != "":
		return segment, errors.New("it is a reel of the stock: change it there, or take another one here")
	case segment.HouseLine != "":
		return segment, errors.New("it is a house line: change it there")
	}
	return segment, nil
}

func putSegmentKind(_ State, e *plan.Edit, key plan.Key, value string) error {
	segment, err := byLength(e, key)
	if err != nil {
		return err
	}
	segment.Kind = plan.CableKindID(value)
	return catalogue.ReplaceCable(e, segment.Link, segment.Order, segment)
}

func putSegmentLength(s State, e *plan.Edit, key plan.Key, value string) error {
	segment, err := byLength(e, key)
	if err != nil {
		return err
	}
	length, err := Of(plan.SegmentsTable, "length").figure(s, value)
	if err != nil {
		return err
	}
	if length < 0.1 {
		return fmt.Errorf("a cable is %s long at least", s.Units.Metres(0.1))
	}
	segment.Length = length
	return e.ReplaceSegment(segment.Link, segment.Order, segment)
}

func putCoupler(_ State, e *plan.Edit, key plan.Key, value string) error {
	segment, _ := e.Now().Segments.Get(key)
	return e.SetCoupler(segment.Link, segment.Order, plan.HardwareID(value))
}
