package checks

import (
	"fmt"

	"stageloom/model/budget"
	"stageloom/model/plan"
)

// doubtfulLength tells of lengths that were typed before an end moved.
func doubtfulLength(s *Subject) (found []Finding) {
	s.each(func(link *plan.Link, b *budget.Budget, _ *view) {
		if b.Measured.Doubtful {
			found = append(found, Finding{
				Severity: Note, Where: at(link),
				What:   fmt.Sprintf("%s: an end moved since its way was given as %s (%s)", link.Name, budget.Metres(b.Way), b.Measured.Source),
				Remedy: "Ask again, or pace it again, and type the length anew; typing it without the word doubtful puts it beyond doubt.",
			})
		}
	})
	return found
}

// unknownLength tells of links whose way nobody gave and the plan cannot measure.
func unknownLength(s *Subject) (found []Finding) {
	s.each(func(link *plan.Link, b *budget.Budget, _ *view) {
		if b.Measured.Wanting() {
			found = append(found, Finding{
				Severity: Warn, Where: at(link),
				What:   fmt.Sprintf("nobody said how long the way of %s is, and not both of its ends have a place", link.Name),
				Remedy: "Type the length of its way, for instance 62 m, paced; or put both ends on the plan.",
			})
		}
	})
	return found
}
