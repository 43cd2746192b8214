package checks

import (
	"fmt"

	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

// unknownName finds rules, couplers and panels that go by a name the standards do not know: something else is reckoned in
// their place.
func unknownName(s *Subject) (found []Finding) {
	found = append(s.unknownSettings(), s.unknownKinds()...)
	s.each(func(link *plan.Link, b *budget.Budget, v *view) {
		if !b.Graded {
			return
		}
		tell := func(what, slug, instead string) {
			found = append(found, Finding{
				Severity: Warn, Where: at(link),
				What:   fmt.Sprintf("%s names %s %s, which is not known here: %s", link.Name, what, quoted(slug), instead),
				Remedy: "Choose one of those there are.",
				many:   fmt.Sprintf("name %s %s, which is not known here: %s", what, quoted(slug), instead), item: link.Name,
			})
		}
		if link.Rule != "" && !s.Reckoner.KnowsRule(link.Transport, link.Rule) {
			rule, _ := standards.LimitRuleBySlug(standards.RuleSlug(b.Rule))
			tell("the limit rule", string(link.Rule), "it is graded by the "+rule.Name)
		}
		for _, panel := range []plan.HardwareID{link.FromPanel, link.ToPanel} {
			if as := budget.CountsAs(b.Medium, panel); as != "" {
				tell("the panel", string(panel), "it counts as "+as)
			}
		}
		for _, segment := range s.Plan.SegmentsOf(link.ID) {
			if as := budget.CountsAs(b.Medium, segment.Coupler); as != "" {
				tell("the coupler", string(segment.Coupler), "it counts as "+as)
			}
		}
	})
	return found
}

// unknownSettings looks at what holds for the whole plan.
func (s *Subject) unknownSettings() (found []Finding) {
	tell := func(what string) {
		found = append(found, Finding{Severity: Warn, What: what, Remedy: "Choose one of those there are in the plan's settings."})
	}
	coupler := s.Plan.Settings.Coupler
	if _, err := standards.HardwareBySlug(standards.HardwareSlug(coupler)); coupler != "" && err != nil {
		tell(fmt.Sprintf("The plan's coupler is %s, which is not known here: it counts as %s", quoted(coupler), s.Reckoner.HardwareName(plan.HardwareID(coupler))))
	}
	for row := range s.Plan.TransportRules.All() {
		transport := s.Reckoner.Transport(row.Transport)
		if transport.Graded() && !s.Reckoner.KnowsRule(row.Transport, row.Rule) {
			tell(fmt.Sprintf("The plan's limit rule for %s is %s, which is not known here: the usual one grades it", transport.Name, quoted(string(row.Rule))))
		}
	}
	return found
}

// unknownKinds looks at the plugs of cable whose loss is reckoned.
func (s *Subject) unknownKinds() (found []Finding) {
	for kind := range s.Plan.CableKinds.All() {
		m := s.Reckoner.Medium(kind.ID)
		if m == nil {
			continue
		}
		if as := budget.CountsAs(m, kind.Hardware); as != "" {
			found = append(found, Finding{
				Severity: Warn, Where: []Place{{plan.CableKindsTable, kind.Key()}},
				What:   fmt.Sprintf("%s has plugs of %s, which is not known here: it counts as %s", kind.Name, quoted(string(kind.Hardware)), as),
				Remedy: "Choose one of the classes of hardware there are.",
			})
		}
	}
	return found
}
