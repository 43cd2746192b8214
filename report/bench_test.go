package report_test

import (
	"context"
	"fmt"
	"io"
	"os"
	"regexp"
	"runtime"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo/demotest"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/report"
)

// plugged is a plan with so many inputs more, each on a socket of a box of its own.
func plugged(t testing.TB, p *plan.Plan, inputs int) *plan.Plan {
	t.Helper()
	p, err := plan.Do(p, plan.NewIDSource(5, 5), func(e *plan.Edit) error {
		const perBox = 48
		for first := 0; first < inputs; first += perBox {
			box := e.AddDevice(plan.Device{Name: fmt.Sprintf("Box %d", first/perBox+1), Kind: "stage-rack-48-20", X: float64(first) / 10, Y: 40})
			var ids []plan.InputID
			for n := first; n < min(inputs, first+perBox); n++ {
				id := plan.InputID(fmt.Sprintf("i-%c%c%c22", plan.Signs[n/29/29], plan.Signs[n/29%29], plan.Signs[n%29]))
				plan.Put(e, plan.Input{ID: id, Number: n + 1, Name: fmt.Sprintf("Input %d", n+1), Source: "dynamic", Stand: "tall boom"})
				ids = append(ids, id)
			}
			if err := patch.Fill(e, "", ids, patch.Socket{Device: box, Number: 1}, false); err != nil {
				return err
			}
		}
		return nil
	})
	require.NoError(t, err)
	return p
}

// BenchmarkPrint is a whole print; the first pass lays out the plan's pages. Peak memory is that of the whole process.
func BenchmarkPrint(b *testing.B) {
	for _, c := range []struct {
		name, paper string
		plan        *plan.Plan
		packs       []report.Pack
	}{
		{"500 links in rows", "A4", many(b, 500), nil},
		{"750 links on 25 stages", "A4", demotest.Large(1), nil},
		{"500 links and 2,000 patch rows on A3", "A3", plugged(b, many(b, 500), 2000), []report.Pack{report.Lay, report.Patch}},
	} {
		a := assess.Of(c.plan)
		b.Run(c.name, func(b *testing.B) {
			choice := report.ChoiceOf(a.Plan, day)
			choice.Paper, choice.Packs = c.paper, c.packs
			pages := 0
			for b.Loop() {
				done, err := report.Write(context.Background(), io.Discard, a, choice)
				require.NoError(b, err)
				pages = done.Pages
			}
			var memory runtime.MemStats
			runtime.ReadMemStats(&memory)
			b.ReportMetric(float64(pages), "pages")
			b.ReportMetric(float64(memory.HeapInuse)/1e6, "heap-MB")
			b.ReportMetric(peakMB(), "peak-MB")
		})
	}
}

// BenchmarkPrintGrows is the default packs of plans of 500, 2,000 and 10,000 links: what a link costs shall not grow with
// their number.
func BenchmarkPrintGrows(b *testing.B) {
	for _, links := range []int{500, 2000, 10000} {
		a := assess.Of(demotest.Crowd(1, links))
		b.Run(strconv.Itoa(links), func(b *testing.B) {
			for b.Loop() {
				_, err := report.Write(context.Background(), io.Discard, a, report.ChoiceOf(a.Plan, day))
				require.NoError(b, err)
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*a.Plan.Links.Len()), "µs/link")
			b.ReportMetric(peakMB(), "peak-MB")
		})
	}
}

// peakMB is the most memory the process has held, 0 where the system does not tell.
func peakMB() float64 {
	status, err := os.ReadFile("/proc/self/status")
	if err != nil {
		return 0
	}
	found := regexp.MustCompile(`VmHWM:\s+(\d+) kB`).FindSubmatch(status)
	if found == nil {
		return 0
	}
	kilobytes, _ := strconv.ParseFloat(string(found[1]), 64)
	return kilobytes / 1000
}
