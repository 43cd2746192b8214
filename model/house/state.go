package house

import (
	"fmt"

	"stageloom/model/plan"
)

// StateChange sets aside some of a row of the house's stock, or says that it is there again.
type StateChange struct {
	Reel plan.ReelID
	// Quantity is how many of the row.
	Quantity int
	// State is missing, in repair or written off as a plan's reel has it; blank is there again.
	State string
	// Why and By are for the history: what happened, and who says so. Both may be blank.
	Why, By string
}

// SetState sets cables in the house aside on a day, or has them there again; some of several equal ones become a row of their
// own, and are one row again when they are there again. Of what is tied into one piece all is set aside. What is with a show is
// not in the house: see [Library.Lost]. What was promised and is there no more is told to its plan when that is opened or saved.
func (l Library) SetState(day string, changes ...StateChange) error {
	return l.changeStock(func(s *Stock, ids *plan.IDSource) error {
		for _, change := range changes {
			if err := s.setStates(day, change, ids); err != nil {
				return err
			}
		}
		return nil
	})
}

// setStates changes the state of some of a row, and of all that it is tied to.
func (s *Stock) setStates(day string, change StateChange, ids *plan.IDSource) error {
	if change.State != "" && placeOf(change.State) == InHouse {
		return fmt.Errorf("%w: a cable can be missing, in repair or written off, not %s", plan.ErrRefused, plan.Clipped(change.State))
	}
	named := change.Reel
	for _, want := range wholePieces(s.Plan, []Want{{change.Reel, change.Quantity}}) {
		row, _ := s.Plan.Reels.Get(plan.Key(want.Reel))
		if want.Reel != named && row.State == change.State {
			continue
		}
		change.Reel, change.Quantity = want.Reel, want.Quantity
		if why := s.notHere(day, row, change); why != "" {
			return fmt.Errorf("%w: %s", plan.ErrRefused, why)
		}
		if err := s.setState(day, change, ids); err != nil {
			return err
		}
	}
	return nil
}

// notHere says why the state of some of a row is not changed; blank where it can be.
func (s *Stock) notHere(day string, row plan.Reel, change StateChange) string {
	here := row.Count()
	for _, out := range s.OutOn(day, row.ID) {
		here -= out.Quantity
	}
	switch {
	case row.ID == "":
		return "that reel is in the house's stock no more"
	case row.State == change.State && row.State == "":
		return tiedWords(s.Plan, row) + " is there already"
	case row.State == change.State:
		return tiedWords(s.Plan, row) + " is " + stateSince(row) + " already"
	case change.Quantity < 1 || change.Quantity > row.Count():
		return fmt.Sprintf("of %s there are %d, not %d", named(s.Plan, row), row.Count(), change.Quantity)
	case row.State == "" && change.Quantity > here && row.Count() == 1:
		return tiedWords(s.Plan, row) + " is with " + plan.Clipped(s.OutOn(day, row.ID)[0].Show.Name)
	case row.State == "" && change.Quantity > here:
		return fmt.Sprintf("of %s %d are in the house, not %d", named(s.Plan, row), here, change.Quantity)
	}
	return ""
}

// setState changes the state of some of a row, whatever is out of it.
func (s *Stock) setState(day string, change StateChange, ids *plan.IDSource) error {
	next, err := plan.Do(s.Plan, ids, func(e *plan.Edit) error {
		row, _ := e.Now().Reels.Get(plan.Key(change.Reel))
		id, err := e.SplitReel(change.Reel, change.Quantity)
		if err != nil {
			return err
		}
		work, since := stateWords(change.State), day
		if change.State == "" {
			work, since = "there again, "+stateSince(row), ""
		}
		if change.Why != "" {
			work += ": " + change.Why
		}
		note(e, id, day, work, change.By)
		if err := plan.Update(e, plan.Key(id), func(r *plan.Reel) { r.State, r.StateOn = change.State, since }); err != nil {
			return err
		}
		if change.State == "" {
			rejoin(e, id)
		}
		return nil
	})
	if err == nil {
		s.Plan = next
		s.shed(change.Reel)
	}
	return err
}

// rejoin makes a row without a tag one with its equals again, where there are any.
func rejoin(e *plan.Edit, id plan.ReelID) {
	row, _ := e.Now().Reels.Get(plan.Key(id))
	for other := range e.Now().Reels.All() {
		alike := other
		alike.ID, alike.Quantity = row.ID, row.Quantity
		if other.ID == id || row.Tag != "" || alike != row {
			continue
		}
		known := written(e.Now(), other.ID)
		for _, line := range e.Now().History(id) {
			if !known.has(line) {
				line.Reel = other.ID
				plan.Put(e, line)
			}
		}
		other.Quantity = other.Count() + row.Count()
		plan.Put(e, other)
		_ = e.RemoveReel(id) // it is there, with the lines that both have
		return
	}
}

// stateWords says a state of a reel; one without is there.
func stateWords(state string) string {
	if state == "" {
		return "there"
	}
	return string(placeOf(state))
}

// stateSince says a state with its day: missing since 2027-06-18.
func stateSince(row plan.Reel) string {
	if row.StateOn == "" {
		return stateWords(row.State)
	}
	return stateWords(row.State) + " since " + row.StateOn
}
