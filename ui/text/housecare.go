package text

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// HouseConflicts says what of the house's stock a plan has that its show cannot have on its days, a sentence each.
func HouseConflicts(s *house.Stock, p *plan.Plan, day string, units words.Units) (all []string) {
	add := func(sentence string) {
		if !slices.Contains(all, sentence) {
			all = append(all, sentence)
		}
	}
	where := map[plan.ReelID][]string{}
	for _, w := range s.Whereabouts(day) {
		if w.Taking.Plan == p.Settings.Identity && w.Taking.ID != "" || w.Place == house.InHouse {
			continue
		}
		said := w.Words(day)
		if w.Reel.Count() > 1 {
			said = fmt.Sprintf("%d %s", w.Quantity, said)
		}
		where[w.Reel.ID] = append(where[w.Reel.ID], said)
	}
	for _, late := range s.Warned(p, day) {
		add(house.NamedIn(s.Plan, late.Reel, units) + " is still " + late.Words(day) + ".")
	}
	for _, refused := range s.Told(p) {
		reel, found := s.Plan.Reels.Get(plan.Key(refused.Reel))
		if !found {
			reel = reelOfTaking(p, refused.Taking)
			add(house.NamedIn(p, reel, units) + " " + refused.Why + ".")
			continue
		}
		named, at := house.NamedIn(s.Plan, reel, units), where[reel.ID]
		switch {
		case len(at) == 0 || reel.Condition == plan.Faulty:
			add(named + " " + refused.Why + ".")
		case reel.Count() == 1:
			add(named + " is still " + words.And(at, 3) + ".")
		default:
			add(fmt.Sprintf("Of %s this show has %d of %d: %s.", named, refused.Had, refused.Wanted, words.And(at, 3)))
		}
	}
	return all
}

func reelOfTaking(p *plan.Plan, taking string) (found plan.Reel) {
	for reel := range p.Reels.All() {
		if reel.Taking == taking {
			return reel
		}
	}
	return found
}

// CaseLine is a case of the house with what lies in it now.
type CaseLine struct {
	Case        plan.Case
	Words, Note string
	// Over means that it holds more than it takes.
	Over bool
}

// load is what lies in a case: pieces, how much those weigh that it is known of, and how many it is not.
type load struct {
	pieces, unknown int
	mass            float64
}

func (l *load) add(p *plan.Plan, reel plan.Reel) {
	l.pieces += reel.Count()
	if mass, known := pieceMass(p, reel); known {
		l.mass += mass * float64(reel.Count())
	} else {
		l.unknown += reel.Count()
	}
}

// CaseLines lists the cases of a stock with what lies in them and how much they take; one that is over-full says so.
func CaseLines(p *plan.Plan) (lines []CaseLine) {
	loads := map[plan.CaseID]*load{}
	for reel := range p.Reels.All() {
		if loads[reel.Case] == nil {
			loads[reel.Case] = &load{}
		}
		loads[reel.Case].add(p, reel)
	}
	for box := range p.Cases.All() {
		in := loads[box.ID]
		if in == nil {
			in = &load{}
		}
		lines = append(lines, caseLine(box, *in))
	}
	words.SortNatural(lines, func(l *CaseLine) string { return l.Words }, func(a, b *CaseLine) int { return strings.Compare(string(a.Case.ID), string(b.Case.ID)) })
	return lines
}

func caseLine(box plan.Case, in load) CaseLine {
	line := CaseLine{Case: box, Words: box.Name}
	notes := []string{words.Counted(in.pieces, "piece", "pieces")}
	if box.Pieces > 0 {
		notes[0] = fmt.Sprintf("%d of %s", in.pieces, words.Counted(box.Pieces, "piece", "pieces"))
	}
	if in.mass > 0 || box.Most.Set {
		mass := fmt.Sprintf("%.1f kg", in.mass)
		if in.unknown > 0 {
			mass = "at least " + mass
		}
		if box.Most.Set {
			mass += fmt.Sprintf(" of %g kg", box.Most.Value)
		}
		notes = append(notes, mass)
	}
	if box.Pieces > 0 && in.pieces > box.Pieces || box.Most.Set && in.mass > box.Most.Value {
		line.Over = true
		notes = append(notes, "over-full")
	}
	line.Note = strings.Join(notes, ", ")
	return line
}

// CaseLeft asks whether pieces have no case once the one that they live in is removed.
func CaseLeft(name string, pieces int) string {
	they := "They then have no case, and stay in the stock."
	if pieces == 1 {
		they = "It then has no case, and stays in the stock."
	}
	return words.Counted(pieces, "piece lives", "pieces live") + " in " + name + ", those that are with shows too. " + they
}

// pieceMass is what one cable of a row weighs, as it was weighed or by its kind.
func pieceMass(p *plan.Plan, reel plan.Reel) (kg float64, known bool) {
	kind, _ := p.CableKinds.Get(plan.Key(reel.Kind))
	switch {
	case reel.Weight.Set:
		return reel.Weight.Value, true
	case kind.Weight.Set:
		return kind.Weight.Value * reel.Length / 100, true
	}
	return 0, false
}

// StockDays reads the days on which a show has what it takes of the house's stock into the settings of its plan; blank ones are
// open.
func StockDays(s plan.Settings, out, back string) (plan.Settings, error) {
	for _, each := range []struct {
		typed string
		into  *string
		named string
	}{{out, &s.OutOn, "stock leaves on"}, {back, &s.BackOn, "back on"}} {
		typed := strings.TrimSpace(each.typed)
		if typed == "" {
			*each.into = ""
			continue
		}
		day, err := time.Parse("2006-1-2", typed)
		if err != nil {
			return s, fmt.Errorf("%s: %s is no day; write year-month-day, for instance 2027-06-19", each.named, plan.Clipped(typed))
		}
		*each.into = day.Format(time.DateOnly)
	}
	if s.BackOn != "" && s.OutOn > s.BackOn {
		return s, fmt.Errorf("the stock would be back on %s, before it leaves on %s", s.BackOn, s.OutOn)
	}
	return s, nil
}
