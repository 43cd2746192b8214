package text

import (
	"fmt"
	"strings"

	"stageloom/model/plan"
	"stageloom/model/words"
)

// ofHouse counts of a reel what the show has of the house's stock, and what of that the house does not let it have. What is away
// for another reason is not counted twice.
func ofHouse(reel plan.Reel) (count, lacking int) {
	if reel.Taking == "" {
		return 0, 0
	}
	if reel.State != "" {
		return reel.Count(), 0
	}
	return reel.Count(), min(reel.Count(), reel.Lacking)
}

// houseWords say that a line is the house's, or how much of it the house does not let the show have; blank where nothing is.
func (r StockRow) houseWords() string {
	switch {
	case r.Lacking > 0 && r.Count == 1:
		return ", the house has not"
	case r.Lacking > 0:
		return fmt.Sprintf(", %d the house has not", r.Lacking)
	case r.House == r.Count && r.House > 0:
		return ", the house's"
	case r.House > 0:
		return fmt.Sprintf(", %d the house's", r.House)
	}
	return ""
}

// StockTip says all of a line of the stock list: what it is, what its note says, and why the house does not let the show have
// all of it; blank for a head.
func StockTip(p *plan.Plan, row StockRow, units words.Units) string {
	if row.Head != "" {
		return ""
	}
	lines := []string{strings.TrimSpace(units.Piece(row.Length) + " " + kindName(p, row.Kind)), row.Note}
	if row.Name != units.Piece(row.Length) && !row.Faulty {
		lines[0] = row.Name + " · " + lines[0]
	}
	if row.House > 0 {
		lines = append(lines, fmt.Sprintf("the house's: %d of %d", row.House, row.Count))
	}
	for _, id := range row.Reels {
		reel, _ := p.Reels.Get(plan.Key(id))
		if _, lacking := ofHouse(reel); lacking > 0 {
			lines = append(lines, SomeWords(p, reel, reel.Count(), units)+" "+lackingWords(reel))
		}
	}
	return strings.Join(lines, "\n")
}
