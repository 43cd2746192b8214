package text

import (
	"stageloom/model/budget"
	"stageloom/model/catalogue"
	"stageloom/model/plan"
	"stageloom/model/standards"
	"stageloom/model/words"
)

// CableOffer is a cable that a list holds out to be laid: one of a reel row of the stock, or a kind at a length.
// Reel is blank for a cable given by kind alone; Length is in metres and 0 where the run itself is to say it.
type CableOffer struct {
	Reel   plan.ReelID
	Kind   plan.CableKindID
	Length float64
}

// Segment is the offer as a cable of a link.
func (o CableOffer) Segment() plan.Segment {
	if o.Reel != "" {
		return plan.Segment{Reel: o.Reel}
	}
	return plan.Segment{Kind: o.Kind, Length: o.Length}
}

// SegmentFor is an offer as a cable of a link. One by kind without a length takes that of the cable it replaces, whose
// order is given, or what is left to reach rounded up to a usual length.
func SegmentFor(p *plan.Plan, link plan.LinkID, offer CableOffer, replaces int) plan.Segment {
	segment := offer.Segment()
	if segment.Reel != "" || segment.Length > 0 {
		return segment
	}
	row, _ := p.Link(link)
	b := budget.Of(p, row)
	segment.Length = usualLength(max(b.Missing, usualLengths[0]))
	for _, part := range b.Parts {
		if part.What == budget.Cable && part.Order == replaces && replaces > 0 {
			segment.Length = part.Length
		}
	}
	return segment
}

// Unfit says why a cable does not fit a link; it is blank when it does.
func Unfit(p *plan.Plan, link plan.LinkID, cable plan.Segment) string {
	row, _ := p.Link(link)
	transport, err := standards.TransportBySlug(standards.TransportSlug(row.Transport))
	kind := kindOf(p, cable)
	if err == nil && kind.ID != "" && !budget.Fits(kind, transport.Media) {
		return kind.Name + " does not carry " + transport.Name + "."
	}
	return ""
}

// kindOf is the kind of a cable, of the plan or of the catalogue.
func kindOf(p *plan.Plan, cable plan.Segment) plan.CableKind {
	id := cable.Kind
	if reel, found := p.Reels.Get(plan.Key(cable.Reel)); found {
		id = reel.Kind
	}
	for _, kind := range catalogue.CableKindsFor(p) {
		if kind.ID == id {
			return kind
		}
	}
	return plan.CableKind{}
}

// OfferWords name an offer while it is carried: "X70-03 · 70 m", or kind and length.
func OfferWords(p *plan.Plan, offer CableOffer, units words.Units) string {
	if reel, found := p.Reels.Get(plan.Key(offer.Reel)); found {
		if reel.Tag != "" {
			return reel.Tag + " · " + units.Piece(reel.Length)
		}
		return kindOf(p, offer.Segment()).Name + " · " + units.Piece(reel.Length)
	}
	name := kindOf(p, offer.Segment()).Name
	if offer.Length > 0 {
		name += " · " + units.Piece(offer.Length)
	}
	return name
}
