package checks

import (
	"fmt"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/plan"
)

// cableRules are the rules of which a cable that does not suit a link breaks one, whatever the figures say.
var cableRules = []func(*Subject) []Finding{
	wrongMedium, impedance, fibreMode, fibreCore, fibreReach, screen, shell, connector, socketAtDevice, pairsMissing,
}

// standIn finds laid spares that could not take over what they stand in for: they end elsewhere, do not reach, lose too much
// for its transport, or are of cable that does not suit it. What is wrong with the spare as it lies, other rules say.
func standIn(s *Subject) (found []Finding) {
	if !s.hasSpares() {
		return nil
	}
	s.each(func(spare *plan.Link, b *budget.Budget, v *view) {
		if !spare.IsSpare() {
			return
		}
		links := s.Plan.StandsInFor(*spare)
		if len(links) == 0 {
			found = append(found, Finding{
				Severity: Warn, Where: at(spare),
				What:   fmt.Sprintf("the laid spare %s stands in for nothing: no link of %s lies between its ends", spare.Name, b.TransportName),
				Remedy: "Lay it between the ends of the link that it is to replace, or name that link in its form.",
			})
		}
		for i := range links {
			if why := s.unfit(v, &links[i]); why != "" {
				found = append(found, Finding{
					Severity: Warn, Where: and(at(spare), plan.LinksTable, links[i].Key()),
					What:   fmt.Sprintf("the laid spare %s would not do for %s: %s", spare.Name, links[i].Name, why),
					Remedy: "Lay another spare for it, or name in the form of this one the link that it suits.",
				})
			}
		}
	})
	return found
}

// hasSpares reports whether any link is a laid spare: without one nothing has to be gathered of the others.
func (s *Subject) hasSpares() bool {
	for i := range s.Plan.Links.Len() {
		if link := s.Plan.Links.At(i); link.IsSpare() {
			return true
		}
	}
	return false
}

// unfit says why a spare could not take over a link; blank where it could, or has no cable yet.
func (s *Subject) unfit(spare *view, link *plan.Link) string {
	if link.IsSpare() {
		return link.Name + " is a laid spare itself"
	}
	taken, fits := s.Reckoner.TakenOver(*link, spare.link)
	shown := taken.Printed(1)
	switch {
	case !fits:
		return "it does not lie between the ends of that link"
	case len(s.Plan.SegmentsOf(spare.link.ID)) == 0:
		return ""
	case taken.Missing > 0 && !spare.budget.TooShort():
		return fmt.Sprintf("it is %s too short for a run of %s", budget.Metres(shown.Missing), budget.Metres(shown.Run))
	case taken.Grade == budget.Over && spare.budget.Grade != budget.Over:
		return fmt.Sprintf("on its cables %s would be %s", link.Name, taken.Why())
	}
	return s.unsuited(spare, link, &taken)
}

// unsuited is what the rules for cables find of a link on the cables of a spare and not of the spare itself.
func (s *Subject) unsuited(spare *view, link *plan.Link, taken *budget.Budget) string {
	would := &Subject{Plan: s.Plan, Reckoner: s.Reckoner, gathered: []view{*spare, s.viewOf(*link, taken)}}
	for _, find := range cableRules {
		var about []Finding
		for _, finding := range find(would) {
			if finding.Severity == Note {
				continue
			}
			if finding.Where[0].Key == spare.link.Key() {
				about = nil
				break
			}
			about = append(about, finding)
		}
		if len(about) > 0 {
			return strings.TrimPrefix(about[0].What, link.Name+": ")
		}
	}
	return ""
}

// viewOf is a link with a budget of its own, and the cables that the budget is reckoned from.
func (s *Subject) viewOf(link plan.Link, b *budget.Budget) view {
	v := view{link: link, budget: b}
	for i := range b.Parts {
		part := &b.Parts[i]
		kind, known := s.Plan.CableKinds.Get(plan.Key(part.Kind))
		if (part.What == budget.Cable || part.What == budget.Lead) && known {
			v.cables = append(v.cables, laid{part, &kind, s.foreign(link.Transport, &kind)})
		}
	}
	v.ends = s.endsOf(&v)
	return v
}
