package text

import (
	"fmt"
	"strings"

	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// HouseConflicts says what of the house's stock a plan has that its show cannot have on its days, a sentence each.
func HouseConflicts(s *house.Stock, p *plan.Plan, day string, units words.Units) (all []string) {
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
	for _, refused := range s.Told(p) {
		reel, found := s.Plan.Reels.Get(plan.Key(refused.Reel))
		if !found {
			reel = reelOfTaking(p, refused.Taking)
			all = append(all, house.NamedIn(p, reel, units)+" "+refused.Why+".")
			continue
		}
		named, at := house.NamedIn(s.Plan, reel, units), where[reel.ID]
		switch {
		case len(at) == 0 || reel.Condition == plan.Faulty:
			all = append(all, named+" "+refused.Why+".")
		case reel.Count() == 1:
			all = append(all, named+" is still "+words.And(at, 3)+".")
		default:
			all = append(all, fmt.Sprintf("Of %s this show has %d of %d: %s.", named, refused.Had, refused.Wanted, words.And(at, 3)))
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

// CaseLines lists the cases of a stock with what lies in them and how much they take; one that is over-full says so.
func CaseLines(p *plan.Plan) (lines []CaseLine) {
	type load struct {
		pieces, unknown int
		mass            float64
	}
	loads := map[plan.CaseID]load{}
	for reel := range p.Reels.All() {
		if reel.Case == "" {
			continue
		}
		in := loads[reel.Case]
		in.pieces += reel.Count()
		if mass, known := pieceMass(p, reel); known {
			in.mass += mass * float64(reel.Count())
		} else {
			in.unknown += reel.Count()
		}
		loads[reel.Case] = in
	}
	for box := range p.Cases.All() {
		in := loads[box.ID]
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
		if over := box.Pieces > 0 && in.pieces > box.Pieces || box.Most.Set && in.mass > box.Most.Value; over {
			line.Over = true
			notes = append(notes, "over-full")
		}
		line.Note = strings.Join(notes, ", ")
		lines = append(lines, line)
	}
	words.SortNatural(lines, func(l *CaseLine) string { return l.Words }, func(a, b *CaseLine) int { return strings.Compare(string(a.Case.ID), string(b.Case.ID)) })
	return lines
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
