package plan_test

import (
	"fmt"
	"testing"

	"stageloom/model/geom"
	"stageloom/model/plan"
)

// BenchmarkMoveOneDevice is the cost of one committed move in a plan of 500 devices and 750 links.
func BenchmarkMoveOneDevice(b *testing.B) {
	ids := plan.NewIDSource(1, 2)
	var first plan.DeviceID
	p, err := plan.Do(plan.New("Large"), ids, func(e *plan.Edit) error {
		plan.Put(e, plan.Kind{ID: "box", Name: "Box", Group: "Stage"})
		for port := range 4 {
			plan.Put(e, plan.KindPort{Kind: "box", Name: fmt.Sprint(port), Transport: "aes50"})
		}
		var devices []plan.DeviceID
		for i := range 500 {
			devices = append(devices, e.AddDevice(plan.Device{Name: fmt.Sprint(i), Kind: "box", X: float64(i)}))
		}
		first = devices[0]
		for i := range 750 {
			e.AddLink(plan.Link{Name: fmt.Sprint(i), Transport: "aes50", From: devices[i%500], FromPort: fmt.Sprint(i / 500), To: devices[(i+1)%500], ToPort: fmt.Sprint(2 + i/500)})
		}
		return nil
	})
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		p, err = plan.Do(p, ids, func(e *plan.Edit) error {
			e.Move(plan.MovingWith(p, []plan.DeviceID{first}, nil), geom.Point{X: 1})
			return nil
		})
		if err != nil {
			b.Fatal(err)
		}
		if d, _ := p.Device(first); d.X > 15000 {
			b.StopTimer()
			p, _ = plan.Do(p, ids, func(e *plan.Edit) error {
				return plan.Update(e, plan.Key(first), func(r *plan.Device) { r.X = 0 })
			})
			b.StartTimer()
		}
	}
}
