package report_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo"
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
			plan.Put(e, plan.Kind{ID: "rack", Name: "Rack", Group: "Racks"})
			plan.Put(e, plan.Kind{ID: "panel", Name: "Panel", Group: "Racks", Passive: true})
			e.AddDevice(plan.Device{Name: "Four", Kind: "rack"})
			e.AddDevice(plan.Device{Name: "Five", Kind: "panel"})
			return nil
		})
		require.NoError(t, err)
		said, err := report.SuppliedWatts(assess.Of(p), report.Choice{})
		require.NoError(t, err)
		return said
	}
	require.Regexp(t, `^[Mm]ain generator: 2 devices, 480.W; no stated supply: 1 device, 240.W, and 1 device that states none$`, supplied(240))
	require.Regexp(t, `^[Mm]ain generator: 2 devices, 4\.3.kW;`, supplied(2101))
	require.Empty(t, supplied(0))
}

func TestTheLongestWayToEachConsoleIsSaidAndWhatStatesNone(t *testing.T) {
	said := func(edit func(*plan.Edit)) []string {
		p, err := plan.Do(demo.Weekender(), plan.NewIDSource(1, 2), func(e *plan.Edit) error { edit(e); return nil })
		require.NoError(t, err)
		said, err := report.Latencies(assess.Of(p), report.Choice{})
		require.NoError(t, err)
		return said
	}
	state := func(e *plan.Edit, milliseconds float64) {
		for kind := range e.Now().Kinds.All() {
			require.NoError(t, plan.Update(e, kind.Key(), func(k *plan.Kind) { k.LatencyMS = milliseconds }))
		}
	}
	for _, line := range said(func(*plan.Edit) {}) {
		require.Regexp(t, `: \d kinds? on it states? none$`, line)
	}
	for _, line := range said(func(e *plan.Edit) { state(e, 0.5) }) {
		require.Regexp(t, `\(channel \d+\): (1\.00|1\.50|2\.00).ms$`, line, "every device on the way counts once")
	}
	require.Contains(t, strings.Join(said(func(e *plan.Edit) {
		state(e, 0.5)
		require.NoError(t, plan.Update(e, "console-72", func(k *plan.Kind) { k.LatencyMS = 0 }))
	}), "\n"), "at least")
}
