package assess_test

import (
	"fmt"
	"testing"
	"time"

	"stageloom/model/assess"
	"stageloom/model/budget"
	"stageloom/model/checks"
	"stageloom/model/demo/demotest"
	"stageloom/model/geom"
	"stageloom/model/plan"
)

// large is the benchmarks' plan: 500 devices, 750 links, 2,000 inputs.
func large() *plan.Plan { return demotest.Large(1) }

// sizes are those at which growth is measured: what a link costs shall not grow with their number.
var sizes = []int{500, 2000, 10000}

// perLink reports what one link of the plan costs.
func perLink(b *testing.B, p *plan.Plan) {
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*p.Links.Len()), "µs/link")
}

// BenchmarkGrows is a whole assessment, and a nudge of one device: the edit and the assessment after it, told beside what a
// whole assessment costs.
func BenchmarkGrows(b *testing.B) {
	for _, links := range sizes {
		for name, p := range map[string]*plan.Plan{"stages": demotest.Sized(1, links), "crowd": demotest.Crowd(1, links)} {
			var whole time.Duration
			b.Run(fmt.Sprintf("of/%s/%d", name, links), func(b *testing.B) {
				for b.Loop() {
					assess.Of(p)
				}
				whole = b.Elapsed() / time.Duration(b.N)
				perLink(b, p)
			})
			a := assess.Of(p)
			b.Run(fmt.Sprintf("nudge/%s/%d", name, links), func(b *testing.B) {
				for b.Loop() {
					a = assess.Next(a, nudged(b, a.Plan, p.Devices.Len()/2))
				}
				perLink(b, p)
				if whole > 0 {
					b.ReportMetric(100*float64(b.Elapsed())/float64(b.N)/float64(whole), "%of-whole")
				}
			})
		}
	}
}

// nudged is the plan with one of its devices moved a little.
func nudged(b *testing.B, p *plan.Plan, device int) *plan.Plan {
	b.Helper()
	next, err := plan.Do(p, nil, func(e *plan.Edit) error {
		e.Move(plan.MovingWith(p, []plan.DeviceID{p.Devices.At(device).ID}, nil), geom.Pt(0.5, 0.1))
		return nil
	})
	if err != nil {
		b.Fatal(err)
	}
	return next
}

// BenchmarkOf is a whole assessment.
func BenchmarkOf(b *testing.B) {
	p := large()
	b.ReportAllocs()
	for b.Loop() {
		assess.Of(p)
	}
}

// BenchmarkNextAfterAMove is what assessing a moved device costs: its links, and what tells all findings and sums.
func BenchmarkNextAfterAMove(b *testing.B) {
	p := large()
	moved := nudged(b, p, 0)
	a := assess.Of(p)
	b.ReportAllocs()
	for b.Loop() {
		assess.Next(a, moved)
	}
}

// BenchmarkNextAfterAPatch is the same after a change that no budget reads.
func BenchmarkNextAfterAPatch(b *testing.B) {
	p := large()
	renamed, err := plan.Do(p, nil, func(e *plan.Edit) error {
		return plan.Update(e, p.Inputs.At(0).Key(), func(r *plan.Input) { r.Name = "Changed" })
	})
	if err != nil {
		b.Fatal(err)
	}
	a := assess.Of(p)
	b.ReportAllocs()
	for b.Loop() {
		assess.Next(a, renamed)
	}
}

// BenchmarkRule is each rule alone, to see which is dear.
func BenchmarkRule(b *testing.B) {
	subject := checks.NewSubject(large())
	for _, rule := range checks.Rules() {
		b.Run(rule.ID, func(b *testing.B) {
			for b.Loop() {
				rule.Find(subject)
			}
		})
	}
}

// BenchmarkPreview is one move of the pointer while the device with the most links is dragged.
func BenchmarkPreview(b *testing.B) {
	p := large()
	links := map[plan.DeviceID]int{}
	var busiest plan.DeviceID
	for link := range p.Links.All() {
		for _, id := range []plan.DeviceID{link.From, link.To} {
			if links[id]++; links[id] > links[busiest] {
				busiest = id
			}
		}
	}
	preview := budget.NewReckoner(p).Preview(plan.MovingWith(p, []plan.DeviceID{busiest}, nil))
	at := 0.0
	b.ReportAllocs()
	for b.Loop() {
		at += 0.01
		preview.At(geom.Pt(at, at))
	}
	b.ReportMetric(float64(links[busiest]), "links")
}

// BenchmarkShow is 500 devices, 2,000 inputs and 20 acts: all of it, the rules of the patch alone, and after a change of one
// row of an act.
func BenchmarkShow(b *testing.B) {
	p := demotest.LargeShow(1)
	b.Run("all", func(b *testing.B) {
		for b.Loop() {
			assess.Of(p)
		}
	})
	b.Run("rules of the patch", func(b *testing.B) {
		subject := checks.NewSubject(p)
		for b.Loop() {
			for _, rule := range checks.Rules() {
				if rule.Patch {
					rule.Find(subject)
				}
			}
		}
	})
	a := assess.Of(p)
	for name, edit := range map[string]func(*plan.Edit) error{
		"next after a row of an act": func(e *plan.Edit) error {
			plan.Put(e, plan.StagePatch{Act: p.Acts.At(3).ID, Input: p.Inputs.At(5).ID, Strike: true})
			return nil
		},
		"next after a move": func(e *plan.Edit) error {
			e.Move(plan.MovingWith(p, []plan.DeviceID{p.Devices.At(0).ID}, nil), geom.Pt(3, 4))
			return nil
		},
	} {
		next, err := plan.Do(p, nil, edit)
		if err != nil {
			b.Fatal(err)
		}
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				assess.Next(a, next)
			}
		})
	}
}

// BenchmarkManyPieces holds 590 links of 32 short pieces each, the most there may be, against the same links as they are:
// what a piece costs must stay about the same, within a few times, since a line of many pieces is reckoned piece by piece.
func BenchmarkManyPieces(b *testing.B) {
	few := demotest.Sized(1, 590)
	many, err := plan.Do(few, nil, func(e *plan.Edit) error {
		for link := range few.Links.All() {
			laid := len(few.SegmentsOf(link.ID))
			for order := laid + 1; laid > 0 && order <= 32; order++ {
				plan.Put(e, plan.Segment{Link: link.ID, Order: order, Kind: "cat6a", Length: 1 + float64((len(link.ID)*37+order*101)%211)/100})
			}
		}
		return nil
	})
	if err != nil {
		b.Fatal(err)
	}
	perPiece := func(p *plan.Plan) float64 {
		begun := time.Now()
		assess.Of(p)
		return time.Since(begun).Seconds() / float64(p.Segments.Len())
	}
	fewest, most := 0.0, 0.0
	for b.Loop() {
		fewest, most = fewest+perPiece(few), most+perPiece(many)
	}
	b.ReportMetric(most/fewest, "times-a-piece")
}
