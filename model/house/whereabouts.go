package house

import (
	"cmp"
	"slices"

	"stageloom/model/plan"
)

// Place says where cables of the house are.
type Place string

// The places. What is promised is in the house yet, or with another show; the others are each of other cables.
const (
	InHouse    Place = "in the house"
	Promised   Place = "promised"
	WithShow   Place = "with a show"
	Overdue    Place = "overdue"
	IsMissing  Place = "missing"
	InWorkshop Place = "in repair"
	IsGone     Place = "written off"
)

// Whereabouts is some of a row of the house's stock and where it is.
type Whereabouts struct {
	Reel     plan.Reel
	Quantity int
	Place    Place
	// Taking and Show are by which it is out or promised, blank for other places.
	Taking Taking
	Show   Show
	// Since is the day from which it is there or promised, Due the last day of the show that has it; blank where nobody said.
	Since, Due string
}

// Whereabouts says of every row where its cables are on a day, as 2027-06-22, in the order of the rows: first what is in the
// house, then what is with shows or promised, the first day first. But for what is promised, the counts add to the row's.
func (s Stock) Whereabouts(day string) (all []Whereabouts) {
	with := map[plan.ReelID][]Taking{}
	for _, t := range s.Takings {
		if t.Quantity > 0 {
			with[t.Reel] = append(with[t.Reel], t)
		}
	}
	for reel := range s.Plan.Reels.All() {
		if place := placeOf(reel.State); place != InHouse {
			all = append(all, Whereabouts{Reel: reel, Quantity: reel.Count(), Place: place, Since: reel.StateOn})
			continue
		}
		out := s.placed(reel, with[reel.ID], day)
		here := reel.Count()
		for _, each := range out {
			if each.Place != Promised {
				here -= each.Quantity
			}
		}
		if here > 0 {
			all = append(all, Whereabouts{Reel: reel, Quantity: here, Place: InHouse})
		}
		all = append(all, out...)
	}
	return all
}

// placed says of the takings of a row how shows have them. Where what is overdue with one is wanted by the next, the first to
// begin has it, and it is promised to the other yet.
func (s *Stock) placed(reel plan.Reel, takings []Taking, day string) (all []Whereabouts) {
	slices.SortStableFunc(takings, func(a, b Taking) int { return cmp.Compare(s.since(a), s.since(b)) })
	here := reel.Count()
	for _, t := range takings {
		show := s.showOf(t)
		one := Whereabouts{Reel: reel, Quantity: t.Quantity, Place: show.has(day), Taking: t, Show: show, Since: s.since(t), Due: show.Until}
		if one.Place == Promised {
			all = append(all, one)
			continue
		}
		if one.Quantity = min(t.Quantity, here); one.Quantity > 0 {
			all = append(all, one)
			here -= one.Quantity
		}
		if one.Quantity < t.Quantity {
			one.Quantity, one.Place = t.Quantity-one.Quantity, Promised
			all = append(all, one)
		}
	}
	return all
}

// showOf is the show that has a taking, with the days on which it has it.
func (s *Stock) showOf(t Taking) Show {
	show, known := s.show(t.Plan)
	if !known {
		show = Show{ID: t.Plan, Name: t.Show}
	}
	days := s.spanOf(t)
	show.From, show.Until = days.from, days.until
	return show
}

// has says how a show has on a day what it has taken.
func (s Show) has(day string) Place {
	switch {
	case s.From > day:
		return Promised
	case s.Until != "" && s.Until < day:
		return Overdue
	}
	return WithShow
}

// OutOn lists which shows have cables of a row on a day, the one that began first in front: what is promised is not among it.
func (s Stock) OutOn(day string, reel plan.ReelID) (all []Whereabouts) {
	row, found := s.Plan.Reels.Get(plan.Key(reel))
	if !found {
		return nil
	}
	var takings []Taking
	for _, t := range s.Takings {
		if t.Reel == reel && t.Quantity > 0 {
			takings = append(takings, t)
		}
	}
	for _, each := range s.placed(row, takings, day) {
		if each.Place != Promised {
			all = append(all, each)
		}
	}
	return all
}

// Conflict is what one show is promised and another has yet although it is overdue there.
type Conflict struct {
	Reel     plan.Reel
	Quantity int
	// Wants is the show that it is promised to, Has the one that has not given it back, each with its days.
	Wants, Has Show
}

// Conflicts lists on a day, as 2027-06-22, what is promised from then on, or wanted already, and overdue with another show, if
// that does not give it back and nothing else of its row is left: by rows, the first wanted first.
func (s Stock) Conflicts(day string) (all []Conflict) {
	late := map[plan.ReelID][]Taking{}
	for _, t := range s.Takings {
		if t.Quantity > 0 && s.showOf(t).has(day) == Overdue {
			late[t.Reel] = append(late[t.Reel], t)
		}
	}
	if len(late) == 0 {
		return nil
	}
	for reel := range s.Plan.Reels.All() {
		if len(late[reel.ID]) > 0 {
			all = append(all, s.conflictsOf(reel, late[reel.ID], day)...)
		}
	}
	return all
}

func (s *Stock) conflictsOf(reel plan.Reel, late []Taking, day string) (all []Conflict) {
	overdue := 0
	for _, t := range late {
		overdue += t.Quantity
	}
	slices.SortStableFunc(late, func(a, b Taking) int { return cmp.Compare(s.since(a), s.since(b)) })
	isLate := func(t Taking) bool {
		return slices.ContainsFunc(late, func(l Taking) bool { return l.key() == t.key() })
	}
	var wants []Taking
	for _, t := range s.Takings {
		if t.Reel == reel.ID && t.Quantity > 0 && !isLate(t) {
			wants = append(wants, t)
		}
	}
	slices.SortStableFunc(wants, func(a, b Taking) int { return cmp.Compare(s.since(a), s.since(b)) })
	for _, want := range wants {
		days := s.spanOf(want)
		on := span{max(days.from, day), days.until}
		out, _ := s.most(reel.ID, on, isLate)
		short := min(want.Quantity, out+overdue-reel.Count())
		for _, t := range late {
			if n := min(short, t.Quantity); n > 0 && t.Plan != want.Plan {
				all = append(all, Conflict{reel, n, s.showOf(want), s.showOf(t)})
				short -= n
			}
		}
	}
	return all
}

func placeOf(state string) Place {
	switch state {
	case plan.Missing:
		return IsMissing
	case plan.InRepair:
		return InWorkshop
	case plan.WrittenOff:
		return IsGone
	}
	return InHouse
}
