package laying

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/cabling"
	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// OfferReplacements lists what can replace the cable chosen in the strip now, or else the link's first: free reels and those of less
// important links, each with the margin it gives.
func (l *Dialogs) OfferReplacements() {
	links := l.Desk().SelectedLinks()
	if len(links) != 1 || len(l.Desk().Plan().SegmentsOf(links[0])) == 0 {
		l.Say("Select one link that has a cable: its cable chosen in the run strip, or its first, is then replaced.")
		return
	}
	order := max(1, l.Strip.Chosen())
	l.offerSpares(links[0], order, cabling.Replacements(l.Desk().Plan(), links[0], order, false))
}

func (l *Dialogs) offerSpares(id plan.LinkID, order int, candidates []cabling.Candidate) {
	p := l.Desk().Plan()
	link, _ := p.Link(id)
	name := cabling.Words(p, p.SegmentsOf(id)[order-1:order])
	if len(candidates) == 0 {
		l.Say(fmt.Sprintf("Nothing in the stock, and nothing on a less important link, can take the place of %s on %s: its ends must fit, and it must reach inside the limit. Pick cables tells what to hire in.", name, link.Name))
		return
	}
	var d *dialogs.Dialog
	chosen := 0
	lay := func() {
		d.Hide()
		candidate := candidates[chosen]
		l.Do("Replace "+name+" on "+link.Name, candidate.Edit)
	}
	list := dialogs.NewPickList(l,
		func() int { return len(candidates) },
		func(i int) (words, note string, usable bool) {
			spare := text.SpareOf(p, candidates[i])
			return spare.Name, spare.Gives, true
		},
		func(i int) { chosen = i },
	)
	told := widget.NewLabel("The best come first: with the wanted margin, free in the stock, then from the least important link.")
	told.Wrapping = fyne.TextWrapWord
	d = dialogs.New(l, fmt.Sprintf("Instead of %s on %s", name, link.Name), container.NewBorder(told, nil, nil, nil, list))
	take := dialogs.NewAnswer(l, "Replace", lay)
	take.Importance = widget.HighImportance
	d.SetButtons([]fyne.CanvasObject{dialogs.NewAnswer(l, "Cancel", d.Hide), take})
	d.Fit(dialogs.FormWidth, 460)
	l.Keys().Escapable(d.Hide)
	d.Show()
	list.Select(0)
	dialogs.Focus(l, list)
}
