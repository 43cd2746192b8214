package stock

import (
	"fyne.io/fyne/v2"

	"stageloom/model/plan"
	"stageloom/ui/text"
)

// ReelItems are what can be done to a line of the stock list. A line of several reels has each of them below its verbs.
func (s *Dialogs) ReelItems(row text.StockRow) []*fyne.MenuItem {
	p := s.Desk().Plan()
	each := func(label string, do func(plan.ReelID)) *fyne.MenuItem {
		item := fyne.NewMenuItem(label, func() { do(row.Reels[0]) })
		if len(row.Reels) > 1 {
			item.ChildMenu = fyne.NewMenu("")
			for _, id := range row.Reels {
				reel, _ := p.Reels.Get(plan.Key(id))
				item.ChildMenu.Items = append(item.ChildMenu.Items, fyne.NewMenuItem(text.ReelWords(p, reel, s.Units()), func() { do(id) }))
			}
		}
		return item
	}
	lay := fyne.NewMenuItem("Lay on the selected link", func() {
		if offer, free := row.Offer(); free {
			s.Lay(offer)
		}
	})
	lay.Disabled = row.Free == ""
	items := []*fyne.MenuItem{lay}
	if len(row.Reels) > 1 && row.Free != "" {
		items = append(items, each("Lay this one", func(id plan.ReelID) { s.Lay(text.CableOffer{Reel: id, Kind: row.Kind, Length: row.Length}) }))
	}
	return append(items,
		each("Edit…", func(id plan.ReelID) { s.EditReel(s.OfPlan(), id) }),
		each("Mark faulty…", s.MarkFaulty),
		each("Take out of the stock", s.RemoveReel),
	)
}

// RemoveReel takes a reel out of the plan's stock; links made of it keep its kind and length.
func (s *Dialogs) RemoveReel(id plan.ReelID) {
	reel, _ := s.Desk().Plan().Reels.Get(plan.Key(id))
	words := text.ReelWords(s.Desk().Plan(), reel, s.Units())
	used := s.Desk().Plan().UsedReels()[id]
	if err := s.Desk().Do("Take "+words+" out of the stock", func(e *plan.Edit) error { return e.RemoveReel(id) }); err != nil {
		s.Refused(err)
		return
	}
	said := "Took " + words + " out of the stock."
	if used > 0 {
		said += " Links made of it keep its kind and length."
	}
	if reel.Taking != "" {
		said += " The house has it back once the plan is saved."
	}
	s.Say(said + " Ctrl Z brings it back.")
}
