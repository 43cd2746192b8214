package desk

import (
	"errors"

	"stageloom/model/plan"
)

// Guard looks at an edit before it stands: from a plan to another, by its name. It returns nil where the edit may stand, or why
// not yet; anyway makes the edit all the same, later.
type Guard func(name string, before, after *plan.Plan, anyway func() error) error

// ErrAsked is the error of an edit about which a person is asked first: nothing is changed until the answer.
var ErrAsked = errors.New("asked first: this touches what is laid, joined or tested")

// SetGuard has every edit but DoAnyway looked at first; nil has none looked at. Undo and redo are not.
func (d *Desk) SetGuard(guard Guard) { d.guard = guard }
