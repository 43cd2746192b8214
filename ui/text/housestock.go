package text

import (
	"cmp"
	"fmt"
	"slices"

	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// HouseRow is a line of the house's stock: a reel or a quantity of equal ones, with how many are in the house.
type HouseRow struct {
	Reel  plan.Reel
	Words string
	// Note is what is left, and where the others are.
	Note string
	Left int
}

// HouseRows lists the house's stock as far as its words hold those of a query, as a show sees it.
func HouseRows(s house.Stock, p *plan.Plan, query string, units words.Units) (rows []HouseRow) {
	for _, reel := range laidFirst(s.Plan, nil) {
		if query != "" && !matches(query, reelTexts(s.Plan, reel, units)...) {
			continue
		}
		row := HouseRow{Reel: reel, Words: ReelWords(s.Plan, reel, units), Left: s.Free(p, reel)}
		row.Note = fmt.Sprintf("%d of %d left", row.Left, reel.Count())
		for _, taking := range s.Takings {
			switch {
			case taking.Reel != reel.ID:
			case taking.Plan == p.Settings.Identity:
				row.Note += fmt.Sprintf(", %d with this show", taking.Quantity)
			default:
				row.Note += fmt.Sprintf(", %d with %s", taking.Quantity, s.ShowName(taking))
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// ShowRow is a line of what a show has of the house's stock. Reel is a row of the plan; Taking is set alone where the
// house has lent what the plan does not hold.
type ShowRow struct {
	Reel   plan.Reel
	Taking string
	Count  int
	Words  string
	Note   string
}

// ShowRows lists what the plan has of the house's stock, then what is out with its show and not in it.
func ShowRows(p *plan.Plan, s house.Stock, units words.Units) (rows []ShowRow) {
	held := map[string]bool{}
	used := p.UsedReels()
	known := map[string]bool{}
	for _, taking := range s.Takings {
		known[taking.ID] = true
	}
	for _, reel := range laidFirst(p, used) {
		if reel.Taking == "" {
			continue
		}
		held[reel.Taking] = true
		row := ShowRow{Reel: reel, Count: reel.Count(), Words: ReelWords(p, reel, units), Note: fmt.Sprintf("%d in links", used[reel.ID])}
		if !known[reel.Taking] {
			row.Note = "the house has it back already"
		}
		rows = append(rows, row)
	}
	missing := slices.SortedFunc(slices.Values(s.With(p.Settings.Identity)), func(a, b house.Taking) int { return cmp.Compare(a.ID, b.ID) })
	for _, taking := range missing {
		if held[taking.ID] {
			continue
		}
		reel, _ := s.Plan.Reels.Get(plan.Key(taking.Reel))
		reel.Quantity = taking.Quantity
		rows = append(rows, ShowRow{
			Taking: taking.ID, Count: taking.Quantity, Words: ReelWords(s.Plan, reel, units),
			Note: "taken on " + taking.Day + ", but not in this plan",
		})
	}
	return rows
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
