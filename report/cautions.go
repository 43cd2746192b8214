package report

import (
	"fmt"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/standards"
	"stageloom/model/words"
	"stageloom/report/paper"
)

// drawCautions prints the usual cautions.
func (p *printout) drawCautions(b *paper.Book) {
	b.Title("Cautions")
	b.Cautions(p.cautions())
	drawNotices(b)
}

// drawAssumptions prints what the figures rest on.
func (p *printout) drawAssumptions(b *paper.Book) {
	b.Title("Assumptions")
	b.Heading("What the figures are")
	b.Definitions(p.assumptions())
	if rules := p.rules(); len(rules) > 0 {
		b.Heading("Limit rules")
		b.Definitions(rules)
	}
	drawNotices(b)
}

// drawNotices lists what is printed otherwise than typed.
func drawNotices(b *paper.Book) {
	if notices := b.Notices(); len(notices) > 0 {
		b.Heading("Printed otherwise than typed")
		b.Items(notices)
	}
}

// cautions are the usual ones, led by those for transports that the plan uses.
func (p *printout) cautions() []string {
	var said []string
	for _, id := range p.transports() {
		transport, err := standards.TransportBySlug(standards.TransportSlug(id))
		if err == nil && transport.NeverIntoNetworkPort {
			said = append(said, fmt.Sprintf("%s – NOT NETWORK: it looks like a network cable and never goes into a network port, at either end.", transport.Name))
		}
	}
	for _, caution := range standards.Cautions() {
		if strings.HasPrefix(caution.Text, caution.About) {
			said = append(said, caution.Text)
		} else {
			said = append(said, caution.About+": "+caution.Text)
		}
	}
	return said
}

// assumptions say what is computed from what, and what was taken where nobody has said anything.
func (p *printout) assumptions() []paper.Definition {
	s := p.Plan.Settings
	list := []paper.Definition{
		{Term: "Loss, margin", Text: "Computed " + p.references() + " for whole cables and every mated connection, from catalogue maxima or a reel's measured loss; not measured " +
			"on the link. Margin is limit less loss. No error rate is predicted: errors are counted in a test under load."},
		{Term: "Grades", Text: "Ample: at least twice the wanted margin. Enough: at least the wanted margin. Tight: inside the limit, less than wanted. " +
			"Over limit: do not use. Uncabled: cable is missing and no kind is chosen for it."},
	}
	if p.Totals.Links-p.Totals.Spares > p.Totals.Ungraded {
		list = append(list,
			paper.Definition{Term: "Cable temperature", Text: p.told(budget.Budget.TemperatureWhy) + " The cable counts, not the air. Defaults are common practice, no source."},
			paper.Definition{Term: "Wanted margin", Text: p.told(budget.Budget.WantedWhy) + " Defaults are common practice, no source."},
			paper.Definition{Term: "Couplers", Text: couplerWords(s.Coupler)},
		)
	}
	list = append(list,
		paper.Definition{Term: "Run", Text: "Way + rises + slack. Slack: " + slackWords(s) + ", unless a link says otherwise. Common practice, no source."},
		paper.Definition{Term: "Ways", Text: p.wayWords()},
		paper.Definition{Term: "Standards", Text: fmt.Sprintf("Edition %d of the built-in data. Limits and figures come with their own source and status.", s.Standards)},
	)
	return append(list, p.stated()...)
}

// told gathers what is said of graded links, with how many links it is said of.
func (p *printout) told(why func(budget.Budget) string) string {
	counts := map[string]int{}
	var order []string
	for _, link := range p.Links() {
		b, _ := p.Budget(link.ID)
		if !b.Graded {
			continue
		}
		wording := why(b)
		if counts[wording] == 0 {
			order = append(order, wording)
		}
		counts[wording]++
	}
	said := make([]string, len(order))
	for i, wording := range order {
		said[i] = fmt.Sprintf("%s: %s.", wording, words.Counted(counts[wording], "link", "links"))
	}
	return strings.Join(said, " ")
}

func couplerWords(slug string) string {
	hardware, err := standards.HardwareBySlug(standards.HardwareSlug(slug))
	if err != nil {
		return fmt.Sprintf("%s, whose figures are not known here.", slug)
	}
	return fmt.Sprintf("%s unless a cable names another. %s", hardware.Name, sourced(hardware.Provenance))
}

// slackWords tell how slack is taken: as the plan says, else by rule.
func slackWords(s plan.Settings) string {
	along, ends := "10 % of the way where it is a guess or what the venue says, 5 % where it is drawn, found or paced, none where it is taped", "5 m at a console, 3 m at a stage box, 2 m at a rack, 3 m elsewhere"
	switch {
	case s.SlackPercent.Set:
		along = fmt.Sprintf("%.4g %% of the way", s.SlackPercent.Value)
	case s.SlackEnd.Set:
		along += " or within one position"
	}
	if s.SlackEnd.Set {
		ends = length(s.SlackEnd.Value) + " at each end"
	}
	if !s.SlackPercent.Set && !s.SlackEnd.Set {
		ends += "; within one position 1 m at each end and nothing along the way"
	} else if !s.SlackEnd.Set {
		ends += "; within one position 1 m at each end"
	}
	return along + "; " + ends
}

// wayWords tells how ways were measured.
func (p *printout) wayWords() string {
	straight := 0
	for i := range p.Budgets {
		if p.Budgets[i].Measured.Straight() {
			straight++
		}
	}
	said := "Measured on the plan along the way that is drawn."
	if straight > 0 {
		said += fmt.Sprintf(" %s not drawn yet: the straight distance counts × %.4g. Common practice, no source.",
			words.Counted(straight, "way is", "ways are"), p.Plan.Settings.Detour)
	}
	return said
}

// rules are the limit rules in use, each with what grades by it, its status and source.
func (p *printout) rules() []paper.Definition {
	var list []paper.Definition
	at := map[plan.RuleID]int{}
	for _, g := range p.groups() {
		b := g.links[0].budget
		rule, err := standards.LimitRuleBySlug(standards.RuleSlug(b.Rule))
		if !b.Graded || err != nil {
			continue
		}
		if i, seen := at[b.Rule]; seen {
			list[i].Term += ", " + b.TransportName
			continue
		}
		at[b.Rule] = len(list)
		list = append(list, paper.Definition{
			Term: b.TransportName,
			Text: fmt.Sprintf("%.1f dB %s: %s. %s", rule.LimitDB(), b.Reference(), rule.Name, sourced(rule.Provenance)),
		})
	}
	return list
}

// sourced says where a figure comes from and how well it is founded.
func sourced(from standards.Provenance) string {
	switch from.Status {
	case standards.Memory:
		return "From memory of " + from.Source + "."
	case standards.CommonPractice:
		return "Common practice, " + from.Source + "."
	}
	return "Published: " + from.Source + "."
}
