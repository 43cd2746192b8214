package assess_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/catalogue"
	"stageloom/model/plan"
)

func TestLatencySumsUpTheDevicesOfAWay(t *testing.T) {
	var box, router, console plan.DeviceID
	ids := plan.NewIDSource(3, 1)
	p, err := plan.Do(plan.New("Ways"), ids, func(e *plan.Edit) error {
		for _, kind := range []plan.KindID{"stagebox-40-20", "aes50-router-5", "console-72"} {
			require.NoError(t, catalogue.Use(e, kind))
		}
		box = e.AddDevice(plan.Device{Name: "SL", Kind: "stagebox-40-20"})
		router = e.AddDevice(plan.Device{Name: "Hub", Kind: "aes50-router-5"})
		console = e.AddDevice(plan.Device{Name: "FOH", Kind: "console-72"})
		first := e.AddLink(plan.Link{Transport: "aes50", From: box, FromPort: "AES50 1", To: router, ToPort: "AES50 1"})
		second := e.AddLink(plan.Link{Transport: "aes50", From: console, FromPort: "AES50 1", To: router, ToPort: "AES50 2"})
		plan.Put(e, plan.Input{ID: "i-22222", Number: 1, Name: "Kick"})
		plan.Put(e, plan.StagePatch{Input: "i-22222", Device: box, Socket: 1})
		plan.Put(e, plan.SlotPatch{Link: first, Direction: "forward", Slot: 1, Device: box, Socket: 1})
		plan.Put(e, plan.SlotPatch{Link: second, Direction: "return", Slot: 1, Device: box, Socket: 1})
		plan.Put(e, plan.ConsolePatch{Console: console, Channel: 4, Device: box, Socket: 1})
		require.NoError(t, plan.Update(e, "stagebox-40-20", func(k *plan.Kind) { k.LatencyMS = 0.5 }))
		return plan.Update(e, "console-72", func(k *plan.Kind) { k.LatencyMS = 0.8 })
	})
	require.NoError(t, err)
	ways := assess.Of(p).Latencies()
	require.Len(t, ways, 1)
	require.Equal(t, []plan.DeviceID{box, router, console}, ways[0].Devices)
	require.InDelta(t, 1.3, ways[0].MS, 1e-9)
	require.Equal(t, 4, ways[0].Channel)
	require.Equal(t, []plan.KindID{"aes50-router-5"}, ways[0].Silent)
}

func TestSuppliesCountWhatIsStatedAndWhatIsNot(t *testing.T) {
	p, err := plan.Do(plan.New("Supplies"), plan.NewIDSource(1, 2), func(e *plan.Edit) error {
		plan.Put(e, plan.Kind{ID: "desk", Name: "Desk", Group: "Mixing", PowerW: 240})
		plan.Put(e, plan.Kind{ID: "rack", Name: "Rack", Group: "Racks"})
		tower := e.AddPosition(plan.Position{Name: "Tower", Supply: "Main"})
		e.AddDevice(plan.Device{Name: "One", Kind: "desk"})
		e.AddDevice(plan.Device{Name: "Two", Kind: "desk", Position: tower})
		e.AddDevice(plan.Device{Name: "Three", Kind: "rack", Supply: "main "})
		e.AddDevice(plan.Device{Name: "Four", Kind: "desk", Position: tower, Supply: "House"})
		return nil
	})
	require.NoError(t, err)
	require.Equal(t, []assess.Supply{
		{Name: "House", Devices: 1, Watts: 240}, {Name: "Main", Devices: 1, Silent: 1, Watts: 240}, {Devices: 1, Watts: 240},
	}, assess.Of(p).Supplies())
}
