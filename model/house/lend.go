package house

import (
	"fmt"
	"strings"

	"stageloom/model/plan"
)

// Want is how many of a row of the house's stock a show takes.
type Want struct {
	Reel     plan.ReelID
	Quantity int
}

// Loan is what was lent: the taking, the rows of the house's stock it is of, and the stock they stand in.
type Loan struct {
	Takings []Taking
	from    *plan.Plan
}

// Take lends rows of the house's stock to a show on a day, all of them or none. What is faulty stays in the house.
func (l Library) Take(wants []Want, show, day string) (Loan, error) {
	loan := Loan{}
	err := l.changeStock(func(s *Stock, ids *plan.IDSource) error {
		loan.Takings = nil
		for _, want := range wants {
			reel, found := s.Plan.Reels.Get(plan.Key(want.Reel))
			switch {
			case !found:
				return fmt.Errorf("%w: a reel that you want is in the house's stock no more", plan.ErrRefused)
			case reel.Condition == plan.Faulty:
				return fmt.Errorf("%w: %s is faulty", plan.ErrRefused, named(s.Plan, reel))
			case want.Quantity < 1 || want.Quantity > s.Left(reel):
				return fmt.Errorf("%w: of %s there are %d left in the house, not %d", plan.ErrRefused, named(s.Plan, reel), s.Left(reel), want.Quantity)
			}
			taking := Taking{Reel: reel.ID, Quantity: want.Quantity, Show: show, Day: day}
			taking.ID = ids.Next("t", func(id string) bool { return s.taking(id) >= 0 })
			s.Takings = append(s.Takings, taking)
			loan.Takings = append(loan.Takings, taking)
		}
		loan.from = s.Plan
		return nil
	})
	return loan, err
}

// Put copies what was lent into a plan under new ids, with its kinds and cases.
func (n Loan) Put(e *plan.Edit) error {
	for _, taking := range n.Takings {
		reel, found := n.from.Reels.Get(plan.Key(taking.Reel))
		if !found {
			return fmt.Errorf("%w: the house's stock holds no such reel", plan.ErrRefused)
		}
		reel.Quantity, reel.Taking = taking.Quantity, taking.ID
		if reel.Owner == "" {
			reel.Owner = "house"
		}
		copyReel(e, n.from, reel)
	}
	return nil
}

// Undo gives a loan back as a whole, for when the plan could not take it.
func (n Loan) Undo(l Library) error {
	return l.changeStock(func(s *Stock, _ *plan.IDSource) error {
		for _, taking := range n.Takings {
			s.giveBack(taking.ID, taking.Quantity)
		}
		return nil
	})
}

// giveBack lessens a taking and drops it when nothing is left of it; it returns how many were out.
func (s *Stock) giveBack(id string, quantity int) int {
	at := s.taking(id)
	if at < 0 {
		return 0
	}
	out := s.Takings[at].Quantity
	s.Takings[at].Quantity -= min(quantity, out)
	if s.Takings[at].Quantity == 0 {
		s.Takings = append(s.Takings[:at], s.Takings[at+1:]...)
	}
	return out
}

// Return is a row of a plan that goes back to the house, or some of it.
type Return struct {
	Reel     plan.Reel
	Quantity int
}

// GiveBack takes rows of a plan back into the house, with what the show found out about them: condition, reason, measured
// loss. Rows that the house did not lend, or has back already, change nothing there; their number is returned.
func (l Library) GiveBack(returns []Return) (strange int, err error) {
	err = l.changeStock(func(s *Stock, ids *plan.IDSource) error {
		strange = 0
		for _, back := range returns {
			at := s.taking(back.Reel.Taking)
			if at < 0 {
				strange++
				continue
			}
			taking := s.Takings[at]
			quantity := min(back.Quantity, taking.Quantity)
			s.giveBack(taking.ID, quantity)
			next, err := plan.Do(s.Plan, ids, func(e *plan.Edit) error { return learn(e, taking.Reel, back.Reel, quantity) })
			if err != nil {
				return err
			}
			s.Plan = next
		}
		return nil
	})
	return strange, err
}

// learn writes what a show found out into the house's row; of several equal ones those that came back so become a row of
// their own.
func learn(e *plan.Edit, id plan.ReelID, back plan.Reel, quantity int) error {
	row, found := e.Now().Reels.Get(plan.Key(id))
	if !found || sameState(row, back) {
		return nil
	}
	if row.Count() > quantity {
		part, err := e.SplitReel(id, quantity)
		if err != nil {
			return err
		}
		id = part
	}
	return plan.Update(e, plan.Key(id), func(r *plan.Reel) {
		r.Condition, r.Reason, r.FoundAt, r.FoundOn, r.Measured = back.Condition, back.Reason, back.FoundAt, back.FoundOn, back.Measured
		if r.Tag == "" && r.Count() == 1 {
			r.Tag = back.Tag
		}
	})
}

func sameState(a, b plan.Reel) bool {
	good := func(condition string) string { return strings.Replace(condition, plan.Good, "", 1) }
	return good(a.Condition) == good(b.Condition) && a.Reason == b.Reason && a.FoundAt == b.FoundAt && a.FoundOn == b.FoundOn && a.Measured == b.Measured
}

// TakeOut takes rows that were given back out of the plan. Links made of them keep kind and length.
func TakeOut(e *plan.Edit, returns []Return) error {
	for _, back := range returns {
		row, found := e.Now().Reels.Get(plan.Key(back.Reel.ID))
		if !found {
			continue
		}
		if back.Quantity >= row.Count() {
			if err := e.RemoveReel(row.ID); err != nil {
				return err
			}
			continue
		}
		part, err := e.SplitReel(row.ID, back.Quantity)
		if err != nil {
			return err
		}
		plan.Drop[plan.Reel](e, plan.Key(part))
	}
	return nil
}

// CallBack gives back what is out by takings whose plan is lost, whole.
func (l Library) CallBack(takings ...string) error {
	return l.changeStock(func(s *Stock, _ *plan.IDSource) error {
		for _, id := range takings {
			s.giveBack(id, plan.MaxRows)
		}
		return nil
	})
}

// Adopt makes rows of a plan part of the house's stock, out with the plan's show from then on; it returns each row's taking.
func (l Library) Adopt(p *plan.Plan, reels []plan.ReelID, day string) (map[plan.ReelID]string, error) {
	taken := map[plan.ReelID]string{}
	err := l.changeStock(func(s *Stock, ids *plan.IDSource) error {
		clear(taken)
		next, err := plan.Do(s.Plan, ids, func(e *plan.Edit) error {
			for _, id := range reels {
				reel, found := p.Reels.Get(plan.Key(id))
				if !found || reel.Taking != "" && s.taking(reel.Taking) >= 0 {
					continue // the house has it
				}
				row := reel
				row.Taking = ""
				taking := Taking{Reel: copyReel(e, p, row), Quantity: reel.Count(), Show: p.Settings.Name, Day: day}
				taking.ID = ids.Next("t", func(id string) bool { return s.taking(id) >= 0 })
				s.Takings = append(s.Takings, taking)
				taken[id] = taking.ID
			}
			return nil
		})
		if err == nil {
			s.Plan = next
		}
		return err
	})
	return taken, err
}

// Bind notes in the plan by which takings the house lends rows that it adopted.
func Bind(e *plan.Edit, taken map[plan.ReelID]string) error {
	for id, taking := range taken {
		if err := plan.Update(e, plan.Key(id), func(r *plan.Reel) { r.Taking = taking }); err != nil {
			return err
		}
	}
	return nil
}

// copyReel copies a reel of another plan under a new id, with its kind and its case.
func copyReel(e *plan.Edit, from *plan.Plan, reel plan.Reel) plan.ReelID {
	reel.Kind = copyKind(e, from, reel.Kind)
	reel.Case = copyCase(e, from, reel.Case)
	return e.AddReel(reel)
}

// copyKind copies a kind of cable where it is not there yet. Another kind of the same slug keeps it, and this one gets one
// of its own.
func copyKind(e *plan.Edit, from *plan.Plan, id plan.CableKindID) plan.CableKindID {
	kind, found := from.CableKinds.Get(plan.Key(id))
	if !found {
		return id
	}
	stem := kind.ID
	for n := 2; ; n++ {
		there, taken := e.Now().CableKinds.Get(kind.Key())
		if !taken {
			break
		}
		if sameKind(there, kind, stem) {
			return kind.ID
		}
		kind.ID = plan.CableKindID(fmt.Sprintf("%s-%d", stem, n))
	}
	plan.Put(e, kind)
	return kind.ID
}

func sameKind(there, kind plan.CableKind, stem plan.CableKindID) bool {
	kind.ID, there.ID = stem, stem
	kind.Note, there.Note = "", ""
	return there == kind
}

// copyCase finds the case of the same name, or makes it.
func copyCase(e *plan.Edit, from *plan.Plan, id plan.CaseID) plan.CaseID {
	box, found := from.Cases.Get(plan.Key(id))
	if !found {
		return ""
	}
	for there := range e.Now().Cases.All() {
		if strings.EqualFold(there.Name, box.Name) {
			return there.ID
		}
	}
	return e.AddCase(plan.Case{Name: box.Name, Note: box.Note})
}
