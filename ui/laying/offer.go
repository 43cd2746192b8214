package laying

import (
	"fyne.io/fyne/v2"

	"stageloom/model/plan"
	"stageloom/ui/strip"
	"stageloom/ui/text"
)

// CarryCable shows a cable of a list under the pointer, at a place of the window: over the run strip where it would go
// in the selected link, over a link on the plan that it would be laid there last, and what the link would come to.
func (l *Dialogs) CarryCable(offer text.CableOffer, at fyne.Position) {
	text := text.OfferWords(l.Desk().Plan(), offer, l.Units())
	link, change, found := l.aimed(offer, at)
	words := ""
	if found {
		words = l.tryOffer(link, change)
	} else {
		l.Try(strip.Change{})
	}
	l.Strip.Tell(words)
	if words != "" {
		text += "   " + words
	}
	l.Sign.ShowAbove(text, at)
}

// DropCable lays what was carried; where it has no use it is given up, and the notice says why.
func (l *Dialogs) DropCable(offer text.CableOffer, at fyne.Position) {
	l.Sign.Hide()
	link, change, found := l.aimed(offer, at)
	l.Strip.Dropped()
	l.Try(strip.Change{})
	if !found {
		l.Say("Drop a cable on the run strip of the selected link, or on a link of the plan.")
		return
	}
	l.layOffer(link, change)
}

// LayOffered lays a cable of a list at the far end of the selected link.
func (l *Dialogs) LayOffered(offer text.CableOffer) {
	link, one := l.only()
	if !one {
		l.Say("Select one link to lay cable for it.")
		return
	}
	l.layOffer(link, l.atEnd(link, offer))
}

// atEnd is the change that lays a cable of a list at the far end of a link.
func (l *Dialogs) atEnd(link plan.LinkID, offer text.CableOffer) strip.Change {
	p := l.Desk().Plan()
	return strip.Change{Doing: strip.Insert, Place: len(p.SegmentsOf(link)), Cable: text.SegmentFor(p, link, offer, 0)}
}

func (l *Dialogs) layOffer(link plan.LinkID, change strip.Change) {
	if reason := text.Unfit(l.Desk().Plan(), link, change.Cable); reason != "" {
		l.Warn(reason)
		return
	}
	row, _ := l.Desk().Plan().Link(link)
	l.Do(change.Name()+" of "+row.Name, func(e *plan.Edit) error { return change.Make(e, link) })
	l.Desk().Select(plan.RefOf(row))
}

// tryOffer says what a link would come to with a cable, or why that does not fit.
func (l *Dialogs) tryOffer(link plan.LinkID, change strip.Change) string {
	if reason := text.Unfit(l.Desk().Plan(), link, change.Cable); reason != "" {
		l.Try(strip.Change{})
		return reason
	}
	return l.tryIn(link, change)
}

// aimed is what a cable of a list dropped at a place of the window would do, and to which link.
func (l *Dialogs) aimed(offer text.CableOffer, at fyne.Position) (plan.LinkID, strip.Change, bool) {
	selected, one := l.only()
	if change := l.Strip.Carry(at); change.Doing != strip.Nothing && one {
		change.Cable = text.SegmentFor(l.Desk().Plan(), selected, offer, change.Order)
		return selected, change, true
	}
	l.Strip.Dropped()
	if ref, found := l.Ground.RowAt(at); found && ref.Table == plan.LinksTable {
		link := plan.LinkID(ref.Key)
		return link, l.atEnd(link, offer), true
	}
	return "", strip.Change{}, false
}
