package report

import (
	"stageloom/model/assess"
	"stageloom/model/budget"
	"stageloom/model/plan"
)

// Budget is that of a link with its lengths as every page prints them; it stands in the place of the assessment's, so that no
// page rounds for itself.
func (p *printout) Budget(id plan.LinkID) (budget.Budget, bool) {
	b, found := p.Assessment.Budget(id)
	return b.Printed(1), found
}

// sumsOf sums up the links to print.
func sumsOf(a *assess.Assessment, links []plan.Link) assess.Totals {
	var budgets []budget.Budget
	for _, link := range links {
		b, _ := a.Budget(link.ID)
		budgets = append(budgets, b)
	}
	return assess.SumOf(a.Plan, budgets)
}

// laidCable is a cable of a link that stands there, or is assumed, and where it begins: metres of cable from the near end,
// inner leads left out, which nobody lays.
type laidCable struct {
	*budget.Part
	start float64
}

func (c laidCable) end() float64 { return c.start + c.Length }

// laidCables lists the cables of a link, the assumed ones last.
func laidCables(figures budget.Budget) (list []laidCable) {
	at := 0.0
	for i := range figures.Parts {
		if part := &figures.Parts[i]; part.What == budget.Cable {
			list = append(list, laidCable{part, at})
			at += part.Length
		}
	}
	return list
}
