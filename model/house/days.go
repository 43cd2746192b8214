package house

import (
	"cmp"
	"slices"
	"time"

	"stageloom/model/plan"
)

// span is the days from which and until which cables are kept for a show, both among them; a blank end is open.
type span struct{ from, until string }

// spanOf reads days as they are typed in a plan. What the calendar does not have, or the wrong way round, counts as blank.
func spanOf(from, until string) span {
	days := span{dayOf(from), dayOf(until)}
	if days.until != "" && days.from > days.until {
		return span{}
	}
	return days
}

// dayOf is a day as 2027-06-22, so that days compare as text; blank where a text is no such day.
func dayOf(text string) string {
	day, err := time.Parse("2006-1-2", text)
	if err != nil {
		return ""
	}
	return day.Format(time.DateOnly)
}

// covers reports whether a day is one of them; the blank day is before all.
func (d span) covers(day string) bool { return d.from <= day && (d.until == "" || day <= d.until) }

func (d span) overlaps(with span) bool { return d.covers(with.from) || with.covers(d.from) }

// words says the days as the end of a sentence; blank where they are open.
func (d span) words() string {
	switch {
	case d.from != "" && d.until != "":
		return " from " + d.from + " to " + d.until
	case d.from != "":
		return " from " + d.from
	case d.until != "":
		return " until " + d.until
	}
	return ""
}

func (s Show) span() span { return spanOf(s.From, s.Until) }

// spanOf is when a show has what it has taken: on its own days, or on those that the house let it have.
func (s *Stock) spanOf(t Taking) span {
	if t.kept() {
		return span{t.From, t.Until}
	}
	if show, known := s.show(t.Plan); known {
		return show.span()
	}
	return span{}
}

// kept reports whether the taking keeps days of its own, since the show's new ones did not fit.
func (t Taking) kept() bool { return t.From != "" || t.Until != "" }

func (s *Stock) show(identity string) (Show, bool) {
	at := slices.IndexFunc(s.Shows, func(show Show) bool { return show.ID == identity })
	if at < 0 || identity == "" {
		return Show{}, false
	}
	return s.Shows[at], true
}

// most counts the most cables of a row that shows have on one of the days, and says which day that is; those that are to be
// skipped do not count. What is out changes on first days alone.
func (s *Stock) most(id plan.ReelID, on span, skip func(Taking) bool) (count int, day string) {
	type stay struct {
		span
		quantity int
	}
	var stays []stay
	for _, t := range s.Takings {
		if t.Reel == id && t.Quantity > 0 && (skip == nil || !skip(t)) {
			if days := s.spanOf(t); days.overlaps(on) {
				stays = append(stays, stay{days, t.Quantity})
			}
		}
	}
	for _, first := range stays {
		at, out := max(first.from, on.from), 0
		for _, other := range stays {
			if other.covers(at) {
				out += other.quantity
			}
		}
		if out > count {
			count, day = out, at
		}
	}
	return count, day
}

// room counts how many of a row a show can have on all of the days beside what others have; less than none where they have
// more than there are.
func (s *Stock) room(id plan.ReelID, on span, skip func(Taking) bool) int {
	row, found := s.Plan.Reels.Get(plan.Key(id))
	if !found || row.State != "" {
		return 0
	}
	out, _ := s.most(id, on, skip)
	return row.Count() - out
}

// shed takes from shows what a row has no more of: first from those that begin last, which have it on paper alone. Their plans
// are told when they are opened or saved, since they want it yet.
func (s *Stock) shed(id plan.ReelID) {
	var order []int
	for at, t := range s.Takings {
		if t.Reel == id && t.Quantity > 0 {
			order = append(order, at)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(s.since(s.Takings[b]), s.since(s.Takings[a])) })
	for _, at := range order {
		t := &s.Takings[at]
		others := func(other Taking) bool { return other.key() == t.key() }
		t.Quantity = max(0, min(t.Quantity, s.room(id, s.spanOf(*t), others)))
	}
	s.sweep()
}

// sweep forgets takings of nothing.
func (s *Stock) sweep() {
	s.Takings = slices.DeleteFunc(s.Takings, func(t Taking) bool { return t.Quantity+t.Came == 0 })
}

// since is the day from which a show has, or is to have, what it has taken.
func (s *Stock) since(t Taking) string { return max(t.Day, s.spanOf(t).from) }
