package panel_test

import (
	"fmt"
	"strings"

	"stageloom/model/plan"
	"stageloom/ui/panel"
	"stageloom/ui/text"
)

// told is a card as a person reads it from above.
func told(c text.Card) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s   [%s]\n%s\n\n", c.Title, c.Kind, c.Subtitle)
	for _, f := range c.Figures {
		fmt.Fprintf(&b, "%-20s %14s   %s\n", f.Name, f.Value, f.Note)
	}
	for _, f := range c.Findings {
		fmt.Fprintf(&b, "\n%s: %s\n", f.Severity, panel.Sentences(f))
	}
	return b.String()
}

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
