package stocklist

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// Holder is a show with what it has of the house, or what is promised to it, on a day.
type Holder struct {
	Show   house.Show
	Place  house.Place // with a show, overdue or promised
	Pieces []Pieces
	// Since is the first day on which it has some of it.
	Since string
}

// Name is what the show is called.
func (h Holder) Name() string { return cmp.Or(h.Show.Name, "a show without a name") }

// Who lists the shows that have something of the house on a day: those overdue first, the longest overdue before all, then by
// the day on which it is due, shows that never said one last.
func Who(s house.Stock, day string) []Holder {
	holders := holdersOf(s, day, house.WithShow, house.Overdue)
	slices.SortStableFunc(holders, func(a, b Holder) int {
		return cmp.Or(-cmp.Compare(lateness(a), lateness(b)), cmp.Compare(openLast(a.Show.Until), openLast(b.Show.Until)), words.Natural(a.Name(), b.Name()))
	})
	return holders
}

func lateness(h Holder) int {
	if h.Place == house.Overdue {
		return 1
	}
	return 0
}

// openLast puts a day that nobody said behind all days.
func openLast(day string) string { return cmp.Or(day, "~") }

// Promised lists the shows that something of the house is promised to on a day, by the day on which it leaves.
func Promised(s house.Stock, day string) []Holder {
	holders := holdersOf(s, day, house.Promised)
	slices.SortStableFunc(holders, func(a, b Holder) int {
		return cmp.Or(cmp.Compare(a.Show.From, b.Show.From), words.Natural(a.Name(), b.Name()))
	})
	return holders
}

// holdersOf gathers by show what is at some of the places; what a show has on other days than its own stands apart.
func holdersOf(s house.Stock, day string, places ...house.Place) (holders []Holder) {
	for _, one := range s.Whereabouts(day) {
		if !slices.Contains(places, one.Place) {
			continue
		}
		at := slices.IndexFunc(holders, func(h Holder) bool {
			return h.Show == one.Show && h.Place == one.Place
		})
		if at < 0 {
			at, holders = len(holders), append(holders, Holder{Show: one.Show, Place: one.Place, Since: one.Since})
		}
		h := &holders[at]
		h.Since = min(h.Since, one.Since)
		h.Pieces = append(h.Pieces, Pieces{one.Reel, one.Quantity})
	}
	return holders
}

// DaysBetween counts the days from one day to another, both as 2027-06-22; false where one of them is no day.
func DaysBetween(from, to string) (int, bool) {
	a, err := time.Parse(time.DateOnly, from)
	b, wrong := time.Parse(time.DateOnly, to)
	return int(b.Sub(a).Hours() / 24), err == nil && wrong == nil
}

// Absent is cables of a row that are missing, in repair or written off.
type Absent struct {
	Pieces
	Place house.Place
	Since string
	// Last is the last line of the reel's history; zero where it has none.
	Last plan.Service
}

// Absents lists what is missing, in repair and written off, the longest gone first.
func Absents(s house.Stock, day string) (absents []Absent) {
	last := map[plan.ReelID]plan.Service{}
	for line := range s.Plan.Services.All() {
		if line.Day >= last[line.Reel].Day {
			last[line.Reel] = line
		}
	}
	order := []house.Place{house.IsMissing, house.InWorkshop, house.IsGone}
	for _, one := range s.Whereabouts(day) {
		if slices.Contains(order, one.Place) {
			absents = append(absents, Absent{Pieces{one.Reel, one.Quantity}, one.Place, one.Since, last[one.Reel.ID]})
		}
	}
	slices.SortStableFunc(absents, func(a, b Absent) int {
		return cmp.Or(cmp.Compare(slices.Index(order, a.Place), slices.Index(order, b.Place)), cmp.Compare(openLast(a.Since), openLast(b.Since)),
			words.Natural(a.Reel.Tag, b.Reel.Tag))
	})
	return absents
}

// Standing is where the cables of one kind and length are. Promised counts those that shows to come are promised, which are
// somewhere else yet; all others add up to the count of the stock.
type Standing struct {
	// Kind is the name of the kind, Length metres of each.
	Kind   string
	Length float64

	InHouse, WithShows, Overdue, Missing, InRepair, WrittenOff int
	Promised                                                   int
}

// All is how many there are.
func (s Standing) All() int {
	return s.InHouse + s.WithShows + s.Overdue + s.Missing + s.InRepair + s.WrittenOff
}

// place is the count of a place.
func (s *Standing) place(at house.Place) *int {
	switch at {
	case house.WithShow:
		return &s.WithShows
	case house.Overdue:
		return &s.Overdue
	case house.Promised:
		return &s.Promised
	case house.IsMissing:
		return &s.Missing
	case house.InWorkshop:
		return &s.InRepair
	case house.IsGone:
		return &s.WrittenOff
	}
	return &s.InHouse
}

// Standings are the whole stock by kind and length, the longest first, and its sum.
func Standings(s house.Stock, day string) (rows []Standing, sum Standing) {
	type alike struct {
		kind   string
		length float64
	}
	found := map[alike]*Standing{}
	for _, one := range s.Whereabouts(day) {
		key := alike{KindName(s.Plan, one.Reel.Kind), one.Reel.Length}
		if found[key] == nil {
			found[key] = &Standing{Kind: key.kind, Length: key.length}
		}
		*found[key].place(one.Place) += one.Quantity
		*sum.place(one.Place) += one.Quantity
	}
	for _, row := range found {
		rows = append(rows, *row)
	}
	slices.SortFunc(rows, func(a, b Standing) int {
		return cmp.Or(words.Natural(a.Kind, b.Kind), cmp.Compare(a.Kind, b.Kind), cmp.Compare(b.Length, a.Length))
	})
	return rows, sum
}

// InCases is what lives in the cases of the house, with what is out with shows; what is missing, in repair or written off is
// in none. Here counts by case what of it is in the house on a day.
func InCases(s house.Stock, day string) (loads []Load, here map[plan.CaseID]int) {
	here = map[plan.CaseID]int{}
	at := map[plan.ReelID]int{}
	var pieces []Pieces
	for _, one := range s.Whereabouts(day) {
		if !slices.Contains([]house.Place{house.InHouse, house.WithShow, house.Overdue}, one.Place) {
			continue
		}
		if one.Place == house.InHouse {
			here[one.Reel.Case] += one.Quantity
		}
		if _, known := at[one.Reel.ID]; !known {
			at[one.Reel.ID], pieces = len(pieces), append(pieces, Pieces{Reel: one.Reel})
		}
		pieces[at[one.Reel.ID]].Count += one.Quantity
	}
	return Loads(s.Plan, pieces, true), here
}

// Trucks are the shows that have something on a day or are promised it, each with its cases in the order of loading.
func Trucks(s house.Stock, day string) (trucks []Truck) {
	for _, holder := range append(Who(s, day), Promised(s, day)...) {
		trucks = append(trucks, Truck{holder, Loads(s.Plan, holder.Pieces, false)})
	}
	return trucks
}

// Truck is what a show has of the house, by case.
type Truck struct {
	Holder
	Loads []Load
}

// Words say what is known of something absent: why, where that was found, and the last line of its history.
func (a Absent) Words() string {
	var said []string
	for _, text := range []string{a.Reel.Reason, a.Reel.FoundAt, a.Reel.Note} {
		if text != "" {
			said = append(said, text)
		}
	}
	if a.Last.Work != "" {
		last := a.Last.Day + ": " + a.Last.Work
		if a.Last.By != "" {
			last += ", by " + a.Last.By
		}
		said = append(said, last)
	}
	return strings.Join(said, "; ")
}
