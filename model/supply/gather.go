package supply

import (
	"cmp"
	"fmt"
	"slices"

	"stageloom/model/cabling"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// Source is the stock that cables are picked from.
type Source string

// The sources. With Show the house is only asked before anything is hired. House are cables that the show has of the house
// already and those that the house could lend; the show's own stay out.
const (
	Show  Source = "show"
	House Source = "house"
	Both  Source = "both"
)

// Sources lists them.
func Sources() []Source { return []Source{Show, House, Both} }

// Supply is a plan and what a house could lend it.
type Supply struct {
	// Plan is a copy in which what could be lent lies beside the plan's own stock. It is looked at and never saved.
	Plan *plan.Plan

	base    *plan.Plan
	stock   house.Stock
	from    Source
	offered map[plan.ReelID]house.Want
}

// Gather looks in a house for what a plan could take for some of its links, nil for all: what is free for the plan, there and
// not faulty, of kinds that carry what any of the links does. Of equal cables it takes no more than the links could have, and
// of a loom or trunk piece all of it or nothing.
func Gather(p *plan.Plan, stock house.Stock, from Source, links []plan.LinkID) (*Supply, error) {
	s := &Supply{Plan: p, base: p, stock: stock, from: from}
	if stock.Plan == nil {
		return s, nil
	}
	wants := s.wants(cabling.Carried(p, links), len(links))
	next, err := plan.Do(p, plan.NewIDSource(1, 1), func(e *plan.Edit) error {
		s.offered = stock.Offer(e, wants...)
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("what the house could lend cannot be laid beside the plan: %w", err)
	}
	s.Plan = next
	return s, nil
}

// most is how many equal cables some links could have; none are all links of the plan.
func (s *Supply) most(links int) int {
	if links == 0 {
		links = s.base.Links.Len()
	}
	// One more a link may be held back at each of its two ends.
	return links * (cabling.MostJoins + 1 + 2)
}

// wants are what could be taken of each row.
func (s *Supply) wants(carried func(plan.CableKind) bool, links int) (wants []house.Want) {
	type equal struct {
		kind     plan.CableKindID
		length   float64
		measured plan.Optional
		suspect  bool
	}
	left := map[equal]int{}
	whole := s.whole()
	for _, row := range s.rows() {
		kind, _ := s.stock.Plan.CableKinds.Get(plan.Key(row.Kind))
		if row.Condition == plan.Faulty || row.There() == 0 || !carried(kind) || row.TiedInto != "" && !whole[row.TiedInto] {
			continue
		}
		if row.TiedInto != "" {
			wants = append(wants, house.Want{Reel: row.ID, Quantity: row.Count()})
			continue
		}
		key := equal{row.Kind, row.Length, row.Measured, row.Condition == plan.Suspect}
		if _, seen := left[key]; !seen {
			left[key] = s.most(links)
		}
		if left[key] == 0 {
			continue
		}
		if some := min(s.free(row), left[key]); some > 0 {
			left[key] -= some
			wants = append(wants, house.Want{Reel: row.ID, Quantity: some})
		}
	}
	return wants
}

// free counts how many of a row are there and free for the plan.
func (s *Supply) free(row plan.Reel) int { return min(row.There(), s.stock.Free(s.base, row)) }

// whole tells of the house's looms and trunk pieces whether all of their cables can be taken.
func (s *Supply) whole() map[string]bool {
	whole := map[string]bool{}
	for row := range s.stock.Plan.Reels.All() {
		if row.TiedInto == "" {
			continue
		}
		free := row.Condition != plan.Faulty && s.free(row) == row.Count()
		known, seen := whole[row.TiedInto]
		whole[row.TiedInto] = free && (known || !seen)
	}
	return whole
}

// rows are the house's, in the order in which equal ones are taken: by their tags, those without one last.
func (s *Supply) rows() []plan.Reel {
	if s.stock.Plan == nil {
		return nil
	}
	return slices.SortedFunc(s.stock.Plan.Reels.All(), func(a, b plan.Reel) int {
		return cmp.Or(cmp.Compare(min(1, len(b.Tag)), min(1, len(a.Tag))), words.Natural(a.Tag, b.Tag), cmp.Compare(a.ID, b.ID))
	})
}
