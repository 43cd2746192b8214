package text

import (
	"stageloom/model/plan"
)

// OnSite names in a line each the links on site that an edit touches: with the step that was done and what becomes of it. That a
// cable was found bad touches nothing.
func OnSite(before, after *plan.Plan) (lines []string) {
	for _, one := range plan.TouchedOnSite(before, after) {
		if !one.Found {
			lines = append(lines, one.String())
		}
	}
	return lines
}
