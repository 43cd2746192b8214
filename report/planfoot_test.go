package report_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/report"
)

// TestTheLegendExplainsWhatIsDoneOnSite has the legend of the plan explain the pieces beside lines where some are there.
func TestTheLegendExplainsWhatIsDoneOnSite(t *testing.T) {
	const said = "pieces beside: 1 laid, 2 joined, 3 tested"
	p := demo.Weekender()
	require.NotContains(t, chaptersText(t, p, report.SitePlan), said)
	p, err := plan.Do(p, nil, func(e *plan.Edit) error {
		return e.MarkDone(e.Now().Links.At(0).ID, plan.Laid, true)
	})
	require.NoError(t, err)
	require.Contains(t, chaptersText(t, p, report.SitePlan), said)
}
