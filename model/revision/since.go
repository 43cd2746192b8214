package revision

import (
	"fmt"

	"stageloom/model/assess"
	"stageloom/model/plan"
	"stageloom/model/planfile"
	"stageloom/model/quantity"
)

// Since is what changed since a revision was issued, in the words that paper and window share.
type Since struct {
	// From is the revision compared with.
	From plan.Revision
	// Changes are in the order of Changes.
	Changes []Change
	// Links are those to lay or label otherwise, of the plan as it is now.
	Links map[plan.LinkID]bool
}

// SinceLast compares a plan with the revision issued last, or, where the plan is just that one, with the one before it. It
// returns nil where there is nothing to compare with. Lengths are in the units of a system.
func SinceLast(a *assess.Assessment, system quantity.System) (*Since, error) {
	number := a.Plan.Revisions.Len()
	if StandingOf(a.Plan).AsIssued() {
		number--
	}
	if number < 1 {
		return nil, nil
	}
	then, err := planfile.AtRevision(a.Plan, number)
	if err != nil {
		return nil, fmt.Errorf("revision %d: %w", number, err)
	}
	before := assess.Of(then)
	return &Since{From: a.Plan.Revisions.At(number - 1), Changes: Changes(before, a, system), Links: Links(before, a)}, nil
}

// Heading names the revision that is compared with: "Changed since revision A of 2027-05-30". It may be asked of nil.
func (s *Since) Heading() string {
	if s == nil {
		return "Changes"
	}
	said := "Changed since revision " + s.From.Letter
	if s.From.Date != "" {
		said += " of " + s.From.Date
	}
	return said
}

// Lead is the sentence under the heading: the changes in short, or that there are none.
func (s *Since) Lead() string {
	switch {
	case s == nil:
		return "None to tell: no earlier revision of this plan was issued."
	case len(s.Changes) == 0:
		return "Nothing."
	}
	return Summary(s.Changes) + "."
}

// Lines are the changes one by one, at most so many; the rest is counted in one line more.
func (s *Since) Lines(most int) []string {
	if s == nil {
		return nil
	}
	var said []string
	for i, change := range s.Changes {
		if i == most {
			return append(said, fmt.Sprintf("and %d more", len(s.Changes)-most))
		}
		said = append(said, change.String())
	}
	return said
}
