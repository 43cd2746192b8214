package assess

import (
	"slices"
	"sync"

	"stageloom/model/budget"
	"stageloom/model/checks"
	"stageloom/model/patch"
	"stageloom/model/plan"
)

// Assessment is what a plan amounts to. Its slices are shared: read them, never write them.
type Assessment struct {
	// Plan is the plan assessed.
	Plan *plan.Plan
	// Budgets are those of all links, in the order of the plan's table of links.
	Budgets []budget.Budget
	// Patch is where every input goes in every act.
	Patch *patch.View
	// Findings are sorted by severity, then by the names of what they speak of in natural order.
	Findings []checks.Finding
	// Totals are the sums over all links.
	Totals Totals

	reckoner *budget.Reckoner
	byRule   []checks.Found
	reading  func() order
	at       func() map[checks.Place][]int // findings by the rows that they speak of
}

// Of assesses a plan.
func Of(p *plan.Plan) *Assessment {
	subject := checks.NewSubject(p)
	return assess(subject, func(_ int, rule checks.Rule) checks.Found { return rule.Run(subject) })
}

// Next assesses the plan that an edit made of the one before: what reads no changed table is taken over. It equals Of(p).
func Next(prev *Assessment, p *plan.Plan) *Assessment {
	if prev == nil {
		return Of(p)
	}
	if prev.Plan == p {
		return prev
	}
	reckoner := budget.NewReckoner(p)
	touched := reckoner.TouchedSince(prev.Plan, prev.Budgets)
	subject := &checks.Subject{Plan: p, Reckoner: reckoner, Budgets: reckoner.Next(prev.Budgets, touched), Patch: patch.Next(prev.Patch, p)}
	edited := &checks.Edited{Before: prev.Plan, Patch: prev.Patch, Touched: touched}
	a := assess(subject, func(i int, rule checks.Rule) checks.Found { return rule.Next(subject, edited, prev.byRule[i]) })
	if p.Links == prev.Plan.Links { // the order of links rests on their table alone
		a.reading = prev.reading
	}
	return a
}

// assess gathers what the rules find, and sums up.
func assess(s *checks.Subject, find func(i int, rule checks.Rule) checks.Found) *Assessment {
	a := &Assessment{Plan: s.Plan, Budgets: s.Budgets, Patch: s.Patch, reckoner: s.Reckoner}
	for i, rule := range checks.Rules() {
		a.byRule = append(a.byRule, find(i, rule))
	}
	a.Findings = sortFindings(a.byRule)
	a.Totals = totalsOf(a)
	table := s.Plan.Links // not the plan, which goes on in others
	a.reading = sync.OnceValue(func() order { return sortLinks(table) })
	a.at = sync.OnceValue(func() map[checks.Place][]int { return findingsByPlace(a.Findings) })
	return a
}

// Budget returns the budget of a link.
func (a *Assessment) Budget(id plan.LinkID) (budget.Budget, bool) {
	i, found := slices.BinarySearchFunc(a.Budgets, id, func(b budget.Budget, id plan.LinkID) int {
		switch {
		case b.Link < id:
			return -1
		case b.Link > id:
			return 1
		}
		return 0
	})
	if !found {
		return budget.Budget{}, false
	}
	return a.Budgets[i], true
}

// Reckoner reckons what is asked for beyond the budgets: advice, and previews of a drag.
func (a *Assessment) Reckoner() *budget.Reckoner { return a.reckoner }

// FindingsAt returns the findings that speak of a row, in their order.
func (a *Assessment) FindingsAt(table string, key plan.Key) []checks.Finding {
	var found []checks.Finding
	for _, i := range a.at()[checks.Place{Table: table, Key: key}] {
		found = append(found, a.Findings[i])
	}
	return found
}

// findingsByPlace gathers which findings speak of each row, each finding once.
func findingsByPlace(findings []checks.Finding) map[checks.Place][]int {
	at := make(map[checks.Place][]int, len(findings))
	for i := range findings {
		for _, place := range findings[i].Where {
			if known := at[place]; len(known) == 0 || known[len(known)-1] != i {
				at[place] = append(known, i)
			}
		}
	}
	return at
}
