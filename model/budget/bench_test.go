package budget_test

import (
	"fmt"
	"testing"

	"stageloom/model/budget"
	"stageloom/model/catalogue"
	"stageloom/model/plan"
)

// many is a plan of 500 graded links with four cables each: a reel, two of kind and length, and a drum.
func many(b *testing.B) *plan.Plan {
	b.Helper()
	ids := plan.NewIDSource(7, 7)
	p, err := plan.Do(plan.New("Many"), ids, func(e *plan.Edit) error {
		for _, id := range []plan.CableKindID{"cat6a-own", "cat5e", "cat6a-drum-socket", "cat6a"} {
			if err := catalogue.UseCable(e, id); err != nil {
				return err
			}
		}
		plan.Put(e, plan.Reel{ID: "r-22222", Kind: "cat6a-own", Length: 60, Quantity: 500})
		if err := catalogue.Use(e, "aes50-router-5"); err != nil {
			return err
		}
		at := e.AddPosition(plan.Position{Name: "Field", Exposure: "sun"})
		var last plan.DeviceID
		for i := range 501 {
			next := e.AddDevice(plan.Device{Name: fmt.Sprint(i), Kind: "aes50-router-5", Position: at, X: 70 * float64(i%250)})
			if i > 0 {
				link := e.AddLink(plan.Link{Name: fmt.Sprint(i), Transport: "aes50", From: last, FromPort: "AES50 1", To: next, ToPort: "AES50 2", FillKind: "cat6a"})
				e.SetSegments(link, []plan.Segment{{Reel: "r-22222"}, metres("cat5e", 10), metres("cat6a-drum-socket", 10), metres("cat6a", 5)})
			}
			last = next
		}
		return nil
	})
	if err != nil {
		b.Fatal(err)
	}
	return p
}

// BenchmarkAll is the reckoning of 500 links of four cables each, made ready anew: what each commit costs.
func BenchmarkAll(b *testing.B) {
	p := many(b)
	b.ReportAllocs()
	for b.Loop() {
		if len(budget.NewReckoner(p).All()) != 500 {
			b.Fatal("not all links")
		}
	}
}

// BenchmarkReady is the part of it that makes a plan ready.
func BenchmarkReady(b *testing.B) {
	p := many(b)
	b.ReportAllocs()
	for b.Loop() {
		budget.NewReckoner(p)
	}
}
