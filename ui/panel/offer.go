package panel

import "stageloom/model/plan"

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
