package house

import "stageloom/model/plan"

// Place says where cables of the house are.
type Place string

// The places. What is promised is in the house yet; the others are each of other cables.
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

// Whereabouts says of every row where its cables are on a day, as 2027-06-22, in the order of the rows.
func (s Stock) Whereabouts(day string) (all []Whereabouts) {
	shows := map[string]Show{}
	for _, show := range s.Shows {
		shows[show.ID] = show
	}
	for reel := range s.Plan.Reels.All() {
		if place := placeOf(reel.State); place != InHouse {
			all = append(all, Whereabouts{Reel: reel, Quantity: reel.Count(), Place: place, Since: reel.StateOn})
			continue
		}
		here := reel.Count()
		var with []Whereabouts
		for _, taking := range s.Takings {
			if taking.Reel != reel.ID || taking.Quantity == 0 {
				continue
			}
			show, known := shows[taking.Plan]
			if !known {
				show = Show{ID: taking.Plan, Name: taking.Show}
			}
			one := Whereabouts{Reel: reel, Quantity: taking.Quantity, Place: show.has(day), Taking: taking, Show: show, Since: max(taking.Day, show.From), Due: show.Until}
			if one.Place != Promised {
				here -= taking.Quantity
			}
			with = append(with, one)
		}
		if here > 0 {
			all = append(all, Whereabouts{Reel: reel, Quantity: here, Place: InHouse})
		}
		all = append(all, with...)
	}
	return all
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
