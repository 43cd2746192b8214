package stock

import (
	"slices"

	"fyne.io/fyne/v2"

	"stageloom/model/house"
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
	if s.lent(row) {
		items = append(items, each("Ask the house again", s.askAgain), each("As the house says", s.asTheHouseSays))
	}
	return append(items,
		each("Edit…", func(id plan.ReelID) { s.EditReel(s.OfPlan(), id) }),
		each("Mark faulty…", s.MarkFaulty),
		each("Take out of the stock", s.RemoveReel),
	)
}

// lent reports whether one of a line's reels is the house's.
func (s *Dialogs) lent(row text.StockRow) bool {
	return slices.ContainsFunc(row.Reels, func(id plan.ReelID) bool {
		reel, _ := s.Desk().Plan().Reels.Get(plan.Key(id))
		return reel.Taking != ""
	})
}

// askAgain lets the plan ask the house anew for a reel that it received, or did not let the show have.
func (s *Dialogs) askAgain(id plan.ReelID) {
	s.onLent(id, "Ask the house again for ", "The house is asked again for it when the plan is saved.", house.AskAgain)
}

// asTheHouseSays takes over into the plan what the house says of a reel.
func (s *Dialogs) asTheHouseSays(id plan.ReelID) {
	inHouse := s.readHouse()
	s.onLent(id, "As the house says: ", "It is as the house says now.", inHouse.TakeOver)
}

func (s *Dialogs) onLent(id plan.ReelID, name, told string, do func(*plan.Edit, ...plan.ReelID) error) {
	p := s.Desk().Plan()
	reel, _ := p.Reels.Get(plan.Key(id))
	if reel.Taking == "" {
		s.Say(text.ReelWords(p, reel, s.Units()) + " is not the house's.")
		return
	}
	if err := s.Desk().Do(name+text.ReelWords(p, reel, s.Units()), func(e *plan.Edit) error { return do(e, id) }); err != nil {
		s.Refused(err)
		return
	}
	s.Say(told)
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
