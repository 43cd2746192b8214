package sources

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/plan"
	"stageloom/ui/panel"
	"stageloom/ui/table"
)

// anyLink stands for a laid spare that names no link.
const anyLink = "any"

// standsFor is the column of what a laid spare stands in for.
func standsFor(p *plan.Plan) table.Field[linkRow] {
	return table.Field[linkRow]{
		Column: aside(choice("stands for", "Stands in for", 110, "of a laid spare: the link that it is to replace, or any of its transport between its ends.")),
		Text: func(r linkRow) string {
			if link, named := p.Link(r.link.StandsFor); named && r.link.IsSpare() {
				return link.Name
			}
			if r.link.IsSpare() {
				return panel.AnyBetween(p, r.link)
			}
			return ""
		},
		Choices: func(r linkRow) []string {
			if !r.link.IsSpare() {
				return nil
			}
			return append([]string{anyLink}, replaceable(p, r.link)...)
		},
		Set: setStandsFor,
	}
}

// replaceable are the names of the links that a spare could take over.
func replaceable(p *plan.Plan, spare plan.Link) (names []string) {
	for link := range p.Links.All() {
		if !link.IsSpare() && p.CanTakeOver(link, spare) {
			names = append(names, link.Name)
		}
	}
	slices.Sort(names)
	return names
}

// setStandsFor takes a link's name; blank, or what begins with any, is any between the ends.
func setStandsFor(e *plan.Edit, ref plan.Ref, typed string) error {
	typed = strings.TrimSpace(typed)
	if typed == "" || typed == anyLink || strings.HasPrefix(typed, anyLink+" ") {
		return e.StandIn(plan.LinkID(ref.Key), "")
	}
	for link := range e.Now().Links.All() {
		if strings.EqualFold(link.Name, typed) {
			return e.StandIn(plan.LinkID(ref.Key), link.ID)
		}
	}
	return fmt.Errorf("there is no link %q; write a link's name, or any", plan.Clipped(typed))
}
