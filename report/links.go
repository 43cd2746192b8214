package report

import (
	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

// member is a link with its budget.
type member struct {
	link   plan.Link
	budget budget.Budget
}

// group is the links that share a transport and a limit rule.
type group struct {
	title string
	links []member
}

// groups sorts the links into groups by transport and limit rule: graded ones first, each in the natural order of
// the links' names.
func (p *printout) groups() []group {
	type key struct {
		transport plan.TransportID
		rule      plan.RuleID
	}
	found := map[key]*group{}
	var keys []key
	for _, link := range p.Links() {
		b, _ := p.Budget(link.ID)
		k := key{link.Transport, b.Rule}
		if found[k] == nil {
			found[k] = &group{title: groupTitle(b)}
			keys = append(keys, k)
		}
		found[k].links = append(found[k].links, member{link, b})
	}
	var groups []group
	for _, transport := range p.transports() {
		for _, k := range keys {
			if k.transport == transport {
				groups = append(groups, *found[k])
			}
		}
	}
	return groups
}

// transports lists the transports in use: those that are known in their own order, then the others by name.
func (p *printout) transports() []plan.TransportID {
	used := map[plan.TransportID]bool{}
	var strange []plan.TransportID
	for _, link := range p.Links() {
		_, err := standards.TransportBySlug(standards.TransportSlug(link.Transport))
		if err != nil && !used[link.Transport] {
			strange = append(strange, link.Transport)
		}
		used[link.Transport] = true
	}
	var order []plan.TransportID
	for _, transport := range standards.Transports() {
		if id := plan.TransportID(transport.Slug); used[id] {
			order = append(order, id)
		}
	}
	return append(order, strange...)
}

func groupTitle(b budget.Budget) string {
	if !b.Graded {
		return b.TransportName + ": no loss budget, so no dB and no grade"
	}
	rule, err := standards.LimitRuleBySlug(standards.RuleSlug(b.Rule))
	if err != nil {
		return b.TransportName
	}
	return b.TransportName + " by the " + rule.Name
}
