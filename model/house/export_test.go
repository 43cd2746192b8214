package house

import "stageloom/model/plan"

// Try changes a stock in memory as the library changes its file: all or nothing, and looked at as a whole.
func (s *Stock) Try(change func(*Stock) error) error {
	next := s.copied()
	if err := change(&next); err != nil {
		return err
	}
	if err := next.changedSince(s.Plan); err != nil {
		return err
	}
	*s = next
	return nil
}

// TryReceipt is Try with a receipt.
func (s *Stock) TryReceipt(change func(*Stock) error) (Receipt, error) {
	before := s.copied()
	err := s.Try(change)
	return Receipt{before: before, after: s.copied()}, err
}

// ReceiveRow is [Library.ReceiveRow] in memory.
func (s *Stock) ReceiveRow(day string, row plan.Reel, quantity int, as *plan.GivenBack, ids *plan.IDSource) error {
	_, err := s.receiveRow(day, row, quantity, as, ids)
	return err
}

// SetState is [Library.SetState] in memory.
func (s *Stock) SetState(day string, change StateChange, ids *plan.IDSource) error {
	return s.setStates(day, change, ids)
}

// Lose is [Library.Lost] in memory.
func (s *Stock) Lose(day string, lost Received, ids *plan.IDSource) error {
	_, err := s.lose(day, "", []Received{lost}, ids)
	return err
}

// Restore is [Library.Restore] in memory.
func (s *Stock) Restore(r Receipt) error { return s.restore(r) }

// Known reports whether there is anything in a receipt.
func (r Receipt) Known() bool { return r.after.Plan != nil }
