package house

import (
	"errors"
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"

	"stageloom/model/plan"
)

// Want is how many of a row of the house's stock a show takes.
type Want struct {
	Reel     plan.ReelID
	Quantity int
}

// Free counts how many of a row a plan can take: what is in the house, without what the plan says already and has not been
// saved with.
func (s *Stock) Free(p *plan.Plan, row plan.Reel) int {
	free := s.Left(row)
	for _, t := range s.With(p.Settings.Identity) {
		if t.Reel == row.ID {
			free += t.Quantity
		}
	}
	for _, wish := range s.wishes(p) {
		if wish.reel == row.ID {
			free -= wish.quantity
		}
	}
	return max(0, free)
}

// Take puts rows of the house's stock into a plan under new ids, with their kinds and cases, all of them or none: the plan
// says that its show has them, and once it is saved the house says so too. What is faulty stays in the house.
func (s *Stock) Take(e *plan.Edit, wants ...Want) error {
	for _, want := range wants {
		row, found := s.Plan.Reels.Get(plan.Key(want.Reel))
		switch {
		case !found:
			return fmt.Errorf("%w: a reel that you want is in the house's stock no more", plan.ErrRefused)
		case row.Condition == plan.Faulty:
			return fmt.Errorf("%w: %s is faulty", plan.ErrRefused, named(s.Plan, row))
		case want.Quantity < 1 || want.Quantity > s.Free(e.Now(), row):
			return fmt.Errorf("%w: of %s there are %d left in the house, not %d", plan.ErrRefused, named(s.Plan, row), s.Free(e.Now(), row), want.Quantity)
		}
		taken := row
		taken.Quantity, taken.Taking, taken.HouseReel = want.Quantity, e.NewTaking(), string(row.ID)
		if taken.Owner == "" {
			taken.Owner = plan.OfTheHouse
		}
		copyReel(e, s.Plan, taken)
	}
	return nil
}

// Save settles a plan that is saved already with the house's stock; see [Stock.Settle].
func (l Library) Save(p *plan.Plan, show Show) (Settled, error) {
	done, err := l.SaveWith(p, show, func(*plan.Plan) error { return nil })
	return done, errors.Join(err, done.Trouble)
}

// Told says what the house would refuse of a plan if it were saved now, without changing anything.
func (s Stock) Told(p *plan.Plan) []Refusal {
	s.Takings, s.Shows, s.Learned = slices.Clone(s.Takings), slices.Clone(s.Shows), slices.Clone(s.Learned)
	done, _ := s.Settle(p, Show{ID: p.Settings.Identity, Name: p.Settings.Name}, plan.NewIDSource(rand.Uint64(), rand.Uint64())) // what is learned is thrown away
	return done.Refused
}

// Received is what the house received of a taking, whatever its plan says.
type Received struct {
	Taking, Plan string
	Quantity     int
}

// Receive takes back what comes to the house on a day, by whichever show it is out.
func (l Library) Receive(day string, came ...Received) error {
	return l.changeStock(func(s *Stock, _ *plan.IDSource) error {
		for _, each := range came {
			at := s.taking(each.Taking, each.Plan)
			if at < 0 || each.Quantity < 1 || each.Quantity > s.Takings[at].Quantity {
				return fmt.Errorf("%w: that is not out any more", plan.ErrRefused)
			}
			t := &s.Takings[at]
			t.Quantity -= each.Quantity
			t.Came += each.Quantity
			t.Received = day
		}
		return nil
	})
}

// TakeAgain lets a plan ask anew for what the house received or refused: its rows get takings of their own.
func TakeAgain(e *plan.Edit, takings ...string) error {
	for _, old := range takings {
		fresh := e.NewTaking()
		for row := range maps.Values(maps.Collect(reelsOf(e.Now(), old))) {
			row.Taking = fresh
			plan.Put(e, row)
		}
	}
	return nil
}

// reelsOf yields the rows of a plan that name a taking.
func reelsOf(p *plan.Plan, taking string) func(func(plan.ReelID, plan.Reel) bool) {
	return func(yield func(plan.ReelID, plan.Reel) bool) {
		for row := range p.Reels.All() {
			if row.Taking == taking && !yield(row.ID, row) {
				return
			}
		}
	}
}

// Adopted is a row of a plan that became part of the house's stock: its row there and the taking by which the show has it.
type Adopted struct {
	Row    plan.ReelID
	Taking string
}

// Adopt makes rows of a plan part of the house's stock, out with its show from then on: they stand there already. Rows that
// are the house's are left.
func (l Library) Adopt(p *plan.Plan, show Show, reels ...plan.ReelID) (all map[plan.ReelID]Adopted, err error) {
	all = map[plan.ReelID]Adopted{}
	err = l.changeStock(func(s *Stock, ids *plan.IDSource) error {
		clear(all)
		next, err := plan.Do(s.Plan, ids, func(e *plan.Edit) error {
			for _, id := range reels {
				reel, found := p.Reels.Get(plan.Key(id))
				if !found || reel.Taking != "" {
					continue
				}
				known := s.wishes(p)
				taking := ids.Next("t", func(id string) bool { return s.taking(id, show.ID) >= 0 || known[id].quantity > 0 })
				all[id] = Adopted{copyReel(e, p, reel), taking}
				s.Takings = append(s.Takings, Taking{ID: taking, Plan: show.ID, Reel: all[id].Row, Quantity: reel.Count(), Day: show.Saved})
			}
			return nil
		})
		if err == nil {
			s.Plan = next
			s.know(show)
		}
		return err
	})
	return all, err
}

// Bind notes in the plan which rows of the house's stock its own have become.
func Bind(e *plan.Edit, all map[plan.ReelID]Adopted) error {
	for _, id := range slices.Sorted(maps.Keys(all)) {
		if err := plan.Update(e, plan.Key(id), func(r *plan.Reel) { r.Taking, r.HouseReel = all[id].Taking, string(all[id].Row) }); err != nil {
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
