package panel_test

import "stageloom/model/plan"

func linkNamed(p *plan.Plan, name string) plan.Ref {
	for link := range p.Links.All() {
		if link.Name == name {
			return plan.RefOf(link)
		}
	}
	return plan.Ref{}
}

func positionNamed(p *plan.Plan, name string) plan.Ref {
	for position := range p.Positions.All() {
		if position.Name == name {
			return plan.RefOf(position)
		}
	}
	return plan.Ref{}
}
