package panel

import (
	"cmp"
	"slices"
	"strings"

	"stageloom/model/catalogue"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

// Choice is one entry of a list in a form: what it stands for, blank for none, and what it says.
type Choice struct{ Value, Words string }

// IndexOf is the place of a value among choices; the first stands for what is not among them.
func IndexOf(choices []Choice, value string) int {
	return max(0, slices.IndexFunc(choices, func(c Choice) bool { return c.Value == value }))
}

// TransportChoices are the transports that both ports of a link take.
func TransportChoices(p *plan.Plan, link plan.Link) (choices []Choice) {
	for _, id := range catalogue.TransportsFor(p, link) {
		words := string(id)
		if transport, err := standards.TransportBySlug(standards.TransportSlug(id)); err == nil {
			words = transport.Name
		}
		choices = append(choices, Choice{string(id), words})
	}
	return choices
}

// RuleChoices are the limit rules that a link on a transport may be held to; the first is the plan's own. A transport
// without grade has none.
func RuleChoices(p *plan.Plan, id plan.TransportID) []Choice {
	transport, err := standards.TransportBySlug(standards.TransportSlug(id))
	if err != nil || !transport.Graded() {
		return []Choice{{"", "no grade, no rule"}}
	}
	own := plan.RuleID(transport.Rule)
	if row, found := p.TransportRules.Get(plan.Key(id)); found {
		own = row.Rule
	}
	choices := []Choice{{"", "the plan's: " + ruleName(own)}}
	for _, rule := range standards.LimitRules() {
		choices = append(choices, Choice{string(rule.Slug), rule.Name})
	}
	return choices
}

// PartnerChoices are the links of the same transport that could be main or backup with a link: those between the same
// devices first, then those that share one, then the others.
func PartnerChoices(p *plan.Plan, link plan.Link) []Choice {
	type candidate struct {
		link  plan.Link
		apart int
	}
	var candidates []candidate
	for other := range p.Links.All() {
		if other.ID == link.ID || other.Transport != link.Transport || other.IsSpare() {
			continue
		}
		apart := 2
		for _, end := range []plan.DeviceID{other.From, other.To} {
			if end == link.From || end == link.To {
				apart--
			}
		}
		candidates = append(candidates, candidate{other, apart})
	}
	slices.SortFunc(candidates, func(a, b candidate) int {
		return cmp.Or(cmp.Compare(a.apart, b.apart), cmp.Compare(a.link.Name, b.link.Name))
	})
	choices := []Choice{{"", "none"}}
	for _, c := range candidates {
		words := c.link.Name + " · " + deviceName(p, c.link.From) + " → " + deviceName(p, c.link.To)
		if c.link.Partner != "" && c.link.Partner != link.ID {
			partner, _ := p.Link(c.link.Partner)
			words += " · paired with " + partner.Name
		}
		choices = append(choices, Choice{string(c.link.ID), words})
	}
	return choices
}

// StandInChoices are what a laid spare may stand in for: any link of its transport between its ends, or one that is named;
// those that it could take over stand first.
func StandInChoices(p *plan.Plan, spare plan.Link) []Choice {
	free := spare
	free.StandsFor = ""
	choices := []Choice{{"", AnyBetween(p, free)}}
	var rest []Choice
	for _, link := range slices.SortedFunc(p.Links.All(), func(a, b plan.Link) int { return cmp.Compare(a.Name, b.Name) }) {
		choice := Choice{string(link.ID), link.Name + " · " + deviceName(p, link.From) + " → " + deviceName(p, link.To)}
		switch {
		case link.IsSpare():
		case p.CanTakeOver(link, spare):
			choices = append(choices, choice)
		default:
			choice.Words += " · ends elsewhere"
			rest = append(rest, choice)
		}
	}
	return append(choices, rest...)
}

// AnyBetween says what a spare that names no link stands in for.
func AnyBetween(p *plan.Plan, spare plan.Link) string {
	var names []string
	for _, link := range p.StandsInFor(spare) {
		names = append(names, link.Name)
	}
	slices.Sort(names)
	if len(names) == 0 {
		return "any between its ends: none"
	}
	return "any between its ends: " + strings.Join(names, ", ")
}

// RoleWord is a link's role as it is read: main, backup, laid spare.
func RoleWord(role string) string {
	if role == plan.Spare {
		return "laid spare"
	}
	return role
}

// RoleChoices say which of a pair a link is.
func RoleChoices() []Choice { return []Choice{{"main", "main"}, {"backup", "backup"}} }

// Paired makes a link main or backup of a partner, or parts it from the one it has; a pair that is as asked stays.
func Paired(e *plan.Edit, link, partner plan.LinkID, role string) error {
	now, _ := e.Now().Link(link)
	switch {
	case now.Partner == partner && (partner == "" || now.Role == role):
		return nil
	case partner == "":
		e.Unpair(link)
		return nil
	case role == "backup":
		return e.Pair(partner, link)
	}
	return e.Pair(link, partner)
}
