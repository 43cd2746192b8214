package checks

import (
	"fmt"

	"stageloom/model/budget"
	"stageloom/model/plan"
)

// ManyJoins is how many joins a link may have before each one more is a risk somebody should know of. Common practice.
const ManyJoins = 3

func overLimit(s *Subject) (found []Finding) {
	s.links(func(link plan.Link, b *budget.Budget) {
		if b.Grade == budget.Over {
			found = append(found, Finding{
				Severity: Stop, Where: at(link),
				What:   fmt.Sprintf("%s is %s", link.Name, b.Why()),
				Remedy: "Do not use it like this. Shorten the run, join fewer cables, or take cable that loses less; fibre carries further than any copper.",
			})
		}
	})
	return found
}

func tooShort(s *Subject) (found []Finding) {
	s.links(func(link plan.Link, b *budget.Budget) {
		if b.TooShort() {
			found = append(found, Finding{
				Severity: Stop, Where: at(link),
				What:   fmt.Sprintf("%s is %s too short: %s laid for a run of %s", link.Name, budget.Metres(b.Missing), budget.Metres(b.Laid), budget.Metres(b.Run)),
				Remedy: fmt.Sprintf("Add a cable of %s or more, or take a longer one.", budget.Metres(b.Missing)),
			})
		}
	})
	return found
}

func uncabled(s *Subject) (found []Finding) {
	s.links(func(link plan.Link, b *budget.Budget) {
		if b.Bare() {
			found = append(found, Finding{
				Severity: Warn, Where: at(link),
				What:   fmt.Sprintf("%s has no cable yet: %s to go", link.Name, budget.Metres(b.Run)),
				Remedy: "Pick a cable for it.",
			})
		}
	})
	return found
}

func tight(s *Subject) (found []Finding) {
	s.links(func(link plan.Link, b *budget.Budget) {
		if b.Grade == budget.Tight {
			found = append(found, Finding{
				Severity: Warn, Where: at(link),
				What:   fmt.Sprintf("%s is %s", link.Name, b.Why()),
				Remedy: "Test it under load before the show and keep a better cable at hand; one join less or cooler cable may cure it.",
			})
		}
	})
	return found
}

func pastDistance(s *Subject) (found []Finding) {
	s.links(func(link plan.Link, b *budget.Budget) {
		if b.PastDistance() {
			found = append(found, Finding{
				Severity: Note, Where: at(link),
				What:   fmt.Sprintf("%s has %s of cable, past the %.0f m stated for %s", link.Name, budget.Metres(b.Length()), b.Distance, b.TransportName),
				Remedy: "The equipment's maker does not answer for it at this length, whatever the loss: test it, or go over to fibre.",
			})
		}
	})
	return found
}

func manyJoins(s *Subject) (found []Finding) {
	s.links(func(link plan.Link, b *budget.Budget) {
		finding := Finding{Severity: Warn, Where: at(link), Remedy: "Take longer cables: each join is one more thing that can come apart, get wet or be trodden on."}
		switch {
		case link.MaxJoins > 0 && b.Joins > link.MaxJoins:
			finding.What = fmt.Sprintf("%s has %d joins, and %d are allowed for it", link.Name, b.Joins, link.MaxJoins)
		case b.Joins > ManyJoins:
			finding.What = fmt.Sprintf("%s has %d joins", link.Name, b.Joins)
		default:
			return
		}
		found = append(found, finding)
	})
	return found
}
