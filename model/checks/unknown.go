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
		if link.Rule != "" && !knownRule(link.Rule) {
			rule, _ := standards.LimitRuleBySlug(standards.RuleSlug(b.Rule))
			tell("the limit rule", string(link.Rule), "it is graded by the "+rule.Name)
		}
		for _, panel := range []plan.HardwareID{link.FromPanel, link.ToPanel} {
			if !knownHardware(panel) {
				tell("the panel", string(panel), asPoorest)
			}
		}
		for _, segment := range s.Plan.SegmentsOf(link.ID) {
			if !knownHardware(segment.Coupler) {
				tell("the coupler", string(segment.Coupler), asPoorest)
			}
		}
	})
	return found
}

const asPoorest = "it counts as Cat 5e hardware"

func knownRule(id plan.RuleID) bool {
	_, err := standards.LimitRuleBySlug(standards.RuleSlug(id))
	return err == nil
}

// knownHardware tells whether hardware is known; none is.
func knownHardware(id plan.HardwareID) bool {
	_, err := standards.HardwareBySlug(standards.HardwareSlug(id))
	return id == "" || err == nil
}

// unknownSettings looks at what holds for the whole plan.
func (s *Subject) unknownSettings() (found []Finding) {
	tell := func(what string) {
		found = append(found, Finding{Severity: Warn, What: what, Remedy: "Choose one of those there are in the plan's settings."})
	}
	if slug := s.Plan.Settings.Coupler; !knownHardware(plan.HardwareID(slug)) {
		tell(fmt.Sprintf("The plan's coupler is %s, which is not known here: %s", quoted(slug), asPoorest))
	}
	for row := range s.Plan.TransportRules.All() {
		transport := s.Reckoner.Transport(row.Transport)
		if transport.Graded() && !knownRule(row.Rule) {
			tell(fmt.Sprintf("The plan's limit rule for %s is %s, which is not known here: the usual one grades it", transport.Name, quoted(string(row.Rule))))
		}
	}
	return found
}

// unknownKinds looks at the plugs of data cable.
func (s *Subject) unknownKinds() (found []Finding) {
	for kind := range s.Plan.CableKinds.All() {
		if budget.Fits(kind, standards.BalancedPair) && !knownHardware(kind.Hardware) {
			found = append(found, Finding{
				Severity: Warn, Where: []Place{{"cable_kinds", kind.Key()}},
				What:   fmt.Sprintf("%s has plugs of %s, which is not known here: %s", kind.Name, quoted(string(kind.Hardware)), asPoorest),
				Remedy: "Choose one of the classes of hardware there are.",
			})
		}
	}
	return found
}
