package ui_test

import (
	"testing"

	"fyne.io/fyne/v2"

	"stageloom/model/demo/demotest"
	"stageloom/model/desk"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/ui"
	"stageloom/ui/looptest"
)

// BenchmarkMove is what one moved device of a plan of 10,000 links costs: the desk alone, with the window, and with a table open.
func BenchmarkMove(b *testing.B) {
	p := demotest.Sized(1, 10_000)
	for _, c := range []struct {
		name, table string
		window      bool
	}{{"desk", "", false}, {"window", "", true}, {"links", "links", true}} {
		b.Run(c.name, func(b *testing.B) {
			d := desk.New(plan.NewIDSource(1, 2))
			defer d.Close()
			if c.window {
				app := looptest.NewApp(b)
				app.Preferences().SetString("table open", c.table)
				window, _ := ui.Open(app, d, house.Open(b.TempDir()))
				window.Resize(fyne.NewSize(1280, 800))
			}
			d.NewPlan(p)
			device := p.Devices.At(0).ID
			by := 1.0
			for b.Loop() {
				by = -by
				if err := d.Do("Move device", func(e *plan.Edit) error {
					return plan.Update(e, plan.Key(device), func(r *plan.Device) { r.X += by })
				}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
