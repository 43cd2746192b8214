package planfile

import (
	"fmt"

	"stageloom/model/plan"
)

// Seal issues the plan as its next revision: the settings take the letter, and a revision row keeps the date of issue and
// what changed since the revision before; the first keeps the plan in full. The date is given from outside; the plan's own
// date, that of the show, stays.
func Seal(p *plan.Plan, letter, date, note string) (*plan.Plan, error) {
	return plan.Do(p, nil, func(e *plan.Edit) error { return Issue(e, letter, date, note) })
}

// Issue is Seal as one edit among others.
func Issue(e *plan.Edit, letter, date, note string) error {
	for old := range e.Now().Revisions.All() {
		if old.Letter == letter {
			return fmt.Errorf("%w: revision %s was issued already; take another letter", plan.ErrRefused, letter)
		}
	}
	settings := e.Now().Settings
	settings.Revision = letter
	e.SetSettings(settings)

	last := e.Now().Revisions.Len()
	before, err := stateAt(e.Now(), last)
	if err != nil {
		return fmt.Errorf("issue revision %s: %w", letter, err)
	}
	changes, err := EncodeDelta(plan.Between(before, withoutRevisions(e.Now())))
	if err != nil {
		return fmt.Errorf("issue revision %s: %w", letter, err)
	}
	plan.Put(e, plan.Revision{Number: last + 1, Letter: letter, Date: date, Note: note, Changes: string(changes)})
	return nil
}

// AtRevision returns the plan as it was when revision n was issued, with the revisions up to it. The first
// revision is 1.
func AtRevision(p *plan.Plan, n int) (*plan.Plan, error) {
	if n < 1 || n > p.Revisions.Len() {
		return nil, fmt.Errorf("there is no revision %d: %d were issued", n, p.Revisions.Len())
	}
	state, err := stateAt(p, n)
	if err != nil {
		return nil, err
	}
	return plan.Do(state, nil, func(e *plan.Edit) error {
		for i := range n {
			plan.Put(e, p.Revisions.At(i))
		}
		return nil
	})
}

// stateAt applies the changes of revisions 1 to n in turn to a plan without rows.
func stateAt(p *plan.Plan, n int) (*plan.Plan, error) {
	state := &plan.Plan{}
	for i := range n {
		revision := p.Revisions.At(i)
		if revision.Number != i+1 {
			return nil, fmt.Errorf("revision %d is missing, so what follows it cannot be told", i+1)
		}
		d := &plan.Delta{}
		if revision.Changes != "" {
			var err error
			if d, err = DecodeDelta([]byte(revision.Changes), Version); err != nil {
				return nil, fmt.Errorf("revision %s: %w", revision.Letter, err)
			}
		}
		next, err := plan.Apply(state, d)
		if err != nil {
			return nil, fmt.Errorf("revision %s does not fit the one before it: %w", revision.Letter, err)
		}
		state = next
	}
	return state, nil
}

func withoutRevisions(p *plan.Plan) *plan.Plan {
	bare := *p
	bare.Revisions = nil
	return &bare
}
