package house

import (
	"fmt"
	"strings"

	"stageloom/model/plan"
)

// Tied are the rows of a plan, or of the house's stock, that are tied into the same loom or trunk piece as a reel, in the order
// of the rows and the reel among them. All of them are taken, given back, received and set aside together. A reel that is tied
// into nothing stands alone.
func Tied(p *plan.Plan, reel plan.ReelID) (ids []plan.ReelID) {
	row, found := p.Reels.Get(plan.Key(reel))
	if !found || strings.TrimSpace(row.TiedInto) == "" {
		return []plan.ReelID{reel}
	}
	for other := range p.Reels.All() {
		if tiedAlike(other, row) {
			ids = append(ids, other.ID)
		}
	}
	return ids
}

func tiedAlike(a, b plan.Reel) bool {
	return strings.EqualFold(strings.TrimSpace(a.TiedInto), strings.TrimSpace(b.TiedInto))
}

// wholePieces makes of some of rows all of what they are tied into: each row once, whole where it is tied. A part of a piece
// that is said alone is all of it; blank ones stay as they are.
func wholePieces(p *plan.Plan, wants []Want) (all []Want) {
	seen := map[plan.ReelID]bool{}
	for _, want := range wants {
		row, _ := p.Reels.Get(plan.Key(want.Reel))
		if strings.TrimSpace(row.TiedInto) == "" {
			all = append(all, want)
			continue
		}
		for _, id := range Tied(p, want.Reel) {
			piece, _ := p.Reels.Get(plan.Key(id))
			if !seen[id] {
				all = append(all, Want{id, piece.Count()})
			}
			seen[id] = true
		}
	}
	return all
}

// tiedWords says of a row that it is part of a piece, in front of what is wrong with it; blank where it is alone.
func tiedWords(p *plan.Plan, row plan.Reel) string {
	if row.TiedInto == "" {
		return named(p, row)
	}
	return fmt.Sprintf("%s, which is tied into %s and goes with all of it,", named(p, row), plan.Clipped(strings.TrimSpace(row.TiedInto)))
}
