package exchange

import (
	"cmp"
	"slices"

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
		{Head: Note, Width: 28},
	}}
	for _, reel := range InStockOrder(p) {
		kind, _ := p.CableKinds.Get(plan.Key(reel.Kind))
		box, _ := p.Cases.Get(plan.Key(reel.Case))
		sheet.Rows = append(sheet.Rows, []Cell{
			Text(kind.Name), Figure(reel.Length), Count(reel.Count()), Text(reel.Tag), Text(box.Name), Text(reel.Condition),
			Text(reel.Reason), Text(reel.FoundAt), Text(reel.FoundOn), Optional(reel.Measured.Value, reel.Measured.Set),
			Optional(reel.Nominal, reel.Nominal > 0), Text(reel.Owner), Text(reel.Hire), Text(reel.Return), Text(reel.Bought), Text(reel.Note),
		})
	}
	return sheet
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
