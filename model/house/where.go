package house

import (
	"cmp"
	"fmt"
	"time"

	"stageloom/model/plan"
	"stageloom/model/words"
)

// DayWords says a day as a crew does, as seen from another: "8 June", with its year where that is another. What is no day
// stays as it is written.
func DayWords(day, today string) string {
	read, err := time.Parse(time.DateOnly, day)
	if err != nil {
		return plan.Clipped(day)
	}
	if len(today) >= 4 && today[:4] == day[:4] {
		return read.Format("2 January")
	}
	return read.Format("2 January 2006")
}

// Words says where the cables are, as the end of a sentence that begins with them and "is".
func (w Whereabouts) Words(today string) string {
	show := plan.Clipped(cmp.Or(w.Show.Name, "a show without a name"))
	switch w.Place {
	case WithShow:
		return "with " + show + dated(" since ", w.Since, today) + dated(", due ", w.Due, today)
	case Overdue:
		return "with " + show + ", overdue" + dated(" since ", w.Due, today)
	case Promised:
		return "promised to " + show + dated(" from ", w.Since, today) + dated(" to ", w.Due, today)
	case InHouse:
		return string(InHouse)
	}
	return string(w.Place) + dated(" since ", w.Since, today)
}

// Words says where the cables are that a show is promised, as the end of a sentence that begins with them and "is".
func (c Conflict) Words(today string) string {
	return Whereabouts{Place: Overdue, Show: c.Has, Due: c.Has.Until}.Words(today)
}

// LateWords counts what one show is promised and others have yet, a sentence for each of those.
func LateWords(conflicts []Conflict, today string) (all []string) {
	var order []string
	counts := map[string]int{}
	for _, late := range conflicts {
		where := late.Words(today)
		if counts[where] == 0 {
			order = append(order, where)
		}
		counts[where] += late.Quantity
	}
	for _, where := range order {
		all = append(all, words.Counted(counts[where], "cable that this show is promised is", "cables that this show is promised are")+" "+where+".")
	}
	return all
}

func dated(before, day, today string) string {
	if day == "" {
		return ""
	}
	return before + DayWords(day, today)
}

// NamedIn is a reel in a few words: its tag, or its length and kind, as typed text means it.
func NamedIn(p *plan.Plan, reel plan.Reel, units words.Units) string {
	if reel.Tag != "" {
		return plan.Clipped(reel.Tag)
	}
	kind, _ := p.CableKinds.Get(plan.Key(reel.Kind))
	return fmt.Sprintf("%s %s", units.Metres(reel.Length), plan.Clipped(kind.Name))
}
