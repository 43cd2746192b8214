package day_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/ui/day"
)

func TestAPageWarnsOf48V(t *testing.T) {
	p, acts := show(t)
	var ribbon plan.InputID
	p = edited(t, p, func(e *plan.Edit) error {
		kick := inputNumbered(e.Now(), 12)
		row, _ := e.Now().StagePatches.Get(plan.StagePatch{Input: kick}.Key())
		require.NoError(t, patch.Strike(e, acts[1], kick))
		ribbon = e.AddInput(plan.Input{Number: 12, Name: "Tuba", Act: acts[1], Use: "ribbon"})
		return patch.Plug(e, acts[1], ribbon, patch.Socket{Device: row.Device, Number: row.Socket}, false)
	})
	a := assess.Of(p)
	page := func(id plan.ActID, input plan.InputID) string {
		act, _ := a.Patch.Act(id)
		for _, turn := range a.Patch.LineCheck(act) {
			if turn.Line.Input.ID == input {
				return day.CheckPageOf(a, act, turn, 1, afternoon).Text()
			}
		}
		return ""
	}
	said := page(acts[1], ribbon)
	require.Contains(t, said, "MIND: NO 48 V: ribbon. It can come from SL in 12, switched by Mon.")
	require.Contains(t, said, "MIND: 48 V off before plugging: SL in 12 had it for Kick in Brass.")
	require.NotContains(t, page(acts[0], inputNumbered(p, 12)), "48 V off")
	require.NotContains(t, page(acts[1], inputNumbered(p, 13)), "48 V off")
}
