package report_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/plan"
	"stageloom/report"
)

func TestWhatDevicesDrawIsSummedUpBySupply(t *testing.T) {
	supplied := func(watts float64) string {
		p, err := plan.Do(plan.New("Supplies"), plan.NewIDSource(1, 2), func(e *plan.Edit) error {
			plan.Put(e, plan.Kind{ID: "desk", Name: "Desk", Group: "Mixing", PowerW: watts})
			tower := e.AddPosition(plan.Position{Name: "Tower", Supply: "Main generator "})
			e.AddDevice(plan.Device{Name: "One", Kind: "desk", Position: tower})
			e.AddDevice(plan.Device{Name: "Two", Kind: "desk", Supply: "main generator"})
			e.AddDevice(plan.Device{Name: "Three", Kind: "desk"})
			return nil
		})
		require.NoError(t, err)
		said, err := report.SuppliedWatts(assess.Of(p), report.Choice{})
		require.NoError(t, err)
		return said
	}
	require.Regexp(t, `^[Mm]ain generator 480.W, no stated supply 240.W$`, supplied(240))
	require.Empty(t, supplied(0))
}
