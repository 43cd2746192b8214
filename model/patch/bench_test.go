package patch_test

import (
	"testing"

	"stageloom/model/demo/demotest"
	"stageloom/model/patch"
	"stageloom/model/plan"
)

// BenchmarkOf resolves 2,000 inputs in 20 acts among 500 devices.
func BenchmarkOf(b *testing.B) {
	p := demotest.LargeShow(1)
	b.ReportAllocs()
	for b.Loop() {
		patch.Of(p)
	}
}

// BenchmarkNext is what a change costs: a device moved, a row of one act, a row of the house.
func BenchmarkNext(b *testing.B) {
	p := demotest.LargeShow(1)
	act := p.Acts.At(3).ID
	for name, edit := range map[string]func(*plan.Edit) error{
		"a device moved": func(e *plan.Edit) error {
			return plan.Update(e, p.Devices.At(0).Key(), func(d *plan.Device) { d.X += 3 })
		},
		"a row of an act": func(e *plan.Edit) error { patch.Strike(e, act, p.Inputs.At(5).ID); return nil },
		"a row of the house": func(e *plan.Edit) error {
			patch.Strike(e, "", p.Inputs.At(5).ID)
			return nil
		},
	} {
		b.Run(name, func(b *testing.B) {
			next, err := plan.Do(p, nil, edit)
			if err != nil {
				b.Fatal(err)
			}
			v := patch.Of(p)
			for b.Loop() {
				patch.Next(v, next)
			}
		})
	}
}

// BenchmarkSetChannel is one number typed into "who gets what".
func BenchmarkSetChannel(b *testing.B) {
	p := demotest.LargeShow(1)
	input, console := p.Inputs.At(5).ID, patch.Of(p).Consoles()[0]
	for b.Loop() {
		if _, err := plan.Do(p, nil, func(e *plan.Edit) error { return patch.SetChannel(e, "", input, console, 0) }); err != nil {
			b.Fatal(err)
		}
	}
}
