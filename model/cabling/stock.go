package cabling

import (
	"cmp"
	"slices"

	"stageloom/model/plan"
)

// Left is what a kind and length of the stock amounts to while one plans: cables in all, in links, and of those that lie
// free the good, the suspect and the faulty ones.
type Left struct {
	Kind   plan.CableKindID
	Length float64 // m
	Reels  []plan.ReelID
	// Total = Used + Free + Suspect + Faulty.
	Total, Used, Free, Suspect, Faulty int
}

// StockLeft tells what is left of the stock, a row for each kind and length, by kind, the longest first.
func StockLeft(p *plan.Plan) []Left {
	type row struct {
		kind   plan.CableKindID
		length float64
	}
	used, rows := p.UsedReels(), map[row]*Left{}
	for reel := range p.Reels.All() {
		key := row{reel.Kind, reel.Length}
		left := rows[key]
		if left == nil {
			left = &Left{Kind: reel.Kind, Length: reel.Length}
			rows[key] = left
		}
		left.Reels = append(left.Reels, reel.ID)
		left.Total += reel.Count()
		left.Used += used[reel.ID]
		free := reel.Count() - used[reel.ID]
		switch reel.Condition {
		case plan.Faulty:
			left.Faulty += free
		case plan.Suspect:
			left.Suspect += free
		default:
			left.Free += free
		}
	}
	all := make([]Left, 0, len(rows))
	for _, left := range rows {
		all = append(all, *left)
	}
	slices.SortFunc(all, func(a, b Left) int {
		return cmp.Or(cmp.Compare(a.Kind, b.Kind), cmp.Compare(b.Length, a.Length))
	})
	return all
}

// LeftOf tells how many cables of a reel's row no link holds.
func LeftOf(p *plan.Plan, reel plan.Reel) int { return reel.Count() - p.UsedReels()[reel.ID] }
