package house

import (
	"fmt"
	"slices"

	"stageloom/model/plan"
)

// Received is what the house received of a taking, whatever its plan says.
type Received struct {
	Taking, Plan string
	Quantity     int
	// As is what it is like as it comes back, which the house learns; nil is as the house knows it. Its taking, reel, quantity and
	// day are not read.
	As *plan.GivenBack
}

// Came is what the house received, or what was lost, of one show.
type Came struct {
	Reel     plan.Reel
	Quantity int
	// Show had it; it is blank where cables that were missing, in repair or written off are there again.
	Show Show
}

// Receipt is what the house received in one step, by which that can be taken back.
type Receipt struct {
	Came          []Came
	before, after Stock
}

// Receive takes back what comes to the house on a day, by whichever show it is out.
func (l Library) Receive(day string, came ...Received) error {
	_, err := l.BookIn(day, came...)
	return err
}

// BookIn is [Library.Receive] with a receipt. Of what is tied into one piece all is received that the same show has.
func (l Library) BookIn(day string, came ...Received) (Receipt, error) {
	return l.receipt(func(s *Stock, ids *plan.IDSource) ([]Came, error) { return s.bookIn(day, ids, came) })
}

// ReceiveTagged receives the reel of a tag, capitals or not, by whichever show it is out on a day; that show's plan may be
// deleted or of another name. As is what it is like, nil as the house knows it. What was missing, in repair or written off is
// there again. A tag that the house does not have, and what is in the house, is refused.
func (l Library) ReceiveTagged(day, tag string, as *plan.GivenBack) (Receipt, error) {
	return l.receipt(func(s *Stock, ids *plan.IDSource) ([]Came, error) {
		row, found := tagged(s.Plan, tag)
		if !found {
			return nil, fmt.Errorf("%w: no reel of the house has the tag %s", plan.ErrRefused, plan.Clipped(tag))
		}
		return s.receiveRow(day, row, row.Count(), as, ids)
	})
}

// ReceiveRow receives some of a row, as for cables without tags: first from the show that began first.
func (l Library) ReceiveRow(day string, reel plan.ReelID, quantity int, as *plan.GivenBack) (Receipt, error) {
	return l.receipt(func(s *Stock, ids *plan.IDSource) ([]Came, error) {
		row, found := s.Plan.Reels.Get(plan.Key(reel))
		if !found {
			return nil, fmt.Errorf("%w: that reel is in the house's stock no more", plan.ErrRefused)
		}
		return s.receiveRow(day, row, quantity, as, ids)
	})
}

// Lost counts as missing what is with a show and will not come back: its plan is told, as of what the house received, and the
// cables are missing in the house from that day on, for a reason that may be blank.
func (l Library) Lost(day, why string, lost ...Received) (Receipt, error) {
	return l.receipt(func(s *Stock, ids *plan.IDSource) ([]Came, error) { return s.lose(day, why, lost, ids) })
}

func (s *Stock) lose(day, why string, lost []Received, ids *plan.IDSource) (all []Came, err error) {
	for _, each := range s.whole(lost) {
		if !s.onSite(day, each) {
			return nil, fmt.Errorf("%w: that is not with the show now", plan.ErrRefused)
		}
		one, err := s.end(day, each, plan.Missing)
		if err != nil {
			return nil, err
		}
		said := "from " + plan.Clipped(one.Show.Name)
		if why != "" {
			said = why + ", " + said
		}
		if err := s.setState(day, StateChange{Reel: one.Reel.ID, Quantity: one.Quantity, State: plan.Missing, Why: said}, ids); err != nil {
			return nil, err
		}
		all = append(all, one)
	}
	return all, nil
}

// onSite reports whether a show has so many of a taking on a day, and not on paper alone.
func (s *Stock) onSite(day string, each Received) bool {
	entries := s.entries(each.Taking, each.Plan)
	if len(entries) == 0 {
		return false
	}
	here := 0
	for _, out := range s.OutOn(day, s.Takings[entries[0]].Reel) {
		if out.Taking.ID == each.Taking && out.Taking.Plan == each.Plan {
			here += out.Quantity
		}
	}
	return each.Quantity <= here
}

// Restore takes a receipt back, as after a wrong scan: the show has again what it had, and the house's rows are as before. It is
// refused where one of them was changed since, or another show has the cables now.
func (l Library) Restore(r Receipt) error {
	return l.changeStock(func(s *Stock, _ *plan.IDSource) error { return s.restore(r) })
}

func (s *Stock) restore(r Receipt) error {
	if err := s.putBack(r); err != nil {
		return err
	}
	next, err := plan.Apply(s.Plan, plan.Between(r.after.Plan, r.before.Plan))
	if err != nil {
		return fmt.Errorf("%w: the house's stock was changed since", plan.ErrRefused)
	}
	s.Plan = next
	return nil
}

// putBack puts takings back as they were, where they are as the receipt left them and so are their rows.
func (s *Stock) putBack(r Receipt) error {
	keys := map[takingKey]bool{}
	for _, t := range slices.Concat(r.before.Takings, r.after.Takings) {
		keys[t.key()] = true
	}
	for key := range keys {
		was, had := r.before.entry(key)
		is, has := r.after.entry(key)
		if was == is && had == has {
			delete(keys, key)
			continue
		}
		if now, there := s.entry(key); now != is || there != has {
			return fmt.Errorf("%w: %s was saved since, or more of it came", plan.ErrRefused, plan.Clipped(r.before.ShowName(was)))
		}
	}
	for row := range r.after.Plan.Reels.All() {
		was, _ := r.before.Plan.Reels.Get(row.Key())
		if now, _ := s.Plan.Reels.Get(row.Key()); was != row && now != row {
			return fmt.Errorf("%w: %s was changed since", plan.ErrRefused, named(r.after.Plan, row))
		}
	}
	s.Takings = slices.DeleteFunc(s.Takings, func(t Taking) bool { return keys[t.key()] })
	for _, t := range r.before.Takings {
		if keys[t.key()] {
			s.Takings = append(s.Takings, t)
		}
	}
	return nil
}

func (s *Stock) entry(key takingKey) (Taking, bool) {
	at := slices.IndexFunc(s.Takings, func(t Taking) bool { return t.key() == key })
	if at < 0 {
		return Taking{}, false
	}
	return s.Takings[at], true
}

// receipt changes the stock and keeps what it was before and after.
func (l Library) receipt(change func(*Stock, *plan.IDSource) ([]Came, error)) (r Receipt, err error) {
	var after *Stock
	err = l.changeStock(func(s *Stock, ids *plan.IDSource) (err error) {
		r.before, after = s.copied(), s
		r.Came, err = change(s, ids)
		return err
	})
	if err != nil {
		return Receipt{}, err
	}
	r.after = *after
	return r, nil
}

// bookIn receives what is said, with what it is tied to.
func (s *Stock) bookIn(day string, ids *plan.IDSource, came []Received) (all []Came, err error) {
	for _, each := range s.whole(came) {
		one, err := s.end(day, each, "")
		if err != nil {
			return nil, err
		}
		if each.As != nil {
			back := *each.As
			back.Day = day
			if err := s.learn(back, returned{reel: one.Reel.ID}, one.Quantity, one.Show.Name, ids); err != nil {
				return nil, err
			}
		}
		all = append(all, one)
	}
	return all, nil
}

// whole is what came with all that it is tied to and the same show has.
func (s *Stock) whole(came []Received) (all []Received) {
	said := map[[2]string]bool{}
	for _, each := range came {
		said[[2]string{each.Taking, each.Plan}] = true
	}
	for _, each := range came {
		all = append(all, each)
		entries := s.entries(each.Taking, each.Plan)
		if len(entries) == 0 {
			continue
		}
		for _, piece := range Tied(s.Plan, s.Takings[entries[0]].Reel) {
			for _, t := range s.Takings {
				if key := [2]string{t.ID, t.Plan}; t.Reel == piece && t.Plan == each.Plan && t.Quantity > 0 && !said[key] {
					said[key] = true
					all = append(all, Received{Taking: t.ID, Plan: t.Plan, Quantity: s.has(t.ID, t.Plan)})
				}
			}
		}
	}
	return all
}

// has counts what a show has of a taking.
func (s *Stock) has(id, identity string) (count int) {
	for _, at := range s.entries(id, identity) {
		count += s.Takings[at].Quantity
	}
	return count
}

// end ends some of a taking, as received or as another state; its plan is told by the state.
func (s *Stock) end(day string, each Received, state string) (one Came, err error) {
	if each.Quantity < 1 || each.Quantity > s.has(each.Taking, each.Plan) {
		return one, fmt.Errorf("%w: that is not out any more", plan.ErrRefused)
	}
	left := each.Quantity
	for _, at := range s.entries(each.Taking, each.Plan) {
		t := &s.Takings[at]
		came := min(left, t.Quantity)
		if came == 0 {
			continue
		}
		one.Reel, _ = s.Plan.Reels.Get(plan.Key(t.Reel))
		one.Show = s.showOf(*t)
		left -= came
		t.Quantity, t.Came, t.Received, t.CameAs = t.Quantity-came, t.Came+came, day, state
	}
	one.Quantity = each.Quantity
	return one, nil
}

// receiveRow receives some of a row by the shows that have it.
func (s *Stock) receiveRow(day string, row plan.Reel, quantity int, as *plan.GivenBack, ids *plan.IDSource) (all []Came, err error) {
	if row.State != "" {
		return s.foundAgain(day, row, quantity, as, ids)
	}
	var came []Received
	out := 0
	for _, each := range s.OutOn(day, row.ID) {
		if part := min(each.Quantity, quantity-out); part > 0 {
			came = append(came, Received{each.Taking.ID, each.Taking.Plan, part, as})
		}
		out += each.Quantity
	}
	switch {
	case out == 0:
		return nil, fmt.Errorf("%w: %s is in the house", plan.ErrRefused, named(s.Plan, row))
	case quantity < 1 || quantity > out:
		return nil, fmt.Errorf("%w: of %s %d are out, not %d", plan.ErrRefused, named(s.Plan, row), out, quantity)
	}
	return s.bookIn(day, ids, came)
}

// foundAgain has cables there again that were set aside, and learns what they are like.
func (s *Stock) foundAgain(day string, row plan.Reel, quantity int, as *plan.GivenBack, ids *plan.IDSource) ([]Came, error) {
	if err := s.setStates(day, StateChange{Reel: row.ID, Quantity: quantity}, ids); err != nil {
		return nil, err
	}
	if _, there := s.Plan.Reels.Get(row.Key()); as != nil && there {
		back := *as
		back.Day = day
		if err := s.learn(back, returned{reel: row.ID}, quantity, "the house", ids); err != nil {
			return nil, err
		}
	}
	return []Came{{Reel: row, Quantity: quantity}}, nil
}
