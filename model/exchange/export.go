package exchange

import (
	"cmp"
	"slices"

	"stageloom/model/fields"
	"stageloom/model/plan"
)

// StockSheet is the reels of a plan, lengths in metres, in the columns that [ReadStock] reads back.
func StockSheet(p *plan.Plan) Sheet {
	sheet := Sheet{Name: "Stock", Columns: []Column{
		{Head: Kind, Width: 30},
		{Head: Length + " (m)", Digits: 1},
		{Head: Quantity, Width: 10},
		{Head: Tag},
		{Head: CaseName, Width: 24},
		{Head: Condition, Width: 10},
		{Head: Reason, Width: 28},
		{Head: FoundAt},
		{Head: FoundOn},
		{Head: Measured + " (dB)", Digits: 1},
		{Head: Nominal + " (m)", Digits: 1},
		{Head: Owner},
		{Head: Hire},
		{Head: Return},
		{Head: Bought},
		{Head: State, Width: 12},
		{Head: StateOn},
		{Head: Weight + " (kg)", Digits: 1},
		{Head: TiedInto, Width: 20},
		{Head: LastService},
		{Head: ServiceNote, Width: 28},
		{Head: ServicedBy},
		{Head: Note, Width: 28},
	}}
	last := lastServices(p)
	said := fields.Of(plan.ReelsTable, "state")
	for _, reel := range InStockOrder(p) {
		kind, _ := p.CableKinds.Get(plan.Key(reel.Kind))
		box, _ := p.Cases.Get(plan.Key(reel.Case))
		sheet.Rows = append(sheet.Rows, []Cell{
			Text(kind.Name), Figure(reel.Length), Count(reel.Count()), Text(reel.Tag), Text(box.Name), Text(reel.Condition),
			Text(reel.Reason), Text(reel.FoundAt), Text(reel.FoundOn), Optional(reel.Measured.Value, reel.Measured.Set),
			Optional(reel.Nominal, reel.Nominal > 0), Text(reel.Owner), Text(reel.Hire), Text(reel.Return), Text(reel.Bought),
			Text(stateWords(said, reel)), Text(reel.StateOn), Optional(reel.Weight.Value, reel.Weight.Set), Text(reel.TiedInto),
			Text(last[reel.ID].Day), Text(last[reel.ID].Work), Text(last[reel.ID].By), Text(reel.Note),
		})
	}
	return sheet
}

// stateWords say that a reel is not there, blank of one that is.
func stateWords(of *fields.Field, reel plan.Reel) string {
	if reel.State == "" {
		return ""
	}
	return of.Text(fields.State{}, reel)
}

// lastServices are the last lines of the reels' histories.
func lastServices(p *plan.Plan) map[plan.ReelID]plan.Service {
	last := map[plan.ReelID]plan.Service{}
	for line := range p.Services.All() {
		if later(line, last[line.Reel]) {
			last[line.Reel] = line
		}
	}
	return last
}

// later reports whether a line of a history comes behind another.
func later(a, b plan.Service) bool {
	return cmp.Or(cmp.Compare(a.Day, b.Day), cmp.Compare(a.ID, b.ID)) > 0
}

// CaseSheet is the cases of a plan, in the columns that [ReadCases] reads back.
func CaseSheet(p *plan.Plan) Sheet {
	sheet := Sheet{Name: "Cases", Columns: []Column{{Head: CaseName, Width: 28}, {Head: Note, Width: 40}}}
	cases := slices.SortedFunc(p.Cases.All(), func(a, b plan.Case) int { return cmp.Or(cmp.Compare(a.Name, b.Name), cmp.Compare(a.ID, b.ID)) })
	for _, box := range cases {
		sheet.Rows = append(sheet.Rows, []Cell{Text(box.Name), Text(box.Note)})
	}
	return sheet
}

// InStockOrder is the stock as a list: by kind, the longest first, then by tag.
func InStockOrder(p *plan.Plan) []plan.Reel {
	return slices.SortedFunc(p.Reels.All(), func(a, b plan.Reel) int {
		return cmp.Or(cmp.Compare(a.Kind, b.Kind), cmp.Compare(b.Length, a.Length), cmp.Compare(a.Tag, b.Tag), cmp.Compare(a.ID, b.ID))
	})
}
