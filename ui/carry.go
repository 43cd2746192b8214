package ui

import (
	"fyne.io/fyne/v2"

	"stageloom/model/plan"
	"stageloom/ui/strip"
	"stageloom/ui/text"
)

// carryCable shows a cable of a list under the pointer, at a place of the window: over the run strip where it would go
// in the selected link, over a link on the plan that it would be laid there last, and what the link would come to.
func (w *window) carryCable(offer text.CableOffer, at fyne.Position) {
	text := text.OfferWords(w.desk.Plan(), offer, w.units())
	link, change, found := w.aimed(offer, at)
	words := ""
	if found {
		words = w.tryOffer(link, change)
	} else {
		w.try(strip.Change{})
	}
	w.strip.Tell(words)
	if words != "" {
		text += "   " + words
	}
	w.ghost.show(text, at.Subtract(fyne.NewPos(0, aboveHand))) // what it is aimed at stays in sight
}

// aboveHand is how far above the pointer a cable is carried.
const aboveHand = 30

// dropCable lays what was carried; where it has no use it is given up, and the notice says why.
func (w *window) dropCable(offer text.CableOffer, at fyne.Position) {
	w.ghost.hide()
	w.ghost.layer.Refresh()
	link, change, found := w.aimed(offer, at)
	w.strip.Dropped()
	w.try(strip.Change{})
	if !found {
		w.notice.Say("Drop a cable on the run strip of the selected link, or on a link of the plan.")
		return
	}
	w.layOffer(link, change)
}

// layCable lays a cable of a list at the far end of the selected link.
func (w *window) layCable(offer text.CableOffer) {
	links := w.selectedLinks()
	if len(links) != 1 {
		w.notice.Say("Select one link to lay cable for it.")
		return
	}
	change := strip.Change{Doing: strip.Insert, Place: len(w.desk.Plan().SegmentsOf(links[0]))}
	change.Cable = text.SegmentFor(w.desk.Plan(), links[0], offer, 0)
	w.layOffer(links[0], change)
}

func (w *window) layOffer(link plan.LinkID, change strip.Change) {
	if reason := text.Unfit(w.desk.Plan(), link, change.Cable); reason != "" {
		w.notice.Warn(reason)
		return
	}
	row, _ := w.desk.Plan().Link(link)
	w.do(change.Name()+" of "+row.Name, func(e *plan.Edit) error { return change.Make(e, link) })
	w.desk.Select(plan.RefOf(row))
}

// tryOffer says what a link would come to with a cable, or why that does not fit.
func (w *window) tryOffer(link plan.LinkID, change strip.Change) string {
	if reason := text.Unfit(w.desk.Plan(), link, change.Cable); reason != "" {
		w.try(strip.Change{})
		return reason
	}
	return w.tryIn(link, change)
}

// aimed is what a cable of a list dropped at a place of the window would do, and to which link.
func (w *window) aimed(offer text.CableOffer, at fyne.Position) (plan.LinkID, strip.Change, bool) {
	p, links := w.desk.Plan(), w.selectedLinks()
	if change := w.strip.Carry(at); change.Doing != strip.Nothing && len(links) == 1 {
		change.Cable = text.SegmentFor(p, links[0], offer, change.Order)
		return links[0], change, true
	}
	w.strip.Dropped()
	if ref, found := w.plan.RowAt(at); found && ref.Table == plan.LinksTable {
		link := plan.LinkID(ref.Key)
		change := strip.Change{Doing: strip.Insert, Place: len(p.SegmentsOf(link)), Cable: text.SegmentFor(p, link, offer, 0)}
		return link, change, true
	}
	return "", strip.Change{}, false
}
