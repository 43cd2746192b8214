package stocklist

import (
	"cmp"
	"fmt"
	"slices"

	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// Conflicts say which promises cannot be kept as things are on a day, one sentence each: more of a row is promised for one day
// than there is, whatever is overdue counted as not back.
func Conflicts(s house.Stock, day string) (said []string) {
	claims := map[plan.ReelID][]house.Whereabouts{}
	var order []plan.Reel
	for _, one := range s.Whereabouts(day) {
		if !slices.Contains([]house.Place{house.WithShow, house.Overdue, house.Promised}, one.Place) {
			continue
		}
		if claims[one.Reel.ID] == nil {
			order = append(order, one.Reel)
		}
		claims[one.Reel.ID] = append(claims[one.Reel.ID], one)
	}
	slices.SortStableFunc(order, func(a, b plan.Reel) int { return words.Natural(a.Tag, b.Tag) })
	for _, reel := range order {
		said = append(said, clashes(s.Plan, reel, claims[reel.ID])...)
	}
	return said
}

// clashes tell of every promise of a row that finds too few on the day it leaves.
func clashes(p *plan.Plan, reel plan.Reel, claims []house.Whereabouts) (said []string) {
	for _, late := range claims {
		if late.Place != house.Promised {
			continue
		}
		out := 0
		var names []string
		for _, other := range claims {
			back := other.Place != house.Overdue && other.Due != "" && other.Due < late.Show.From
			if other.Show.ID == late.Show.ID || other.Place == house.Promised && other.Show.From > late.Show.From || back {
				continue
			}
			out += other.Quantity
			names = append(names, holding(other))
		}
		if lack := out + late.Quantity - reel.Count(); lack > 0 && len(names) > 0 {
			name := cmp.Or(reel.Tag, Bare(reel.Length)+"\u00a0m "+KindName(p, reel.Kind))
			said = append(said, fmt.Sprintf("%s is promised to %s on %s, but %s: %d too few.", name, late.Show.Name, late.Show.From, words.And(names, words.MostListed), lack))
		}
	}
	return said
}

// holding says who has a cable and until when.
func holding(one house.Whereabouts) string {
	switch {
	case one.Place == house.Overdue:
		return one.Show.Name + " has it overdue since " + one.Due
	case one.Due == "":
		return one.Show.Name + " has it and says no day"
	}
	return one.Show.Name + " has it until " + one.Due
}
