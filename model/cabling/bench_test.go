package cabling_test

import (
	"context"
	"testing"

	"stageloom/model/cabling"
	"stageloom/model/demo"
	"stageloom/model/demo/demotest"
	"stageloom/model/plan"
)

// scarce is a large plan with a tenth of its stock.
func scarce(b *testing.B) *plan.Plan {
	p, err := plan.Do(demotest.Large(3), nil, func(e *plan.Edit) error {
		for link := range e.Now().Links.All() {
			e.SetSegments(link.ID, nil)
		}
		for reel := range e.Now().Reels.All() {
			reel.Quantity = 60
			plan.Put(e, reel)
		}
		return nil
	})
	if err != nil {
		b.Fatal(err)
	}
	return p
}

func BenchmarkPick(b *testing.B) {
	for _, c := range []struct {
		name string
		plan *plan.Plan
	}{{"the weekender", demo.Weekender()}, {"750 links, ample stock", demotest.Large(3)}, {"750 links, scarce stock, with reasons and hire", scarce(b)}} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				proposal, err := cabling.Pick(context.Background(), c.plan, cabling.Request{}, nil)
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(float64(len(proposal.Unserved)), "unserved")
			}
		})
	}
}
