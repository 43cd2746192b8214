package report

import (
	"fmt"

	"stageloom/model/assess"
	"stageloom/model/plan"
	"stageloom/model/planfile"
	"stageloom/model/revision"
)

// since is what changed since a revision was issued.
type since struct {
	issued  plan.Revision
	changes []revision.Change
	links   map[plan.LinkID]bool // laid otherwise
}

// lastIssue compares the plan with the last revision that differs from it: the last one issued, or, where the plan is just
// that one, the one before it. It returns nil where there is nothing to compare with.
func lastIssue(a *assess.Assessment) (*since, error) {
	for number := a.Plan.Revisions.Len(); number > 0; number-- {
		then, err := planfile.AtRevision(a.Plan, number)
		if err != nil {
			return nil, fmt.Errorf("revision %d: %w", number, err)
		}
		issued := a.Plan.Revisions.At(number - 1)
		before := assess.Of(then)
		changes := revision.Changes(before, a)
		if len(changes) > 0 || issued.Letter != a.Plan.Settings.Revision {
			return &since{issued: issued, changes: changes, links: revision.Links(before, a)}, nil
		}
	}
	return nil, nil
}
