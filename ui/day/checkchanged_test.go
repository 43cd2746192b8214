package day_test

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/plan"
	"stageloom/ui/day"
)

func TestAPatchEditedAfterTheLineCheckIsToldOnThePage(t *testing.T) {
	p, acts := show(t)
	f, _ := onCheck(t, p, acts[0])
	for range 36 {
		f.press(fyne.KeyReturn)
	}
	heard := f.desk.Plan()
	last, _ := heard.Checked(acts[0], inputNumbered(heard, 7))
	require.Equal(t, "SL in 7 → FOH 7, Mon 7", last.Chain)
	page := func(p *plan.Plan) string {
		a := assess.Of(p)
		act, _ := a.Patch.Act(acts[0])
		turns := a.Patch.LineCheck(act)
		return day.CheckPageOf(a, act, turns[6], len(turns), afternoon.Add(time.Minute)).Text()
	}
	require.NotContains(t, page(heard), "CHANGED")
	moved := edited(t, heard, func(e *plan.Edit) error {
		plan.Put(e, plan.StagePatch{Act: acts[0], Input: inputNumbered(heard, 7), Device: boxOf(heard), Socket: 39})
		return nil
	})
	require.Contains(t, page(moved), "CHANGED: since the check: was SL in 7 → FOH 7, Mon 7, is SL in 39, hear it again")
	f, _ = onCheck(t, moved, acts[0])
	require.Equal(t, "7 Voice 7", f.called(), "the line check begins at what is to hear again")
	require.True(t, f.sees("35 of 36 OK, 1 to hear again (patch changed since)"), f.texts())
	require.False(t, f.sees("✓ OK"), "its result no longer stands")
	f.press(fyne.KeyReturn)
	require.True(t, f.sees("36 of 36 OK"), f.texts())
}

// boxOf is the box of the show.
func boxOf(p *plan.Plan) plan.DeviceID {
	row, _ := p.StagePatches.Get(plan.StagePatch{Input: inputNumbered(p, 7)}.Key())
	return row.Device
}
