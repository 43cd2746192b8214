package checks

import (
	"fmt"
	"slices"

	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

// badKind finds kinds of cable that could not be used as they are though no link uses them yet; of those in use it is told at
// their links.
func badKind(s *Subject) (found []Finding) {
	bad := map[plan.CableKindID]Finding{}
	for kind := range s.Plan.CableKinds.All() {
		if what, remedy := s.kindFault(kind); what != "" {
			bad[kind.ID] = Finding{Severity: Warn, Where: []Place{{plan.CableKindsTable, kind.Key()}}, What: what, Remedy: remedy}
		}
	}
	for i := 0; i < len(s.Budgets) && len(bad) > 0; i++ { // most plans have none, and no link is looked at
		for _, part := range s.Budgets[i].Parts {
			if part.What == budget.Cable || part.What == budget.Lead {
				delete(bad, part.Kind)
			}
		}
	}
	for kind := range s.Plan.CableKinds.All() {
		finding, told := bad[kind.ID]
		if !told {
			continue
		}
		finding.What += "; no link uses it yet"
		if n := s.inStock(kind.ID); n > 0 {
			finding.What += fmt.Sprintf(", and the stock holds %d", n)
		}
		found = append(found, finding)
	}
	return found
}

// inStock is how many cables of a kind the stock holds.
func (s *Subject) inStock(kind plan.CableKindID) (count int) {
	for reel := range s.Plan.Reels.All() {
		if reel.Kind == kind {
			count += reel.Count()
		}
	}
	return count
}

// kindFault says why no link could use a kind of cable, and what to do.
func (s *Subject) kindFault(kind plan.CableKind) (what, remedy string) {
	taken := slices.ContainsFunc(standards.Transports(), func(t standards.Transport) bool { return budget.Fits(kind, t.Media) })
	switch {
	case !taken:
		return fmt.Sprintf("%s is of the medium %s, which is not known here", kind.Name, quoted(kind.Media)),
			"Make the kind anew from one that is like it: its medium is that one's."
	case s.Reckoner.Medium(kind.ID) == nil || s.Reckoner.Knows(kind.ID):
		return "", ""
	case s.Reckoner.WhyUnknown(kind.ID) != "":
		return fmt.Sprintf("%s cannot be graded: %s", kind.Name, s.Reckoner.WhyUnknown(kind.ID)),
			"Make the kind anew with its maker's own figure, in " + s.Reckoner.Medium(kind.ID).OwnFigure() + ", and take this one out of the stock."
	}
	return fmt.Sprintf("%s cannot be graded: nothing says what it loses", kind.Name), stateLoss
}
