package text

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// HouseLine is some of a row of the house's stock and where it is.
type HouseLine struct {
	house.Whereabouts
	// ID tells the line from the others and stays when the house changes otherwise.
	ID string
	// Words are what it is, Note where it is and what there is to say of it.
	Words, Note string
	// Left is how many of it a show can take now.
	Left int
}

// Out reports whether the house can receive it from a show.
func (l HouseLine) Out() bool { return l.Place == house.WithShow || l.Place == house.Overdue }

// Lost reports whether it is in the stock and not there: missing, in repair or written off.
func (l HouseLine) Lost() bool {
	return l.Place == house.IsMissing || l.Place == house.InWorkshop || l.Place == house.IsGone
}

// HouseQuery is what of the house's stock is looked for, as seen on a day.
type HouseQuery struct {
	// Words are words that a line holds; how many are wanted may stand in front, "3 x 10 m".
	Words string
	// Place is one of [HousePlaces]; blank is everywhere.
	Place string
	Day   string
	Units words.Units
}

// HousePlaces are the places by which the house's stock is looked through.
func HousePlaces() []string {
	return []string{Everywhere, string(house.InHouse), string(house.Promised), withShows, string(house.Overdue), string(house.IsMissing), string(house.InWorkshop), string(house.IsGone)}
}

// Everywhere is the place of all of the stock.
const (
	Everywhere = "everywhere"
	withShows  = "with shows"
)

// asked reports whether a line is at the place that is asked for; what is overdue is with a show too.
func (q HouseQuery) asked(place house.Place) bool {
	switch q.Place {
	case "", Everywhere:
		return true
	case withShows:
		return place == house.WithShow || place == house.Overdue
	}
	return q.Place == string(place)
}

// HouseLines lists the house's stock as far as it is looked for, as a show sees it.
func HouseLines(s *house.Stock, p *plan.Plan, q HouseQuery) (lines []HouseLine) {
	_, query, _ := house.Many(q.Words)
	where := map[plan.ReelID][]house.Whereabouts{}
	for _, w := range s.Whereabouts(q.Day) {
		where[w.Reel.ID] = append(where[w.Reel.ID], w)
	}
	planned := plannedOf(s, p)
	for _, reel := range laidFirst(s.Plan, nil) {
		free := s.Free(p, reel)
		for _, w := range where[reel.ID] {
			show := ""
			if w.Place != house.InHouse {
				show = w.Show.Name
			}
			if !q.asked(w.Place) || query != "" && !matches(query, append(reelTexts(s.Plan, reel, q.Units), reel.TiedInto, show)...) {
				continue
			}
			lines = append(lines, houseLine(s.Plan, w, free, planned[reel.ID], q))
		}
	}
	return lines
}

// plannedOf counts of each row of the house what a plan has taken and has not been saved with.
func plannedOf(s *house.Stock, p *plan.Plan) map[plan.ReelID]int {
	planned := map[plan.ReelID]int{}
	for reel := range p.Reels.All() {
		if reel.Taking != "" {
			planned[plan.ReelID(reel.HouseReel)] += reel.Count()
		}
	}
	for _, taking := range s.With(p.Settings.Identity) {
		planned[taking.Reel] -= taking.Quantity
	}
	return planned
}

func houseLine(p *plan.Plan, w house.Whereabouts, free, planned int, q HouseQuery) HouseLine {
	some := w.Reel
	some.Quantity = w.Quantity
	line := HouseLine{
		Whereabouts: w, ID: strings.Join([]string{string(w.Reel.ID), string(w.Place), w.Taking.ID, w.Taking.Plan}, "/"),
		Words: PieceWords(p, some, q.Units),
	}
	notes := []string{w.Words(q.Day)}
	switch {
	case w.Place == house.Promised:
	case w.Place != house.InHouse:
		notes = append(notes, w.Reel.Note)
	default:
		line.Left = min(w.Quantity, free)
		if w.Reel.Condition == plan.Faulty {
			line.Left = 0
			notes = append(notes, w.Reel.Reason)
			break
		}
		taken := w.Quantity - line.Left
		if ours := min(taken, planned); ours > 0 {
			taken -= ours
			notes = append(notes, countedOf(ours, w.Quantity)+"taken for this show, not saved yet")
		}
		if taken > 0 {
			notes = append(notes, countedOf(taken, w.Quantity)+"not free on this show's days")
		}
	}
	line.Note = strings.Join(slices.DeleteFunc(notes, func(note string) bool { return note == "" }), ", ")
	return line
}

// countedOf is "4 of them " where that is not all.
func countedOf(some, all int) string {
	if some == all {
		return ""
	}
	return fmt.Sprintf("%d of them ", some)
}

// PieceWords is a reel in one line, with the piece that it is part of.
func PieceWords(p *plan.Plan, reel plan.Reel, units words.Units) string {
	said := ReelWords(p, reel, units)
	if reel.TiedInto != "" {
		said += " · tied into " + reel.TiedInto
	}
	return said
}

// ShowLine is what a show has of the house's stock. Reel is a row of the plan; where it is blank the house still counts as
// out with this show what the plan has no more.
type ShowLine struct {
	Reel        plan.Reel
	ID          string
	Count       int
	Words, Note string
	// Found is in what the row is another than the house knows it to be.
	Found []house.Difference
	// Lacks means that the house does not let the show have all of it.
	Lacks bool
}

// ShowLines lists what the plan has of the house's stock as far as it is looked for, then what is out with its show and in it
// no more.
func ShowLines(p *plan.Plan, s *house.Stock, q HouseQuery) (lines []ShowLine) {
	held := map[string]bool{}
	used := p.UsedReels()
	_, query, _ := house.Many(q.Words)
	for _, reel := range laidFirst(p, used) {
		if reel.Taking == "" {
			continue
		}
		held[reel.Taking] = true
		if query != "" && !matches(query, append(reelTexts(p, reel, q.Units), reel.TiedInto)...) {
			continue
		}
		line := ShowLine{Reel: reel, ID: string(reel.ID), Count: reel.Count(), Words: PieceWords(p, reel, q.Units), Found: s.FoundOut(p, reel), Lacks: reel.Lacking > 0}
		notes := []string{}
		if line.Lacks {
			notes = append(notes, lackingWords(reel))
		}
		if len(line.Found) > 0 {
			notes = append(notes, DifferenceWords(line.Found))
		}
		if used[reel.ID] > 0 {
			notes = append(notes, fmt.Sprintf("%d in links", used[reel.ID]))
		}
		line.Note = strings.Join(notes, ", ")
		lines = append(lines, line)
	}
	gone := slices.SortedFunc(slices.Values(s.With(p.Settings.Identity)), func(a, b house.Taking) int { return cmp.Compare(a.ID, b.ID) })
	for _, taking := range gone {
		reel, _ := s.Plan.Reels.Get(plan.Key(taking.Reel))
		reel.Quantity = taking.Quantity
		if held[taking.ID] || query != "" && !matches(query, reelTexts(s.Plan, reel, q.Units)...) {
			continue
		}
		lines = append(lines, ShowLine{ID: "gone/" + taking.ID, Count: taking.Quantity, Words: PieceWords(s.Plan, reel, q.Units), Note: "in this plan no more: back with the next save"})
	}
	return lines
}

// lackingWords says that the house does not let a show have a row.
func lackingWords(reel plan.Reel) string {
	lacking := "lacking"
	if reel.Count() > 1 {
		lacking = fmt.Sprintf("lacking %d", reel.Lacking)
	}
	return lacking + ": " + cmp.Or(strings.TrimPrefix(reel.LackingWhy, "is out: "), "the house does not have it")
}

// DifferenceWords says in what something is another than the house knows: "50 m → 43 m", "condition good → suspect".
func DifferenceWords(found []house.Difference) string {
	var parts []string
	for i, each := range found {
		if i > 0 && each.Field == "Nominal length" && found[0].Field == "Length" && each.Was == found[0].Was && each.Is == found[0].Is {
			continue // it is as long as it is called
		}
		said := cmp.Or(each.Was, "none") + " → " + cmp.Or(each.Is, "none")
		if each.Field != "Length" {
			said = strings.ToLower(each.Field) + " " + said
		}
		parts = append(parts, said)
	}
	return words.Listed(parts)
}

// OwnReels are the rows of a plan that the house did not lend and nobody else owns or hires out: what it could take into its
// stock.
func OwnReels(p *plan.Plan) (ids []plan.ReelID) {
	for reel := range p.Reels.All() {
		if _, hired := reel.Lender(); reel.Taking == "" && !hired {
			ids = append(ids, reel.ID)
		}
	}
	return ids
}

// SomeWords is some of a row in one line, without its case.
func SomeWords(p *plan.Plan, reel plan.Reel, quantity int, units words.Units) string {
	if reel.Tag != "" {
		return reel.Tag
	}
	return fmt.Sprintf("%d × %s %s", quantity, units.Metres(reel.Length), kindName(p, reel.Kind))
}
