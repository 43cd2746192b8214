package house

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"stageloom/model/plan"
)

// Want is how many of a row of the house's stock a show takes.
type Want struct {
	Reel     plan.ReelID
	Quantity int
}

// Free counts how many of a row a plan can take: what no other show has on one of the plan's days, without what the plan says
// already and has not been saved with. Nothing of a row that is missing, in repair or written off is free.
func (s *Stock) Free(p *plan.Plan, row plan.Reel) int {
	wishes := s.wishes(p)
	show := ShowOf(p, "", "")
	free := s.room(row.ID, show.span(), func(t Taking) bool {
		_, named := wishes[t.ID]
		return t.Plan == show.ID && show.ID != "" || t.Plan == "" && named && t.Show == show.Name
	})
	for _, wish := range wishes {
		if wish.reel == row.ID {
			free -= wish.quantity
		}
	}
	return max(0, free)
}

// Take puts rows of the house's stock into a plan under new ids, with their kinds and cases, all of them or none: the plan
// says that its show has them, and once it is saved the house says so too. What is faulty, missing, in repair or written off
// stays in the house. Of what is tied into one piece all is taken. Histories stay in the house.
func (s *Stock) Take(e *plan.Edit, wants ...Want) error {
	for _, want := range wholePieces(s.Plan, wants) {
		row, found := s.Plan.Reels.Get(plan.Key(want.Reel))
		if !found {
			return fmt.Errorf("%w: a reel that you want is in the house's stock no more", plan.ErrRefused)
		}
		if why := s.keeps(e.Now(), row, want.Quantity); why != "" {
			return fmt.Errorf("%w: %s", plan.ErrRefused, why)
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

// keeps says why the house keeps so many of a row; blank where the plan can take them.
func (s *Stock) keeps(p *plan.Plan, row plan.Reel, quantity int) string {
	free := s.Free(p, row)
	switch {
	case row.State != "":
		return tiedWords(s.Plan, row) + " is " + stateSince(row)
	case row.Condition == plan.Faulty:
		return tiedWords(s.Plan, row) + " is faulty"
	case quantity >= 1 && quantity <= free:
		return ""
	case free == 0:
		if why := s.elsewhere(row, ShowOf(p, "", ""), func(t Taking) bool { return false }); why != "is not there that often" && quantity > 0 {
			return tiedWords(s.Plan, row) + " " + why
		}
	}
	return fmt.Sprintf("of %s there are %d left in the house, not %d", named(s.Plan, row), free, quantity)
}

// Save settles a plan that is saved already with the house's stock; see [Stock.Settle].
func (l Library) Save(p *plan.Plan, show Show) (Settled, error) {
	done, err := l.SaveWith(p, show, func(*plan.Plan) error { return nil })
	return done, errors.Join(err, done.Trouble)
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
	show = show.sound()
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
				s.Takings = append(s.Takings, Taking{ID: taking, Plan: show.ID, Reel: all[id].Row, Quantity: reel.Count(), Day: show.Saved, Lent: knownOf(backOf(p, reel))})
			}
			return nil
		})
		if err == nil {
			s.Plan = next
			if was, known := s.show(show.ID); known { // its days change with its save
				show.From, show.Until = was.From, was.Until
			}
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
	reel.Lacking, reel.LackingWhy = 0, ""
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
