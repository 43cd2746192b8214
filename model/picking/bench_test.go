package picking_test

import (
	"context"
	"os/exec"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"stageloom/model/picking"
)

// BenchmarkPick is each plan of the benchmark to proof.
func BenchmarkPick(b *testing.B) {
	for _, r := range references(b) {
		p := r.problem()
		b.Run(r.Name, func(b *testing.B) {
			b.ReportAllocs()
			nodes := 0
			for b.Loop() {
				a := picking.Pick(context.Background(), p, nil)
				require.True(b, a.Proved)
				nodes = a.Searched
			}
			b.ReportMetric(float64(nodes), "nodes")
		})
	}
}

// BenchmarkAgainstAGeneralSolver runs CBC and this room on the same plan in one run and tells the ratio.
func BenchmarkAgainstAGeneralSolver(b *testing.B) {
	if _, err := exec.LookPath("cbc"); err != nil {
		b.Skip("cbc is not installed")
	}
	for _, r := range references(b) {
		if len(r.Links) > 40 {
			continue
		}
		p := r.problem()
		b.Run(r.Name, func(b *testing.B) {
			var ours, theirs time.Duration
			for b.Loop() {
				begun := time.Now()
				a := picking.Pick(context.Background(), p, nil)
				ours += time.Since(begun)
				begun = time.Now()
				g := newProgram(p)
				held := map[picking.Objective]int{}
				for _, o := range []picking.Objective{picking.Unserved, picking.UnderMargin, picking.Joins, picking.Changes, picking.Excess} {
					held[o] = g.solve(b, o, held)
					require.Equal(b, held[o], a.Sums[o])
				}
				theirs += time.Since(begun)
			}
			b.ReportMetric(float64(theirs)/float64(ours), "cbc/ours")
		})
	}
}
