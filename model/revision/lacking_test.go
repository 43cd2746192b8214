package revision_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/revision"
)

// TestAMarkOfTheSaveIsNoChange marks what the house does not let a show have on one reel and renames another: one is counted.
func TestAMarkOfTheSaveIsNoChange(t *testing.T) {
	before := demo.Weekender()
	after, err := plan.Do(before, plan.NewIDSource(4, 4), func(e *plan.Edit) error {
		marked, noted := e.Now().Reels.At(0).ID, e.Now().Reels.At(1).ID
		if err := plan.Update(e, plan.Key(marked), func(r *plan.Reel) { r.Lacking, r.LackingWhy = 1, "is out: 1 with Barn" }); err != nil {
			return err
		}
		return plan.Update(e, plan.Key(noted), func(r *plan.Reel) { r.Note = "blue tape" })
	})
	require.NoError(t, err)
	var said []string
	for _, change := range revision.Changes(assess.Of(before), assess.Of(after), quantity.Metric) {
		if change.Name == "Stock" {
			said = append(said, change.Words)
		}
	}
	require.Equal(t, []string{"1 row changed"}, said)
}
