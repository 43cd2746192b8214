package main

import (
	"math/rand/v2"

	"stageloom/model/plan"
)

// copyOf is a plan as it is written to another file than its own: a plan of its own, which does not have what the house's stock
// lent the other. One that nobody has opened in the window has no identity yet, and gets it there.
func copyOf(p *plan.Plan) *plan.Plan {
	if p.Settings.Identity == "" {
		return p
	}
	return p.WithIdentity(plan.NewIDSource(rand.Uint64(), rand.Uint64()).Identity())
}
