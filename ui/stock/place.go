package stock

import (
	"fmt"

	"stageloom/model/catalogue"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/text"
)

// Place is where a stock is kept: the plan in the window, or the house.
type Place struct {
	// name stands in titles: "this plan", "the house".
	name    string
	ofHouse bool
	now     func() *plan.Plan
	do      func(name string, edit func(*plan.Edit) error) error
	// changed is called after an edit.
	changed func()
}

// OfPlan is the stock of the plan in the window.
func (s *Dialogs) OfPlan() Place {
	return Place{name: "this plan", now: s.Desk().Plan, do: s.Desk().Do, changed: func() {}}
}

// OfHouse is the house's stock, read anew at each look; changed is called after an edit.
func (s *Dialogs) OfHouse(changed func()) Place {
	return Place{
		name: "the house", ofHouse: true,
		now: func() *plan.Plan { return s.readHouse().Plan },
		do: func(_ string, edit func(*plan.Edit) error) error {
			return changeNoted(s.Library(), edit)
		},
		changed: changed,
	}
}

// changeNoted changes the house's stock today, with what that says in the history of its rows.
func changeNoted(l house.Library, edit func(*plan.Edit) error) error {
	return l.ChangeStock(house.Noted(text.Today(), "", edit))
}

// readHouse reads the house's stock; where it cannot be read the notice says why, and it is empty.
func (s *Dialogs) readHouse() house.Stock {
	read, err := s.Library().Stock()
	if err != nil {
		s.Warn(words.Sentence(err))
	}
	return read
}

// useCable brings a kind of cable into the stock that a plan or the house holds.
func useCable(e *plan.Edit, id plan.CableKindID) error {
	if err := catalogue.UseCable(e, id); err != nil && !e.Now().CableKinds.Has(plan.Key(id)) {
		return fmt.Errorf("kind %q: %w", id, err)
	}
	return nil
}
